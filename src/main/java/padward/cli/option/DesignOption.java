package padward.cli.option;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.NearestName;
import padward.base.Progress;
import padward.cli.manners.ConsoleProgress;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.question.OtherNames;
import padward.format.source.Source;
import padward.route.bound.TableAhead;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The option that names a design, and look-ups of its nets and pads for all commands. */
public final class DesignOption {
    @Option(
            names = {"-d", "--design"},
            required = true,
            paramLabel = "FILE",
            defaultValue = "${env:PADWARD_DESIGN}",
            description =
                    "The design's file, which names its fabric and its board. Otherwise the one"
                            + " that the environment names in PADWARD_DESIGN.")
    private Path file;

    @Option(
            names = "--names",
            paramLabel = "FILE",
            defaultValue = "${env:PADWARD_NAMES}",
            description =
                    "A table (CSV) of names that nets have elsewhere, as in your source text:"
                            + " columns name and net. Otherwise the one that the environment names in"
                            + " PADWARD_NAMES.")
    private Path names;

    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    private Optional<Progress> progress = Optional.empty();

    /**
     * The option with a file, and no table of other names.
     *
     * @param progress where its command's work is reported
     */
    public static DesignOption of(Path file, Progress progress) {
        DesignOption option = new DesignOption();
        option.file = file;
        option.progress = Optional.of(progress);
        return option;
    }

    public Path file() {
        return file;
    }

    /** The progress of the command that has this option: one for all its work. */
    public Progress progress() {
        if (progress.isEmpty()) {
            progress = Optional.of(ConsoleProgress.of(spec));
        }
        return progress.get();
    }

    /** The design, with the other names of its nets. */
    public Design read() throws BadInput {
        return read(file);
    }

    /**
     * The same for a command that will look for routes to pads: what that takes is calculated while
     * the design is read.
     *
     * @param corner the corner at which it will
     */
    public Design readToAsk(Corner corner) throws BadInput {
        TableAhead ahead = new TableAhead(corner);
        boolean done = false;
        try {
            Design design = named(DesignReader.read(Source.of(file), ahead::begin, progress()));
            done = true;
            return design;
        } finally {
            if (!done) {
                ahead.stop();
            }
        }
    }

    /** The design in an earlier file of it, with the same other names. */
    public Design read(Path earlier) throws BadInput {
        return named(DesignReader.read(earlier, progress()));
    }

    private Design named(Design design) throws BadInput {
        return names == null ? design : design.withOtherNames(OtherNames.read(names));
    }

    /** The one net that an option's name or pattern refers to. */
    public static Net net(String option, Design design, String text) throws BadInput {
        return NameLookup.requireNet(design, text, option);
    }

    /** The index of the one pad that a name refers to. */
    public static int pad(Design design, String text) throws BadInput {
        return NameLookup.requirePad(design, text, "--pad");
    }

    /** The name that was probably meant: the nearest, or else the first with the same end. */
    public static String hint(String text, List<String> names) {
        return NearestName.find(text, names.stream())
                .or(() -> names.stream().filter(n -> n.endsWith("/" + text)).findFirst())
                .map(n -> "; the nearest name is “" + n + "”")
                .orElse("");
    }
}
