package padward.cli.watch;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.format.netlist.CellMapping;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.watch.own.OwnNetlist;
import padward.watch.request.OwnPart;
import picocli.CommandLine.Option;

/** The options that state a circuit of the user's own. */
public final class OwnOption {
    @Option(
            names = "--netlist",
            paramLabel = "FILE",
            description =
                    "own: the netlist, structural Verilog, or EDIF 2 0 0 if the name ends in .edf, "
                            + ".edif or .edn. Its outputs go to the pads in their order.")
    private Path netlist;

    @Option(
            names = "--mapping",
            paramLabel = "FILE",
            description =
                    "own: the file that states the kind of cell of each type in the netlist, as "
                            + "for place-route.")
    private Path mapping;

    @Option(
            names = "--top",
            defaultValue = "",
            paramLabel = "MODULE",
            description = "own: the top module, if the netlist has several candidates.")
    private String top = "";

    @Option(
            names = "--bind",
            paramLabel = "INPUT=NET",
            description =
                    "own: which net an input of the netlist is, or which vector a vector, or which "
                            + "pad is read; may be repeated. Other inputs are the nets of the same "
                            + "names, or their last parts; one that clocks registers is the clock.")
    private List<String> bindings = List.of();

    /** Reads the files. */
    OwnPart read(Fabric fabric) throws BadInput {
        Path file = given(netlist, "--netlist", "the netlist's file");
        Path types = given(mapping, "--mapping", "the mapping's file");
        NetlistReader.Mapped read = read(file, types, fabric);
        return new OwnPart(
                new OwnNetlist(
                        file.toString(), read.netlist(), fabric.info().cellKinds(), read.notes()),
                bindings);
    }

    private NetlistReader.Mapped read(Path file, Path types, Fabric fabric) throws BadInput {
        CellMapping mapping = CellMappingReader.read(types, Progress.NONE);
        try {
            return NetlistReader.read(file, top, mapping, fabric, Progress.NONE);
        } catch (BadInput fault) {
            throw fault.orBy("--top");
        }
    }

    private static Path given(Path file, String option, String expected) throws BadInput {
        return Optional.ofNullable(file)
                .orElseThrow(() -> new BadInput(option, "", expected, "none"));
    }
}
