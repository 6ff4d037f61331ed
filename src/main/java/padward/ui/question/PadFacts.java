package padward.ui.question;

import java.util.Optional;
import padward.base.Volts;
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.design.Port;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;

/** What lists of pads say about the pad of an answer. */
final class PadFacts {
    private PadFacts() {}

    /** Where a lead can be put: header and pin, or test point; empty when nowhere. */
    static String leadPlace(Answer answer) {
        return design(answer)
                .board()
                .findWiring(answer.question().pad())
                .flatMap(PadWiring::findLeadPlace)
                .map(Attachment::toShortText)
                .orElse("");
    }

    /** The bank, with its supply where that is known. */
    static String bank(Answer answer) {
        String bank = answer.question().padValue().bank();
        return design(answer)
                .fabric()
                .info()
                .findBank(bank)
                .map(b -> bank + ", " + Volts.text(b.millivolts()))
                .orElse(bank);
    }

    /** The port that has the pad now. */
    static Optional<Port> port(Answer answer) {
        return design(answer).findPortOn(answer.question().pad());
    }

    /** The delay of the route without its unit; empty without a route. */
    static String delay(Answer answer) {
        return answer.findRoute().map(w -> w.total().toText().replace(" ns", "")).orElse("");
    }

    static Design design(Answer answer) {
        return answer.question().design();
    }
}
