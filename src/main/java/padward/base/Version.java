package padward.base;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/** Which version of Padward this is: the build writes it into a file beside this class. */
public final class Version {
    private static final String FILE = "version.txt";

    private Version() {}

    /** The version, {@code 0.1.0}; {@code not built} where classes run that Maven has not built. */
    public static String text() {
        try (InputStream file = Version.class.getResourceAsStream(FILE)) {
            String text =
                    file == null
                            ? ""
                            : new String(file.readAllBytes(), StandardCharsets.UTF_8).strip();
            return text.isEmpty() || text.startsWith("$") ? "not built" : text;
        } catch (IOException fault) {
            throw new IllegalStateException("a part of the program cannot be read", fault);
        }
    }
}
