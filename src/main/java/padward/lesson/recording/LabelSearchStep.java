package padward.lesson.recording;

import java.util.List;
import padward.design.Occupant;

/**
 * One step of the search for the fewest obstacles, as a value.
 *
 * @param event what happened to the label
 * @param vertex the label's vertex
 * @param removed the occupants that must be removed to get there
 */
public record LabelSearchStep(Event event, int vertex, List<Occupant> removed) {
    /** What can happen to a label. */
    public enum Event {
        /** It is new and waits to be expanded. */
        MADE,
        /** It is not needed: the same set, or a smaller one, is there already. */
        DROPPED,
        /** It is expanded: the most promising of those that wait. */
        TAKEN,
        /** It has arrived at the other end: removing its set opens a route. */
        ARRIVED
    }

    /** Copies the occupants. */
    public LabelSearchStep {
        removed = List.copyOf(removed);
    }
}
