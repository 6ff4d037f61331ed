package padward.cli.option;

import java.nio.file.Files;
import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.design.Design;
import padward.format.ledger.LedgerReader;
import picocli.CommandLine.Option;

/** The option that names the ledger that a command works with. */
public final class LedgerOption {
    @Option(
            names = {"-l", "--ledger"},
            required = true,
            paramLabel = "FILE",
            description = "The ledger's file.")
    private Path file;

    public Path file() {
        return file;
    }

    /** The ledger of a design that is read. */
    public Ledger read(Design design) throws BadInput {
        return LedgerReader.read(file, design.fabric(), Progress.NONE);
    }

    /** Checks that the file exists, for commands that do not create it. */
    public void checkIsThere() throws BadInput {
        if (!Files.exists(file)) {
            throw new BadInput(file.toString(), "", "a ledger", "no such file");
        }
    }
}
