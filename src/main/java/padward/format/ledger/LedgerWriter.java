package padward.format.ledger;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.change.Ledger;
import padward.fabric.Fabric;

/** Writes ledgers, as a whole or not at all. */
public final class LedgerWriter {
    private LedgerWriter() {}

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @param fabric the fabric whose vertices the entries name
     * @throws BadInput when it cannot be written; an old file is then unchanged
     * @throws IllegalArgumentException when an entry has no digests
     */
    public static void write(Ledger ledger, Fabric fabric, Path file) throws BadInput {
        LedgerForm.of(EditForms.on(fabric)).write(file, ledger);
    }
}
