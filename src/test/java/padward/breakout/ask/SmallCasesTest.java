package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.survey.PadRank;
import padward.breakout.survey.Survey;
import padward.breakout.survey.WhatIfReport;
import padward.breakout.text.AnswerText;
import padward.change.Edit;
import padward.change.EditText;
import padward.design.Design;
import padward.design.PadNames;
import padward.design.board.Board;
import padward.example.BilgePump;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.fabric.FabricReader;
import padward.route.search.SearchEngineKind;
import padward.unblock.UnblockExplanation;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.LostEndpoint;
import padward.unblock.weigh.Removal;
import padward.unblock.why.SearchLimits;

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
    void aFreeIoRegisterSiteIsARouteOut() {
        Answer answer = ask(only, "x7y2/pad[1]");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        Route route = ((Answer.FreeRoute) answer).route();
        assertThat(route.hops())
                .extracting(Hop::name)
                .contains("x7y2/outreg[1].d", "x7y2/outreg[1].q");
        assertThat(route.hops().get(0).name()).isEqualTo("x3y3/cell[1].out");
        assertThat(answer.disconnected()).isEmpty();
    }

    @Test
    void aUsedIoRegisterSiteIsNamedWithItsCell() {
        Answer answer = ask(only, "x7y3/pad[0]");
        assertThat(answer).isInstanceOf(Answer.Blocked.class);
        List<Obstacle> obstacles = ((Answer.Blocked) answer).obstacles();
        assertThat(obstacles).hasSize(1);
        assertThat(obstacles.get(0).occupant().name()).isEqualTo("pump/run/motor_out");
        assertThat(obstacles.get(0).resource()).isEqualTo("x7y3/outreg[0]");
        assertThat(obstacles.get(0).resourceKind()).isEqualTo("IO register site");
        assertThat(obstacles.get(0).tile()).isEqualTo("x7y3");
        assertThat(answer.disconnected().orElseThrow().port().name()).isEqualTo("motor");
    }

    @Test
    void aRouteAroundTheSiteIsTaken() {
        Answer answer = ask(around, "x7y3/pad[0]");
        assertThat(answer).isInstanceOf(Answer.TakesPort.class);
        assertThat(((Answer.FreeRoute) answer).route().hops())
                .extracting(Hop::name)
                .noneMatch(n -> n.contains("outreg"));
    }

    @Test
    void aUsedWireIsNamedWithItsNet() {
        for (Design design : List.of(only, around)) {
            Answer answer = ask(design, "x0y5/pad[0]");
            assertThat(answer).isInstanceOf(Answer.Blocked.class);
            List<Obstacle> obstacles = ((Answer.Blocked) answer).obstacles();
            assertThat(obstacles)
                    .extracting(o -> o.occupant().name())
                    .containsExactly("alarm/beep");
            assertThat(obstacles.get(0).resource()).isEqualTo("x1y5/run1_w[0]");
            assertThat(obstacles.get(0).resourceKind()).isEqualTo("wire");
        }
    }

    @Test
    void anInputOnlyPadHasNoRouteOut() {
        Answer answer = ask(only, "x3y0/pad[0]");
        assertThat(answer).isInstanceOf(Answer.NoRoute.class);
        assertThat(((Answer.NoRoute) answer).reason()).isEqualTo(NoRouteReason.INPUT_ONLY_PAD);
    }

    @ParameterizedTest
    @EnumSource(Corner.class)
    void bothEnginesGiveTheSameDelays(Corner corner) {
        for (Design design : List.of(only, around)) {
            Asker own = new Asker(design.fabric(), SearchEngineKind.OWN);
            Asker reference = new Asker(design.fabric(), SearchEngineKind.REFERENCE);
            for (var net : design.nets()) {
                for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
                    Question question = new Question(design, net, pad, corner);
                    Answer one = own.answer(question, Progress.NONE);
                    Answer other = reference.answer(question, Progress.NONE);
                    assertThat(AnswerText.word(one)).isEqualTo(AnswerText.word(other));
                    if (one instanceof Answer.FreeRoute a && other instanceof Answer.FreeRoute b) {
                        assertThat(a.route().total().at(corner))
                                .isEqualTo(b.route().total().at(corner));
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
                .contains(
                        "Every route must go through IO register site x7y3/outreg[0], which is"
                                + " used by cell pump/run/motor_out. Cell pump/run/motor_out only"
                                + " serves port motor. Removing cell pump/run/motor_out and"
                                + " disconnecting port motor opens a route: ")
                .contains(" Port motor then has no pad")
                .endsWith("; net pump/run/motor_out is removed.");
    }

    @Test
    void aNetThatCanGoElsewhereIsMovable() {
        Answer.Blocked blocked = (Answer.Blocked) ask(only, "x0y5/pad[0]");
        UnblockExplanation explanation = blocked.why().orElseThrow().explanation();
        assertThat(explanation.provenFewest()).isTrue();
        Removal removal = explanation.best().removals().get(0);
        assertThat(removal.onEveryRoute()).isTrue();
        assertThat(removal.consequence()).isInstanceOf(Consequence.Movable.class);
        Consequence.Movable movable = (Consequence.Movable) removal.consequence();
        assertThat(movable.means()).isEqualTo(Consequence.Means.REROUTE);
        assertThat(movable.delayChanges()).extracting(DelayChange::net).contains("alarm/beep");
        assertThat(removal.wouldLose())
                .extracting(LostEndpoint::toText)
                .containsExactly("port buzzer");
    }

    @Test
    void aPadThatTheDesignReadsIsCostly() {
        Answer.Blocked blocked = (Answer.Blocked) ask(only, "x0y3/pad[0]");
        Removal removal = blocked.why().orElseThrow().explanation().best().removals().get(0);
        assertThat(removal.occupant().name()).isEqualTo("float_hi");
        assertThat(removal.consequence())
                .isEqualTo(
                        new Consequence.LosesFunction(
                                List.of(
                                        new LostEndpoint(
                                                LostEndpoint.Kind.PIN,
                                                "pump/level/hi_sync.in[0]"))));
        assertThat(AnswerText.sentence(blocked))
                .contains(
                        "No other route was found for net float_hi; 1 endpoint would lose its signal:"
                                + " pump/level/hi_sync.in[0].");
    }

    @Test
    void aWhatIfOpensTheRouteAndListsWhatIsLost() throws BadInput {
        Question question =
                new Question(
                        only,
                        only.findNet(NET).orElseThrow(),
                        PadNames.find(only, "x0y5/pad[0]").get(0),
                        Corner.SLOW);
        Edit edit = EditText.parse(only, "remove net alarm/beep", "--what-if");
        WhatIfReport report =
                WhatIfReport.of(question, List.of(edit), SearchLimits.USUAL, Progress.NONE);
        assertThat(report.before()).isInstanceOf(Answer.Blocked.class);
        assertThat(report.after()).isInstanceOf(Answer.Open.class);
        assertThat(report.newlyOpen()).extracting(Pad::name).contains("x0y5/pad[0]");
        assertThat(report.price().lost())
                .extracting(LostEndpoint::toText)
                .containsExactly("port buzzer");
        assertThat(only.findNet("alarm/beep")).isPresent();
    }

    @Test
    void aWhatIfThatFitsNothingIsRefused() {
        assertThatThrownBy(() -> EditText.parse(only, "remove net alarm/boop", "--what-if"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("alarm/boop");
        assertThatThrownBy(() -> EditText.parse(only, "burn it", "--what-if"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("remove cell NAME");
    }

    @Test
    void surveysRankByPriceAndSayWhy() throws BadInput {
        assertThat(PadRank.of(ask(around, "x7y3/pad[0]")).reason())
                .isEqualTo("port motor loses it, what listens is not known");
        Design wired = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        Survey survey =
                Survey.of(
                        wired,
                        wired.findNet(NET).orElseThrow(),
                        Corner.SLOW,
                        SearchEngineKind.OWN,
                        Progress.NONE);
        List<Answer> some =
                survey.answers().stream().filter(a -> !(a instanceof Answer.NoRoute)).toList();
        assertThat(some).extracting(a -> PadRank.of(a).grade()).isSorted();
        assertThat(some)
                .extracting(a -> PadRank.of(a).reason())
                .contains(
                        "free, place for a lead",
                        "Q3.gate follows, port buzzer",
                        "U7.4 follows, port motor");
        Survey byDelay = survey.sortedBy(Survey.Key.DELAY);
        assertThat(byDelay.answers()).hasSameSizeAs(survey.answers());
        assertThat(
                        byDelay.answers().stream()
                                .filter(a -> !(a instanceof Answer.NoRoute))
                                .map(SmallCasesTest::slowPs)
                                .toList())
                .isSorted();
    }

    private static int slowPs(Answer answer) {
        return answer instanceof Answer.FreeRoute open
                ? open.route().total().slowPs()
                : ((Answer.Blocked) answer).route().total().slowPs();
    }
}
