package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.text.AnswerText;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadEnable;

/**
 * An output is data and enable: the driver must be on too (common practice, no source). Invented
 * fabrics: a register at s, a wire to the pad p, whose driver is switched through the site e.
 */
class EnableTest {
    private static HandMade gated(PadEnable traits) {
        return new HandMade()
                .wires("w v")
                .site("s", "", "q")
                .site("t", "", "q")
                .site("e", "d", "q")
                .through("e", "d", "q")
                .enabledPad("p", "e", traits)
                .chain("s.q w p")
                .chain("t.q v e.d")
                .chain("t.q w")
                .cell("c", "s")
                .cell("turn", "t")
                .net("n", "c.q", "", "s.q");
    }

    private static PadEnable unconnected(PadEnable.Unconnected state) {
        return new PadEnable(PadEnable.Active.HIGH, state);
    }

    private static Answer ask(Design design) {
        return Asker.ask(
                new Question(design, design.findNet("n").orElseThrow(), 0, Corner.SLOW),
                Progress.NONE);
    }

    @Test
    void aDriverThatIsNotKnownToBeOnIsTiedOn() {
        for (PadEnable traits :
                List.of(PadEnable.UNKNOWN, unconnected(PadEnable.Unconnected.OFF))) {
            Design design = gated(traits).design();
            Answer.Open open = (Answer.Open) ask(design);
            assertThat(AnswerText.sentence(open)).startsWith("Open once the enable is tied on: ");
            List<Edit> edits = AnswerEdits.of(open);
            assertThat(edits.get(1)).isEqualTo(new Edit.TieEnable("out_p"));
            assertThat(enable(open.cautions())).contains("it must be tied on");
            assertThat(enable(Cautions.of(open.question(), edits)))
                    .contains("is tied on: the pad drives all the time");
            Design after = Outcome.apply(design, edits);
            assertThat(after.findPort("out_p").orElseThrow().enableTied()).isTrue();
        }
    }

    private static String enable(List<Caution> cautions) {
        return cautions.stream()
                .filter(c -> c.kind() == Caution.Kind.ENABLE)
                .map(Caution::text)
                .collect(Collectors.joining());
    }

    /** Nothing will drive the pad. */
    @Test
    void withoutARouteNothingIsSaidForDrivingThePad() {
        Design design =
                new HandMade()
                        .wires("w")
                        .site("s", "", "q")
                        .pad("p")
                        .chain("s.q w")
                        .cell("c", "s")
                        .net("n", "c.q", "", "s.q")
                        .design();
        Answer none = ask(design);
        assertThat(none).isInstanceOf(Answer.NoRoute.class);
        assertThat(none.cautions())
                .isNotEmpty()
                .noneMatch(c -> c.text().startsWith("Before driving the pad"));
    }

    @Test
    void aDriverThatIsOnWithNothingDoneIsSimplyOpen() {
        Design design = gated(unconnected(PadEnable.Unconnected.ON)).design();
        Answer.Open open = (Answer.Open) ask(design);
        assertThat(AnswerText.sentence(open)).startsWith("Open: ");
        assertThat(AnswerEdits.of(open)).hasSize(1);
        assertThat(open.cautions()).noneMatch(c -> c.kind() == Caution.Kind.ENABLE);
    }

    /** The enable of the port that loses its pad is a branch of a net, without a register. */
    private static HandMade switched() {
        return gated(PadEnable.UNKNOWN)
                .site("m", "", "q")
                .cell("data", "m")
                .chain("m.q p")
                .port("motor", PortDirection.OUT, "p")
                .net("out", "data.q", "motor", "m.q p")
                .net("on", "turn.q", "", "t.q v e.d e.q");
    }

    @Test
    void theEnableOfAPortGoesWithThePort() {
        Design design = switched().design();
        Answer.TakesPort taken = (Answer.TakesPort) ask(design);
        Design after = Outcome.apply(design, AnswerEdits.of(taken));
        assertThat(after.findNet("on").orElseThrow().route().size()).isEqualTo(1);
        assertThat(after.findPort("out_p").orElseThrow().enableTied()).isTrue();
        assertThat(taken.disconnected().orElseThrow().enables()).hasSize(1);
    }

