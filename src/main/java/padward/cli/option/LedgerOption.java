package padward.cli.option;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.design.Design;
import padward.format.ledger.LedgerReader;
import padward.format.ledger.LedgerReplay;
import padward.format.source.Text;
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

    /**
     * The same, for looking at it only: where it was made on another file, a line says so.
     *
     * @param out where that is said
     */
    public Ledger readToList(Design design, Path designFile, PrintWriter out) throws BadInput {
        Ledger read = read(design);
        if (!LedgerReplay.isOf(read, designFile)) {
            out.println(
                    file
                            + " was made on another file, "
                            + Text.quote(read.design())
                            + ", not on "
                            + designFile
                            + "; apply says which entries fit this one.");
            out.flush();
        }
        return read;
    }

    /** Checks that the file exists, for commands that do not create it. */
    public void checkIsThere() throws BadInput {
        if (!Files.exists(file)) {
            throw new BadInput(file.toString(), "", "a ledger", "no such file");
        }
    }
}
