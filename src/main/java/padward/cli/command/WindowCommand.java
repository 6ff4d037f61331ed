package padward.cli.command;

import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * {@code window}: opens the window. The program's entry point handles this command before the
 * command line is parsed, because only the window may load the toolkit; this class only provides
 * its help.
 */
@Command(
        name = "window",
        mixinStandardHelpOptions = true,
        description = "Opens the window, on the built-in demo when no design is given.",
        footer = {"", "Example:", "  padward window --design fixtures/small/around.design.json"})
public final class WindowCommand {
    @Option(
            names = {"-d", "--design"},
            paramLabel = "FILE",
            description = "The design to open.")
    private Path file;

    /** The design named on the command line. */
    public Optional<Path> file() {
        return Optional.ofNullable(file);
    }
}
