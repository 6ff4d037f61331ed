package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.ReplaceOption;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.design.BoardWriter;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.format.fabric.PatternWriter;
import padward.format.source.FolderSwap;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code make}: an invented fabric with a placed and routed design on it. */
@Command(
        name = "make",
        mixinStandardHelpOptions = true,
        description =
                "Makes an invented fabric with about the given number of wires, a board, and a "
                        + "placed and routed design. The same seed gives the same files.",
        footer = {"", "Example:", "  padward make --wires 20000 --seed 7 --used 0.6 -o /tmp/made"})
public final class MakeCommand implements Callable<Integer> {
    private static final int LEAST_WIRES = 5_000;
    private static final int MOST_WIRES = 20_000_000;

    private static final String FABRIC = "fabric.json.gz";
    private static final String DESIGN = "design.json.gz";
    private static final String BOARD = "board.json";
    private static final List<String> FILES = List.of(FABRIC, DESIGN, BOARD);

    @Mixin private ReplaceOption replacing;
    @Spec private CommandSpec spec;

    @Option(
            names = "--wires",
            required = true,
            paramLabel = "N",
            description = "Approximate number of wires.")
    private int wires;

    @Option(
            names = "--seed",
            defaultValue = "1",
            description = "Seed of the random choices (${DEFAULT-VALUE}).")
    private long seed;

    @Option(
            names = "--used",
            defaultValue = "0.6",
            paramLabel = "SHARE",
            description =
                    "Share of the logic sites that the design uses, 0 to 0.9 (${DEFAULT-VALUE}).")
    private double used;

    @Option(
            names = "--style",
            defaultValue = "regular",
            paramLabel = "STYLE",
            description =
                    "regular: all wires run straight and are entered at their begin; irregular: "
                            + "with taps, switches that share a setting, bends, a clock wire that "
                            + "spreads over the chip, a corner cut out, and pads that are not "
                            + "bonded or for something else; long: as regular, with wires "
                            + "that run 28 tiles and have taps on their way "
                            + "(${DEFAULT-VALUE}).")
    private Style style;

    /** What the fabric is like. */
    enum Style {
        REGULAR,
        IRREGULAR,
        LONG;

        MadeDesign make(int wires, long seed, double used, Progress progress) {
            return switch (this) {
                case REGULAR -> DesignMaker.make(wires, seed, used, progress);
                case IRREGULAR -> DesignMaker.makeIrregular(wires, seed, used, progress);
                case LONG -> DesignMaker.makeWithLongLines(wires, seed, used, progress);
            };
        }
    }

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "DIR",
            description = "Folder to write " + FABRIC + ", " + DESIGN + " and " + BOARD + " to.")
    private Path folder;

    @Override
    public Integer call() throws BadInput {
        if (wires < LEAST_WIRES || wires > MOST_WIRES) {
            throw new BadInput(
                    "--wires",
                    "",
                    "a number from " + LEAST_WIRES + " to " + MOST_WIRES,
                    String.valueOf(wires));
        }
        if (!(used >= 0 && used <= 0.9)) {
            throw new BadInput("--used", "", "a number from 0 to 0.9", String.valueOf(used));
        }
        replacing.check(folder);
        MadeDesign made = style.make(wires, seed, used, ConsoleProgress.of(spec));
        Design design = made.design();
        FolderSwap.write(folder, FILES::contains, into -> write(made, into));
        PrintWriter out = spec.commandLine().getOut();
        out.printf(
                Locale.ROOT,
                "%s: %d vertices, %d cells, %d nets, %d ports; %d nets left out%n",
                folder.resolve(DESIGN),
                design.fabric().vertexCount(),
                design.cells().size(),
                design.nets().size(),
                design.ports().size(),
                made.leftOut());
        out.flush();
        return ExitStatus.DONE;
    }

    private static void write(MadeDesign made, Path folder) throws BadInput {
        Design design = made.design();
        if (made.spec().isPresent()) {
            PatternWriter.write(made.spec().get(), folder.resolve(FABRIC));
        } else {
            FabricWriter.write(design.fabric(), folder.resolve(FABRIC));
        }
        BoardWriter.write(design.board(), design.fabric(), folder.resolve(BOARD));
        DesignWriter.write(design, folder.resolve(DESIGN), FABRIC, BOARD);
    }
}
