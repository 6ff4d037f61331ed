package padward.ui;

import java.util.ArrayList;
import java.util.List;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Trial;

/**
 * The trials that have been kept on top of an opened design, and those undone. The opened design
 * itself never changes: what is shown is always that design with the kept edits applied to it.
 * Immutable.
 *
 * @param original the design as it was opened
 * @param kept what is kept, oldest first
 * @param undone what can be done again, the last undone foremost
 */
public record TrialDesk(Design original, List<Kept> kept, List<Kept> undone) {
    /**
     * One kept trial.
     *
     * @param what what it was for, in a few words
     * @param edits its edits
     */
    public record Kept(String what, List<Edit> edits) {
        /** Copies the edits. */
        public Kept {
            edits = List.copyOf(edits);
        }
    }

    /** Copies the lists. */
    public TrialDesk {
        kept = List.copyOf(kept);
        undone = List.copyOf(undone);
    }

    /** A desk with nothing kept. */
    public static TrialDesk of(Design original) {
        return new TrialDesk(original, List.of(), List.of());
    }

    /** The design with everything that is kept. O(size of the design). */
    public Design design() {
        List<Edit> all = new ArrayList<>();
        kept.forEach(k -> all.addAll(k.edits()));
        return Trial.of(original, all);
    }

    /** Keeps one more; what was undone is forgotten. */
    public TrialDesk keeping(Kept more) {
        List<Kept> all = new ArrayList<>(kept);
        all.add(more);
        return new TrialDesk(original, all, List.of());
    }

    /** Whether anything can be undone. */
    public boolean canUndo() {
        return !kept.isEmpty();
    }

    /** Whether anything can be done again. */
    public boolean canRedo() {
        return !undone.isEmpty();
    }

    /** Without the last kept one. */
    public TrialDesk undo() {
        List<Kept> back = new ArrayList<>(undone);
        back.add(0, kept.get(kept.size() - 1));
        return new TrialDesk(original, kept.subList(0, kept.size() - 1), back);
    }

    /** With the last undone one again. */
    public TrialDesk redo() {
        List<Kept> all = new ArrayList<>(kept);
        all.add(undone.get(0));
        return new TrialDesk(original, all, undone.subList(1, undone.size()));
    }
}
