package padward.cli;

import java.util.List;
import padward.design.Design;
import padward.design.Edit;
import padward.design.LedgerEntry;
import padward.format.Signing;
import picocli.CommandLine.Option;

/** The options that tell who keeps something, and why. */
final class SigningOption {
    @Option(names = "--note", defaultValue = "", description = "Why, for whoever reads it next.")
    private String note;

    @Option(
            names = "--who",
            defaultValue = "${sys:user.name}",
            description = "Who keeps it (${DEFAULT-VALUE}).")
    private String who;

    /** An entry for a ledger. */
    LedgerEntry entry(Design before, String net, String pad, List<Edit> edits) {
        return Signing.entry(before, net, pad, edits, who, note);
    }

    /** As {@link #entry}, with a note of the command's own where the user gave none. */
    LedgerEntry entry(Design before, String net, String pad, List<Edit> edits, String otherwise) {
        return Signing.entry(before, net, pad, edits, who, note.isBlank() ? otherwise : note);
    }
}
