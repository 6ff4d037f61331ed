package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.breakout.text.Headline;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.example.HandMade;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.route.search.SearchEngineKind;
import padward.unblock.move.Consequence;

/** Switches that exclude each other, in cases of a few wires. */
class SwitchGroupCasesTest {
    /**
     * Net n from S.o to a, and a route a - b - P. Net m has a switch on: c - d.
     *
     * <pre>
     *  S.o - a - b - P
     *  T.o - c - d - U.i
     *          \ e - d
     * </pre>
     */
    private static HandMade twoNets() {
        return new HandMade()
                .wires("a b c d e")
                .site("S", "", "o")
                .site("T", "", "o")
                .site("U", "i", "")
                .pad("P")
                .chain("S.o a b P")
                .chain("T.o c d U.i")
                .cell("s", "S")
                .cell("t", "T")
                .cell("u", "U")
                .net("n", "s.o", "", "S.o a");
    }

    private static Answer ask(Design design, String net) {
        return Asker.ask(
                new Question(design, design.findNet(net).orElseThrow(), 0, Corner.SLOW),
                Progress.NONE);
    }

    @Test
    void aSwitchThatAnotherNetExcludesIsAnObstacle() {
        Design design =
                twoNets()
                        .switchGroup("mux", "a b", "c d")
                        .net("m", "t.o", "u.i", "T.o c d U.i")
                        .design();
        Answer answer = ask(design, "n");
        assertThat(answer).isInstanceOf(Answer.Blocked.class);
        Answer.Blocked blocked = (Answer.Blocked) answer;
        assertThat(blocked.obstacles()).hasSize(1);
        Obstacle obstacle = blocked.obstacles().get(0);
        assertThat(obstacle.occupant().name()).isEqualTo("m");
        assertThat(AnswerText.obstacle(obstacle))
                .isEqualTo("net m uses switch group mux, which is set to c → d");
        assertThat(blocked.why().orElseThrow().explanation().provenFewest()).isTrue();
    }

    @Test
    void aNetIsReroutedOverAnotherSwitch() {
        Design design =
                twoNets()
                        .chain("c e d")
                        .switchGroup("mux", "a b", "c d")
                        .net("m", "t.o", "u.i", "T.o c d U.i")
                        .design();
        Answer.Blocked blocked = (Answer.Blocked) ask(design, "n");
        WhyBlocked.Option option = blocked.why().orElseThrow().options().get(0);
        assertThat(option.option().removals().get(0).consequence())
                .isInstanceOf(Consequence.Movable.class);
        List<Edit> edits = AnswerEdits.of(blocked, option);
        assertThat(Outcome.of(design, edits)).isInstanceOf(Outcome.Applied.class);
    }

    @Test
    void theSameSwitchOfAGroupExcludesNothing() {
        Design design =
                twoNets()
                        .switchGroup("mux", "c d", "c e")
                        .chain("c e d")
                        .net("m", "t.o", "u.i", "T.o c d U.i")
                        .design();
        assertThat(ask(design, "n")).isInstanceOf(Answer.Open.class);
    }

    @Test
    void theNetsOwnSwitchExcludesOthersToo() {
        Design design = twoNets().switchGroup("mux", "S.o a", "b P").design();
        Answer answer = ask(design, "n");
        assertThat(answer).isInstanceOf(Answer.NoRoute.class);
        assertThat(((Answer.NoRoute) answer).reason()).isEqualTo(NoRouteReason.SWITCHES_EXCLUDE);
        assertThat(AnswerText.sentence(answer)).contains("switch group");
        assertThat(Headline.of(answer))
                .isEqualTo("to pad P: all routes need two switches that exclude each other");
        Answer stopped =
                new Answer.NoRoute(
                        answer.question(),
                        NoRouteReason.SWITCHES_EXCLUDE,
                        "500 routes were looked at; others may exist.",
                        List.of(),
                        Optional.empty(),
                        List.of());
        assertThat(Headline.of(stopped))
                .isEqualTo("to pad P: none was found without two switches that exclude each other");
    }

