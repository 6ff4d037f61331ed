package padward.cli.option;

import java.nio.file.Path;
import java.util.Locale;
import padward.base.BadInput;
import picocli.CommandLine.Option;

/** The option that names the file that a command writes. */
public final class OutputOption {
    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "FILE",
            description = "The file to write; never one of the input files.")
    private Path file;

    public Path file() {
        return file;
    }

    /** Its name in lower case, for commands that select the format by the name's ending. */
    public String lowerName() {
        return file.getFileName().toString().toLowerCase(Locale.ROOT);
    }

    /** Checks that it is not one of the input files, and that its folder exists. */
    public Path checked(DesignOption design, LedgerOption ledger) throws BadInput {
        Outputs.checkWithDesign(file, design.file(), ledger.file());
        return file;
    }
}
