package padward.format.ledger;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.fabric.Fabric;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Passes;
import padward.format.source.Source;

/** Reads ledgers. Whether their edits fit a design is found out when they are applied. */
public final class LedgerReader {
    private LedgerReader() {}

    /**
     * Reads a ledger.
     *
     * @param fabric the fabric whose vertices it names
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static Ledger read(Path file, Fabric fabric, Progress progress) throws BadInput {
        return read(Source.of(file), EditForms.on(fabric), progress);
    }

    /**
     * Reads a whole ledger without its fabric: every name that a vertex may have is taken for one.
     * Vertices have numbers of their own.
     *
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static Ledger readAlone(Source source, Progress progress) throws BadInput {
        return read(source, EditForms.alone(), progress);
    }

    private static Ledger read(Source source, EditForms edits, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.LEDGER);
        Ledger ledger = LedgerForm.of(edits).read(source, progress);
        LedgerReplay.checkOrder(ledger, source.label());
        return ledger;
    }

    /** The text of the JSON Schema of ledgers. */
    public static String schema() {
        return LedgerForm.of(EditForms.alone()).schema().toFile("Padward ledger");
    }

    /** The design's file that a ledger names; nothing else of it is read. */
    static String designOf(Path file) throws BadInput {
        String[] design = {""};
        new Passes()
                .part("format!", JsonIn::skip)
                .part("design!", in -> design[0] = in.name())
                .part("sha256!", JsonIn::skip)
                .part("entries!", JsonIn::skip)
                .run(Source.of(file), Progress.NONE);
        return design[0];
    }
}