    @Test
    void aRouteWithTwoOfAGroupIsNone() {
        HandMade made = twoNets().switchGroup("mux", "a b", "b P");
        assertThat(ask(made.design(), "n")).isInstanceOf(Answer.NoRoute.class);
        Design wayRound = made.chain("b e P", 100, 200).design();
        Answer answer = ask(wayRound, "n");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        assertThat(answer.findRoute().orElseThrow().hops())
                .extracting(Hop::name)
                .containsExactly("S.o", "a", "b", "e", "P");
    }

    @Test
    void editsThatTurnOnTwoOfAGroupAreRefused() {
        Design design =
                twoNets()
                        .switchGroup("mux", "a b", "c d")
                        .net("m", "t.o", "u.i", "T.o c d U.i")
                        .design();
        List<Integer> path =
                List.of("a", "b", "P").stream().map(design.fabric()::findVertex).toList();
        Edit out = new Edit.BreakOut("n", "out", "P", "", path);
        Outcome outcome = Outcome.of(design, List.of(out));
        assertThat(((Outcome.Refused) outcome).reasons())
                .containsExactly(
                        "the switches from a to b and from c to d cannot both be on: they are in"
                                + " switch group mux");
        Edit gone = new Edit.RemoveNet("m");
        assertThat(Outcome.of(design, List.of(gone, out))).isInstanceOf(Outcome.Applied.class);
    }

    @Test
    void aDesignThatHasTwoOfAGroupOnIsAFault(@TempDir Path folder) throws Exception {
        Design design =
                twoNets()
                        .switchGroup("mux", "S.o a", "c d")
                        .net("m", "t.o", "u.i", "T.o c d U.i")
                        .design();
        FabricWriter.write(design.fabric(), folder.resolve("f.json"));
        Path file = folder.resolve("d.json");
        DesignWriter.write(design, file, "f.json", "");
        assertThat(Files.exists(file)).isTrue();
        assertThatThrownBy(() -> DesignReader.read(file, Progress.NONE))
                .isInstanceOfSatisfying(
                        BadInput.class,
                        fault -> {
                            assertThat(fault.place()).isEqualTo("$.nets[1].route[0][2]");
                            assertThat(fault.expected())
                                    .isEqualTo("at most one switch of group \"mux\" that is on");
                            assertThat(fault.found())
                                    .isEqualTo(
                                            "the one from \"c\" besides the one from \"S.o\" to"
                                                    + " \"a\" of net \"n\"");
                        });
    }

    /** Stages with two ways each; what is chosen in one cannot be chosen in its counterpart. */
    private static Design ladder(int pairs) {
        HandMade made = new HandMade().site("S", "", "o").pad("P").cell("s", "S");
        StringBuilder wires = new StringBuilder("n0");
        made.chain("S.o n0");
        for (int i = 0; i < 2 * pairs; i++) {
            wires.append(" a" + i + " b" + i + " n" + (i + 1));
            made.chain("n" + i + " a" + i + " n" + (i + 1), 1, 2);
            made.chain("n" + i + " b" + i + " n" + (i + 1), 2, 3);
        }
        made.wires(wires.toString());
        made.chain("n" + 2 * pairs + " P");
        for (int i = 0; i < pairs; i++) {
            int other = i + pairs;
            made.switchGroup("g" + i, "n" + i + " a" + i, "n" + other + " a" + other);
            made.switchGroup("h" + i, "n" + i + " b" + i, "n" + other + " b" + other);
        }
        return made.net("n", "s.o", "", "S.o n0").design();
    }

    @Test
    void anAnswerSaysWhereItsSearchStopped() {
        Answer few = ask(ladder(4), "n");
        assertThat(AnswerText.sentence(few)).startsWith("Open: ").doesNotContain("proven");
        Answer many = ask(ladder(12), "n");
        assertThat(AnswerText.word(many)).isEqualTo("Open, not proven");
        assertThat(AnswerText.sentence(many))
                .startsWith("Open, not proven: ")
                .endsWith(
                        " This is not proven: 500 routes with switches that exclude each other were"
                                + " looked at; a free route may be faster.");
        assertThat(((Answer.FreeRoute) many).route().proven()).isFalse();
        Design design = many.question().design();
        Survey survey =
                Survey.of(
                        design,
                        design.nets().get(0),
                        Corner.SLOW,
                        SearchEngineKind.OWN,
                        Progress.NONE);
        assertThat(survey.answers().get(0).findRoute().orElseThrow().proven()).isFalse();
    }
}