    /** The net of the port leads on from the pad, to nothing but the enable. */
    @Test
    void theEnableOfAPortGoesWithThePortWhereItsOwnNetSwitchesIt() {
        Design design =
                gated(PadEnable.UNKNOWN)
                        .site("m", "", "q")
                        .cell("data", "m")
                        .chain("m.q p v")
                        .port("motor", PortDirection.OUT, "p")
                        .net("out", "data.q", "motor", "m.q p v e.d e.q")
                        .design();
        Answer.TakesPort taken = (Answer.TakesPort) ask(design);
        Design after = Outcome.apply(design, AnswerEdits.of(taken));
        assertThat(after.findNet("out").orElseThrow().route().size()).isEqualTo(1);
        assertThat(after.findPort("out_p").orElseThrow().enableTied()).isTrue();
    }

    @Test
    void anEnableThatSwitchesAnotherPadTooIsAnObstacle() {
        Design design =
                switched()
                        .enabledPad("r", "e", PadEnable.UNKNOWN)
                        .port("other", PortDirection.OUT, "r")
                        .design();
        Answer.Blocked blocked = (Answer.Blocked) ask(design);
        assertThat(blocked.obstacles())
                .extracting(Obstacle::occupant)
                .containsExactly(new Occupant.ByNet(design.findNet("on").orElseThrow()));
        assertThat(Price.of(blocked).lost())
                .extracting(e -> e.name())
                .containsExactlyInAnyOrder("motor", "other");
    }

    @Test
    void aNetThatSwitchesThePadItselfHasNoRouteThere() {
        Design design = gated(PadEnable.UNKNOWN).net("on", "turn.q", "", "t.q v e.d e.q").design();
        Answer answer =
                Asker.ask(
                        new Question(design, design.findNet("on").orElseThrow(), 0, Corner.SLOW),
                        Progress.NONE);
        assertThat(((Answer.NoRoute) answer).reason())
                .isEqualTo(NoRouteReason.OWN_DRIVER_ON_ENABLE);
        assertThat(AnswerText.sentence(answer)).contains("on itself switches the driver of pad p");
    }

    @Test
    void nothingComesToAnEnableThatIsTied() {
        Design design = gated(PadEnable.UNKNOWN).design();
        Answer.Open open = (Answer.Open) ask(design);
        Design after = Outcome.apply(design, AnswerEdits.of(open));
        Outcome moved = Outcome.of(after, List.of(new Edit.RelocateCell("turn", "e", List.of())));
        assertThat(((Outcome.Refused) moved).reasons())
                .anyMatch(r -> r.contains("used by the tied enable of port out_p"));
    }

    /** The same when the design's file says that the net ends there. */
    @Test
    void anEnableAtWhichANetEndsGoesWithThePortToo() {
        HandMade made =
                gated(PadEnable.UNKNOWN)
                        .site("m", "", "q")
                        .cell("data", "m")
                        .chain("m.q p")
                        .port("motor", PortDirection.OUT, "p")
                        .net("out", "data.q", "motor", "m.q p")
                        .net("on", "turn.q", "enable:motor", "t.q v e.d e.q");
        Design design = made.design();
        Answer.TakesPort taken = (Answer.TakesPort) ask(design);
        Design after = Outcome.apply(design, AnswerEdits.of(taken));
        assertThat(after.findNet("on").orElseThrow().sinks()).isEmpty();
        assertThat(after.findNet("on").orElseThrow().route().size()).isEqualTo(1);
        assertThat(after.findPort("out_p").orElseThrow().enableTied()).isTrue();
        Design shared =
                made.enabledPad("r", "e", PadEnable.UNKNOWN)
                        .port("other", PortDirection.OUT, "r")
                        .design();
        Answer.Blocked blocked = (Answer.Blocked) ask(shared);
        assertThat(Price.of(blocked).lost())
                .extracting(e -> e.name())
                .containsExactlyInAnyOrder("motor", "other");
    }
}
