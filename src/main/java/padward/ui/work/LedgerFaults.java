package padward.ui.work;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.base.BadInput;

/**
 * Ledgers that do not belong to what is open. The command tells these in digests and options; the
 * window says what they mean, and never to correct a digest by hand.
 */
final class LedgerFaults {
    private static final Pattern ENTRY =
            Pattern.compile("\\$\\.entries\\[(\\d{1,9})](\\.before|\\.after)?");

    private static final Pattern DIGEST = Pattern.compile("[0-9a-f]{64}");

    private static final String STAYS = "; what was open stays open.";

    private LedgerFaults() {}

    /**
     * What the window says.
     *
     * @param what what is wrong, a sentence
     * @param next what to do about it, a sentence
     */
    record Text(String what, String next) {}

    /** The text for a fault; empty when it is none of these. */
    static Optional<Text> find(BadInput fault) {
        return switch (fault.kind()) {
            case OTHER_FILE -> Optional.of(ofOtherFile(fault));
            case DOES_NOT_FIT, NEEDS_CHOICE, PLAIN -> ofEntry(fault);
        };
    }

    private static Text ofOtherFile(BadInput fault) {
        return new Text(
                fault.source() + ": this ledger was made on another design file than the open one.",
                "Open the file that it was made on. If this is a new run of the same design, the"
                        + " command padward apply --new-ledger carries the ledger over"
                        + STAYS);
    }

    private static Optional<Text> ofEntry(BadInput fault) {
        Matcher entry = ENTRY.matcher(fault.place());
        if (!entry.matches()) {
            return Optional.empty();
        }
        String where = fault.source() + ", at entry " + (Long.parseLong(entry.group(1)) + 1) + ": ";
        if (entry.group(2) != null) {
            return Optional.of(fault)
                    .filter(f -> DIGEST.matcher(f.found()).matches())
                    .map(f -> ofDigest(where));
        }
        return Optional.of(fault)
                .filter(f -> f.kind() == BadInput.Kind.DOES_NOT_FIT)
                .map(f -> ofClash(where, f));
    }

    private static Text ofDigest(String where) {
        return new Text(
                where + "what the ledger states about the design does not agree with the open one.",
                "The ledger was made on another design, or was edited by hand. Open that design, or"
                        + " an unedited copy of the ledger"
                        + STAYS);
    }

    private static Text ofClash(String where, BadInput fault) {
        return new Text(
                where + FaultText.needs(fault) + ".",
                "Ask for its net again on the open design, and keep the new answer" + STAYS);
    }
}
