package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.text.AnswerText;
import padward.breakout.text.WhyText;
import padward.design.Design;
import padward.example.HandMade;
import padward.fabric.delay.Corner;
import padward.unblock.move.Consequence;
import padward.unblock.weigh.Removal;

/** A net that is rerouted can become quicker, and then hold times are at stake. Invented fabric. */
class EarlierArrivalTest {
    @Test
    void aQuickerRouteIsTold() {
        Design design =
                new HandMade()
                        .site("A", "", "q")
                        .site("B", "", "q")
                        .site("S", "d", "")
                        .wires("w v")
                        .pad("P")
                        .cell("one", "A")
                        .cell("two", "B")
                        .cell("sink", "S")
                        .chain("A.q w P")
                        .chain("B.q w S.d", 100, 200)
                        .chain("B.q v S.d", 10, 20)
                        .net("first", "one.q", "")
                        .net("second", "two.q", "sink.d", "B.q w S.d")
                        .design();
        Question question =
                new Question(design, design.findNet("first").orElseThrow(), 0, Corner.SLOW);
        Answer.Blocked blocked = (Answer.Blocked) Asker.ask(question, Progress.NONE);
        Removal removal = blocked.why().orElseThrow().explanation().best().removals().get(0);
        Consequence.Movable movable = (Consequence.Movable) removal.consequence();
        assertThat(movable.delayChanges().get(0).earlierPs()).isEqualTo(180);
        assertThat(movable.delayChanges().get(0).earlierSink()).isEqualTo("sink.d");
        assertThat(WhyText.consequence(blocked, removal))
                .contains(
                        "earlier by up to 180 ps at the fast corner (at sink.d): check hold there");
        assertThat(AnswerText.word(blocked)).isEqualTo("Blocked");
    }
}
