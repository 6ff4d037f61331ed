package padward.lesson.recording;

import java.util.List;
import padward.design.Occupant;

/**
 * One step of the search for the fewest occupants, as a value.
 *
 * @param event what happened to the label
 * @param vertex the label's vertex
 * @param freed the occupants freed to get there
 */
public record LabelStep(Event event, int vertex, List<Occupant> freed) {
    /** What can happen to a label. */
    public enum Event {
        /** It waits to be looked at. */
        MADE,
        /** It is not made: a smaller set, or the same, is there already. */
        DROPPED,
        /** It is looked at: the most promising of those that wait. */
        TAKEN,
        /** It has arrived at the other end: freeing its set opens a way. */
        ARRIVED
    }

    /** Copies the occupants. */
    public LabelStep {
        freed = List.copyOf(freed);
    }
}
