package padward.lesson;

import java.util.List;
import java.util.Optional;
import padward.breakout.Answer;
import padward.breakout.Hop;
import padward.breakout.Question;
import padward.breakout.Way;
import padward.breakout.WhyBlocked;
import padward.design.Design;
import padward.design.Edit;

/**
 * What a lesson looks at: the state of the window's work, not how it came about.
 *
 * @param original the design as it was opened
 * @param now the design with what is kept
 * @param answer the present answer, with its question
 * @param clearance the clearance that is looked at, of a blocked answer
 * @param way the way that is shown
 * @param hop index of the hop of that way that is chosen
 * @param trial a trial that waits to be kept or dropped
 * @param kept what is kept, oldest first
 */
public record WindowState(
        Design original,
        Design now,
        Optional<Answer> answer,
        Optional<WhyBlocked.Option> clearance,
        Optional<Way> way,
        Optional<Integer> hop,
        Optional<Tried> trial,
        List<Kept> kept) {
    /**
     * A trial.
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

    /**
     * A kept change.
     *
     * @param net the net that it was for
     * @param pad full name of the pad that it was for
     * @param edits its edits
     */
    public record Kept(String net, String pad, List<Edit> edits) {
        /** Copies the edits. */
        public Kept {
            edits = List.copyOf(edits);
        }
    }

    /** Copies what is kept. */
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
        return way.flatMap(
                w -> hop.filter(h -> h >= 0 && h < w.hops().size()).map(h -> w.hops().get(h)));
    }
}
