package padward.ui.model;

import java.util.List;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.Asker;
import padward.breakout.Question;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.Trial;
import padward.ui.scene.Opened;

/**
 * A trial that has been tried out, and waits to be kept or dropped.
 *
 * @param edits its edits
 * @param before the answer without it
 * @param after the answer with it
 * @param design the design with it
 */
public record TriedOut(List<Edit> edits, Answer before, Answer after, Opened design) {
    /** Copies the list. */
    public TriedOut {
        edits = List.copyOf(edits);
    }

    /** Tries edits out on the design that an answer is about, and asks again. */
    static TriedOut of(Opened shown, Answer before, List<Edit> edits, Progress progress) {
        Question question = before.question();
        Design design = Trial.of(question.design(), edits);
        Net net = design.findNet(question.net().name()).orElseThrow();
        Answer after =
                Asker.ask(new Question(design, net, question.pad(), question.corner()), progress);
        return new TriedOut(edits, before, after, shown.with(design));
    }
}
