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

    /** Its name in small letters, for commands that tell the form by the name's end. */
    public String lowerName() {
        return file.getFileName().toString().toLowerCase(Locale.ROOT);
    }

    /** Checks that it is none of the files that are read, and that its folder is there. */
    public Path checked(DesignOption design, LedgerOption ledger) throws BadInput {
        Outputs.checkBesideDesign(file, design.file(), ledger.file());
        return file;
    }
}
