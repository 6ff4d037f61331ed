package padward.cli.option;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Glob;
import padward.design.Net;
import padward.design.PadNames;
import padward.format.design.DesignReader;
import padward.format.source.Nearest;
import picocli.CommandLine.Option;

/** The option that names a design, and the look-ups in it that commands share. */
public final class DesignOption {
    private static final int MOST_LISTED = 5;

    @Option(
            names = {"-d", "--design"},
            required = true,
            paramLabel = "FILE",
            description = "The design's file, which names its fabric and its board.")
    private Path file;

    public Path file() {
        return file;
    }

    public Design read() throws BadInput {
        return DesignReader.read(file, Progress.NONE);
    }

    /** The one net that an option's name or pattern means. */
    public static Net net(String option, Design design, String text) throws BadInput {
        if (design.findNet(text).isPresent()) {
            return design.findNet(text).get();
        }
        Glob glob = Glob.of(text);
        List<Net> fitting = design.nets().stream().filter(n -> glob.matches(n.name())).toList();
        if (fitting.size() == 1) {
            return fitting.get(0);
        }
        String expected = "the name of a net, or a pattern that matches only one";
        if (fitting.size() > 1) {
            throw new BadInput(
                    option,
                    "",
                    expected,
                    "“"
                            + text
                            + "”, which matches "
                            + listed(fitting.stream().map(Net::name).toList()));
        }
        List<String> names = design.nets().stream().map(Net::name).toList();
        throw new BadInput(option, "", expected, "“" + text + "”" + hint(text, names));
    }

    /** The index of the one pad that a name means. */
    public static int pad(Design design, String text) throws BadInput {
        List<Integer> fitting = PadNames.find(design, text);
        if (fitting.size() == 1) {
            return fitting.get(0);
        }
        String expected = "one pad, by its name, package pin, port, board net or header pin";
        if (fitting.size() > 1) {
            List<String> names =
                    fitting.stream().map(i -> design.fabric().pads().get(i).name()).toList();
            throw new BadInput(
                    "--pad", "", expected, "“" + text + "”, which can mean " + listed(names));
        }
        List<String> names =
                IntStream.range(0, design.fabric().pads().size())
                        .boxed()
                        .flatMap(i -> PadNames.namesOf(design, i).stream())
                        .toList();
        throw new BadInput("--pad", "", expected, "“" + text + "”" + hint(text, names));
    }

    /** The name that was probably meant: the nearest, or else the first that ends alike. */
    public static String hint(String text, List<String> names) {
        return Nearest.find(text, names.stream())
                .or(() -> names.stream().filter(n -> n.endsWith("/" + text)).findFirst())
                .map(n -> "; the nearest name is “" + n + "”")
                .orElse("");
    }

    private static String listed(List<String> names) {
        String shown = names.stream().limit(MOST_LISTED).collect(Collectors.joining(", "));
        return names.size() <= MOST_LISTED
                ? shown
                : shown + " and " + (names.size() - MOST_LISTED) + " more";
    }
}
