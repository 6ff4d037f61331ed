package padward.ui.model;

import java.util.List;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.ui.design.OpenDesign;

/**
 * A what-if that waits to be kept or dropped.
 *
 * @param version what was open when it was tried
 * @param edits its edits
 * @param before the answer without it
 * @param after the answer with it
 * @param design the design with it
 */
public record PendingWhatIf(
        long version, List<Edit> edits, Answer before, Answer after, OpenDesign design) {
    /** Copies the list. */
    public PendingWhatIf {
        edits = List.copyOf(edits);
    }

    /** What its pad costs: what must be accepted before it is kept. */
    public Price price() {
        return Price.ofPads(before.question().design(), edits);
    }

    /** Applies edits to the design of an answer, and asks again. */
    static PendingWhatIf of(WorkState on, Answer before, List<Edit> edits, Progress progress) {
        Question question = before.question();
        Design design = Outcome.apply(question.design(), edits);
        Net net = design.findNet(question.net().name()).orElseThrow();
        Answer after = Asker.ask(question.on(design, net), progress);
        return new PendingWhatIf(on.version(), edits, before, after, on.opened().with(design));
    }
}
