package padward.cli.command;

import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.format.json.FileHeader;
import padward.format.source.Source;
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

    /** What is wrong with it, as far as that is known before it is read as a whole. */
    public Optional<String> findFault() {
        try {
            if (file != null) {
                FileHeader.expect(Source.of(file), FileHeader.DESIGN);
            }
            return Optional.empty();
        } catch (BadInput fault) {
            return Optional.of(fault.getMessage());
        }
    }
}
