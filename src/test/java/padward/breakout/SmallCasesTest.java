package padward.breakout;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Board;
import padward.design.Design;
import padward.design.PadNames;
import padward.example.BilgePump;
import padward.fabric.Corner;
import padward.format.FabricReader;
import padward.route.Engine;

/** The four cases of the small example, on both of its fabrics. */
class SmallCasesTest {
    private static final String NET = "pump/level/sample[1]";
    private static Design only;
    private static Design around;

    @BeforeAll
    static void read() throws BadInput {
        only = design("only");
        around = design("around");
    }

    private static Design design(String name) throws BadInput {
        Path file = Path.of("fixtures/small/" + name + ".fabric.json");
        return BilgePump.on(FabricReader.read(file, Progress.NONE), Board.UNKNOWN);
    }

    private static Answer ask(Design design, String pad) {
        Question question =
                new Question(
                        design,
                        design.findNet(NET).orElseThrow(),
                        PadNames.find(design, pad).get(0),
                        Corner.SLOW);
        return Asker.ask(question, Progress.NONE);
    }

    @Test
    void aFreeIoRegisterSiteIsAWayOut() {
        Answer answer = ask(only, "x7y2/pad[1]");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        Way way = ((Answer.Open) answer).way();
        assertThat(way.hops())
                .extracting(Hop::name)
                .contains("x7y2/outreg[1].d", "x7y2/outreg[1].q");
        assertThat(way.hops().get(0).name()).isEqualTo("x3y3/cell[1].out");
        assertThat(answer.letGo()).isEmpty();
    }

    @Test
    void aHeldIoRegisterSiteIsNamedWithItsCell() {
        Answer answer = ask(only, "x7y3/pad[0]");
        assertThat(answer).isInstanceOf(Answer.Blocked.class);
        List<Obstacle> obstacles = ((Answer.Blocked) answer).obstacles();
        assertThat(obstacles).hasSize(1);
        assertThat(obstacles.get(0).occupant().name()).isEqualTo("pump/run/motor_out");
        assertThat(obstacles.get(0).resource()).isEqualTo("x7y3/outreg[0]");
        assertThat(obstacles.get(0).resourceKind()).isEqualTo("IO register site");
        assertThat(obstacles.get(0).tile()).isEqualTo("x7y3");
        assertThat(answer.letGo().orElseThrow().port().name()).isEqualTo("motor");
    }

    @Test
    void aWayAroundTheSiteIsTaken() {
        Answer answer = ask(around, "x7y3/pad[0]");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        assertThat(((Answer.Open) answer).way().hops())
                .extracting(Hop::name)
                .noneMatch(n -> n.contains("outreg"));
    }

    @Test
    void aHeldWireIsNamedWithItsNet() {
        for (Design design : List.of(only, around)) {
            Answer answer = ask(design, "x0y5/pad[0]");
            assertThat(answer).isInstanceOf(Answer.Blocked.class);
            List<Obstacle> obstacles = ((Answer.Blocked) answer).obstacles();
            assertThat(obstacles)
                    .extracting(o -> o.occupant().name())
                    .containsExactly("alarm/beep");
            assertThat(obstacles.get(0).resource()).isEqualTo("x1y5/w1[0]");
            assertThat(obstacles.get(0).resourceKind()).isEqualTo("wire");
        }
    }

    @Test
    void anInputOnlyPadHasNoWayOut() {
        Answer answer = ask(only, "x3y0/pad[0]");
        assertThat(answer).isInstanceOf(Answer.NoWay.class);
        assertThat(((Answer.NoWay) answer).reason()).isEqualTo(NoWayReason.INPUT_ONLY_PAD);
    }

    @ParameterizedTest
    @EnumSource(Corner.class)
    void bothEnginesGiveTheSameDelays(Corner corner) {
        for (Design design : List.of(only, around)) {
            Asker own = new Asker(design.fabric(), Engine.OWN);
            Asker reference = new Asker(design.fabric(), Engine.REFERENCE);
            for (var net : design.nets()) {
                for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
                    Question question = new Question(design, net, pad, corner);
                    Answer one = own.answer(question, Progress.NONE);
                    Answer other = reference.answer(question, Progress.NONE);
                    assertThat(AnswerText.word(one)).isEqualTo(AnswerText.word(other));
                    if (one instanceof Answer.Open a && other instanceof Answer.Open b) {
                        assertThat(a.way().total().at(corner))
                                .isEqualTo(b.way().total().at(corner));
                    }
                }
            }
        }
    }

    @Test
    void theSentenceNamesWhatStandsInTheWay() {
        String text = AnswerText.sentence(ask(only, "x7y3/pad[0]"));
        assertThat(text)
                .startsWith("Blocked:")
                .contains("cell pump/run/motor_out holds IO register site x7y3/outreg[0]")
                .contains("Port motor lets go of the pad");
    }
}
