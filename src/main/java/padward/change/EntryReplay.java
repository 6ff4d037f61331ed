package padward.change;

import java.util.List;
import padward.design.Design;

/**
 * Kept changes applied to a design one after the other, each checked first. Belongs to one thread.
 */
public final class EntryReplay {
    private Design design;

    /** Starts from a design with nothing applied. */
    public EntryReplay(Design base) {
        this.design = base;
    }

    /**
     * Applies the edits of one entry together, if they fit. O(what they touch).
     *
     * @return what stands against them, in words; empty when they fitted and are applied
     */
    public List<String> add(List<Edit> edits) {
        Outcome outcome = Outcome.of(design, edits);
        if (outcome instanceof Outcome.Refused refused) {
            return refused.reasons();
        }
        design = ((Outcome.Applied) outcome).design();
        return List.of();
    }

    /** The design with all that fitted so far. */
    public Design design() {
        return design;
    }
}
