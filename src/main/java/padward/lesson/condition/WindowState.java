package padward.lesson.condition;

import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;

/**
 * What a lesson checks: the state of the work in the window, not how it was reached.
 *
 * @param original the design as opened
 * @param now the design with all kept changes
 * @param answer the present answer, with its question
 * @param option the chosen option to unblock, of a blocked answer
 * @param route the route that is shown
 * @param hop index of the chosen hop of that route
 * @param whatIf the what-if that can be kept or dropped
 * @param kept the kept changes, oldest first
 */
public record WindowState(
        Design original,
        Design now,
        Optional<Answer> answer,
        Optional<WhyBlocked.Option> option,
        Optional<Route> route,
        Optional<Integer> hop,
        Optional<Tried> whatIf,
        List<LedgerEntry> kept) {
    /**
     * A what-if.
     *
     * @param edits its edits
     * @param after the answer with it
     */
    public record Tried(List<Edit> edits, Answer after) {
        /** Copies the edits. */
        public Tried {
            edits = List.copyOf(edits);
        }
    }

    /** Copies the kept changes. */
    public WindowState {
        kept = List.copyOf(kept);
    }

    /** A design that has just been opened. */
    public static WindowState opened(Design design) {
        return new WindowState(
                design,
                design,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of());
    }

    /** The present question. */
    public Optional<Question> question() {
        return answer.map(Answer::question);
    }

    /** The hop that is chosen. */
    public Optional<Hop> chosenHop() {
        return route.flatMap(
                w -> hop.filter(h -> h >= 0 && h < w.hops().size()).map(h -> w.hops().get(h)));
    }
}
