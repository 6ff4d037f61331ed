package padward.cli;

import java.io.Console;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalInt;
import padward.cli.manners.WrappingWriter;

/**
 * In what encoding words come in and go out. What goes to a file or another program is UTF-8,
 * whatever the locale; a terminal gets the encoding that it is said to have. A locale of plain
 * ASCII says nothing of the terminal: most often none was set.
 */
public final class TextStreams {
    private static final char UNREADABLE = '\ufffd';

    private TextStreams() {}

    /**
     * Text for one of the process's two output streams, without anything that steers a terminal.
     */
    public static PrintWriter writer(PrintStream stream) {
        return writer(stream, OptionalInt.empty());
    }

    /** The same, with long lines broken between words where a width is given. */
    public static PrintWriter writer(PrintStream stream, OptionalInt width) {
        Writer plain = new PlainWriter(new OutputStreamWriter(stream, encoding()));
        return new PrintWriter(
                width.isPresent() ? new WrappingWriter(plain, width.getAsInt()) : plain, true);
    }

    /**
     * Whether these words ask for JSON, of which no line may be broken: it is for programs, which
     * may be given it through a terminal, too.
     */
    static boolean printsJson(String[] arguments) {
        return Arrays.stream(arguments)
                .anyMatch(
                        a -> a.equals("--json") || a.equals("--batch") || a.startsWith("--batch="));
    }

    private static Charset encoding() {
        Console console = System.console();
        boolean unset = console == null || console.charset().equals(StandardCharsets.US_ASCII);
        return unset ? StandardCharsets.UTF_8 : console.charset();
    }

    /**
     * What is wrong when the locale cannot express the words of the command line: kept as they
     * arrive, a name or a note would be damaged.
     */
    public static Optional<String> findUnreadable(String[] arguments) {
        return Arrays.stream(arguments)
                .filter(a -> a.indexOf(UNREADABLE) >= 0)
                .findFirst()
                .map(
                        a ->
                                "expected words that the locale can express, found “"
                                        + a
                                        + "”; LC_ALL=C.UTF-8 in front of the command lets it"
                                        + " express all");
    }
}
