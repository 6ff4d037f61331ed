package padward.cli.option;

import java.util.List;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.ledger.EntrySigning;
import picocli.CommandLine.Option;

/** The options that state who keeps a change, and why. */
public final class SigningOption {
    @Option(
            names = "--note",
            defaultValue = "",
            description = "A note for later readers, recorded in the ledger.")
    private String note;

    @Option(
            names = "--who",
            defaultValue = "${sys:user.name}",
            description = "The name recorded in the ledger (${DEFAULT-VALUE}).")
    private String who;

    /** An entry for a ledger. */
    public LedgerEntry entry(Design before, String net, String pad, List<Edit> edits) {
        return EntrySigning.entry(before, net, pad, edits, who, note);
    }

    /** As {@link #entry}, with the command's own note if the user gave none. */
    public LedgerEntry entry(
            Design before, String net, String pad, List<Edit> edits, String otherwise) {
        return EntrySigning.entry(before, net, pad, edits, who, note.isBlank() ? otherwise : note);
    }
}
