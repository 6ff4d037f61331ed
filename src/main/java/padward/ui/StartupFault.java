package padward.ui;

import java.util.Locale;
import java.util.Optional;

/** Why a window cannot be opened, in words that say what to do about it. */
final class StartupFault {
    private static final String TEXT =
            "the window cannot draw text, because a library that JavaFX's text engine needs is"
                    + " missing (%s). Install Pango's FreeType part, on Debian the package"
                    + " libpangoft2-1.0-0, or a full JDK instead of a headless one. The command"
                    + " line works without; see --help.";
    private static final String DISPLAY =
            "there is no display to open a window on (%s). The command line works without; see"
                    + " --help.";
    private static final String TOOLKIT =
            "the window cannot open, because a library that JavaFX needs is missing (%s). On"
                    + " Debian, the package libgtk-3-0 brings it. The command line works without;"
                    + " see --help.";

    private StartupFault() {}

    /** The message; empty when the cause is not the machine but a fault of the program. */
    static Optional<String> of(Throwable fault) {
        for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
            String message = String.valueOf(cause.getMessage());
            boolean ofText =
                    message.contains("javafx_font")
                            || message.contains("pango")
                            || message.contains("javafx.font.freetype")
                            || message.contains("javafx.text.GlyphLayout");
            if (cause instanceof LinkageError && ofText) {
                return Optional.of(String.format(Locale.ROOT, TEXT, message));
            }
            if (message.contains("DISPLAY")) {
                return Optional.of(String.format(Locale.ROOT, DISPLAY, message));
            }
            if (cause instanceof UnsatisfiedLinkError || message.contains("Unable to load glass")) {
                return Optional.of(String.format(Locale.ROOT, TOOLKIT, message));
            }
        }
        return Optional.empty();
    }
}
