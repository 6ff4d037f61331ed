package padward.format.source;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** The folder for what lasts from one session to the next: the session, kept changes, learners. */
public final class UserFolder {
    /** System property that names another folder. */
    static final String PROPERTY = "padward.settings";

    private UserFolder() {}

    /** The user's folder for Padward; it need not exist yet. */
    public static Path path() {
        return path(
                Optional.ofNullable(System.getProperty(PROPERTY)),
                System.getProperty("os.name", ""),
                System.getProperty("user.home", "."),
                System.getenv());
    }

    /**
     * The same, from what it depends on: on Linux the folder that the XDG Base Directory
     * Specification 0.8 says ({@code $XDG_CONFIG_HOME}, {@code ~/.config} when it is unset or not
     * absolute), on Windows {@code %APPDATA%}, on macOS {@code ~/Library/Application Support}; the
     * last two are common practice.
     */
    static Path path(
            Optional<String> given, String system, String home, Map<String, String> environment) {
        if (given.isPresent()) {
            return Path.of(given.get());
        }
        String name = system.toLowerCase(Locale.ROOT);
        if (name.startsWith("windows")) {
            return Path.of(environment.getOrDefault("APPDATA", home)).resolve("Padward");
        }
        if (name.startsWith("mac")) {
            return Path.of(home, "Library", "Application Support", "Padward");
        }
        String configured = environment.getOrDefault("XDG_CONFIG_HOME", "");
        Path base = configured.startsWith("/") ? Path.of(configured) : Path.of(home, ".config");
        return base.resolve("padward");
    }
}
