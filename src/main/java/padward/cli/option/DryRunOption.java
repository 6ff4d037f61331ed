package padward.cli.option;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.change.Ledger;
import padward.fabric.Fabric;
import padward.format.ledger.LedgerFile;
import picocli.CommandLine.Option;

/** The option that answers and checks all, and writes nothing. */
public final class DryRunOption {
    @Option(
            names = "--dry-run",
            description = "Answers and checks everything as without it, and writes nothing.")
    private boolean on;

    /** Whether nothing is written. */
    public boolean isOn() {
        return on;
    }

    /** Changes a ledger, or only calculates what it would be. */
    public Ledger change(Path ledger, Path design, Fabric fabric, LedgerFile.Change change)
            throws BadInput {
        return on
                ? LedgerFile.tried(ledger, design, fabric, change)
                : LedgerFile.change(ledger, design, fabric, change);
    }

    /** One of two texts: what was done, or what would be. */
    public String either(String done, String wouldBe) {
        return on ? wouldBe : done;
    }
}
