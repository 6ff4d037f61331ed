package padward.cli.manners;

import java.io.Console;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;

/** The terminal that is printed to, if any. docs/security.md says what this class starts. */
public final class Terminal {
    private static final int NARROWEST = 40;
    private static final int WIDEST = 10_000;

    /** By its full path: of the system, whatever PATH says. */
    private static final File MEASURE = new File("/bin/stty");

    private Terminal() {}

    /** Its width in characters; empty when what is printed goes elsewhere. */
    public static OptionalInt width() {
        if (!isThere()) {
            return OptionalInt.empty();
        }
        OptionalInt stated = number(System.getenv("COLUMNS"));
        return stated.isPresent() ? stated : measured();
    }

    /** Whether standard error is shown on it. */
    static boolean showsErrors() {
        try {
            String shown = Files.readSymbolicLink(Path.of("/proc/self/fd/2")).toString();
            return shown.startsWith("/dev/pts/") || shown.startsWith("/dev/tty");
        } catch (IOException | UnsupportedOperationException elsewhere) {
            // No such system: the other streams say whether someone is there.
            return isThere();
        }
    }

    private static boolean isThere() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            // From Java 22 on there is a console without a terminal, which says so.
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (ReflectiveOperationException before22) {
            return true;
        }
    }

    private static OptionalInt measured() {
        File device = new File("/dev/tty");
        if (!device.exists() || !MEASURE.canExecute()) {
            return OptionalInt.empty();
        }
        try {
            Process process =
                    new ProcessBuilder(MEASURE.getPath(), "size")
                            .redirectInput(device)
                            .redirectError(ProcessBuilder.Redirect.DISCARD)
                            .start();
            if (!process.waitFor(500, TimeUnit.MILLISECONDS)) {
                process.destroy();
                return OptionalInt.empty();
            }
            String size =
                    new String(process.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
            return number(size.strip().replaceFirst("^\\d+ ", ""));
        } catch (IOException fault) {
            return OptionalInt.empty();
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            return OptionalInt.empty();
        }
    }

    private static OptionalInt number(String text) {
        if (text == null || !text.matches("\\d{1,5}")) {
            return OptionalInt.empty();
        }
        int width = Integer.parseInt(text);
        return width < NARROWEST || width > WIDEST ? OptionalInt.empty() : OptionalInt.of(width);
    }
}
