package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.breakout.text.Headline;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.PadNames;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadDirections;
import padward.route.search.SearchEngineKind;
import padward.unblock.UnblockExplanation;
import padward.unblock.why.Chokepoint;

/** Answers on chips of a few wires, each as small as what it shows. Invented fabrics. */
class HandMadeCasesTest {
    private static Question question(Design design, String net, String pad) {
        return new Question(
                design,
                design.findNet(net).orElseThrow(),
                PadNames.findExact(design.fabric(), pad).orElseThrow(),
                Corner.SLOW);
    }

    private static Answer ask(Design design, String net, String pad) {
        return Asker.ask(question(design, net, pad), Progress.NONE);
    }

    private static Answer surveyed(Design design, String net, String pad) {
        Net asked = design.findNet(net).orElseThrow();
        Survey survey = Survey.of(design, asked, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
        int index = PadNames.findExact(design.fabric(), pad).orElseThrow();
        return survey.answers().stream()
                .filter(a -> a.question().pad() == index)
                .findFirst()
                .orElseThrow();
    }

    private static int slowPs(Answer answer) {
        return answer.findRoute().orElseThrow().total().slowPs();
    }

    private static List<String> removed(Answer answer) {
        UnblockExplanation explanation =
                ((Answer.Blocked) answer).why().orElseThrow().explanation();
        return explanation.best().removals().stream().map(r -> r.removing().toText()).toList();
    }

    /** The design with what an answer proposes, the best option of a blocked one. */
    private static Design kept(Answer answer) {
        List<Edit> edits =
                answer instanceof Answer.FreeRoute open
                        ? AnswerEdits.of(open)
                        : AnswerEdits.of(
                                (Answer.Blocked) answer,
                                ((Answer.Blocked) answer).why().orElseThrow().options().get(0));
        return Outcome.apply(answer.question().design(), edits);
    }

    private static HandMade source() {
        return new HandMade().site("SRC", "", "q").cell("source", "SRC");
    }

    /** A cell that drives both nets at the enable is not moved by rerouting one of them. */
    @Test
    void allNetsThatSwitchAPadAreTakenFromIt() {
        Design design =
                source().wires("w")
                        .site("C", "", "x y z")
                        .site("R", "d", "")
                        .site("EN", "a b", "")
                        .enabledPad("P", "EN")
                        .chain("SRC.q w P")
                        .chain("C.x EN.a")
                        .chain("C.y EN.b")
                        .chain("C.z R.d")
                        .cell("c", "C")
                        .cell("r", "R")
                        .net("s", "source.q", "")
                        .net("one", "c.x", "", "C.x EN.a")
                        .net("two", "c.y", "", "C.y EN.b")
                        .net("work", "c.z", "r.d", "C.z R.d")
                        .design();
        Answer answer = ask(design, "s", "P");
        assertThat(removed(answer)).hasSize(1);
        assertThat(kept(answer).findNet("s").orElseThrow().route().size()).isEqualTo(3);
    }

    /** Cell c drives the net on the pad and the one that comes to the enable of its driver. */
    private static HandMade switchingItsOwnPad() {
        return source().wires("w v")
                .site("C", "", "x y")
                .site("R", "d", "")
                .site("EN", "a", "")
                .enabledPad("P", "EN")
                .chain("SRC.q w P")
                .chain("C.x v P")
                .chain("v R.d")
                .chain("C.y EN.a")
                .cell("c", "C")
                .cell("r", "R")
                .net("s", "source.q", "")
                .net("data", "c.x", "r.d", "C.x v R.d", "v P")
                .net("enable", "c.y", "", "C.y EN.a");
    }

    @Test
    void whatDrivesThePadsNetAndItsEnableLeavesBoth() {
        Answer lost = ask(switchingItsOwnPad().design(), "s", "P");
        assertThat(removed(lost)).containsExactly("remove cell c");
        assertThat(kept(lost).findCell("c")).isEmpty();
        assertThat(ask(kept(lost), "s", "P")).isInstanceOf(Answer.Open.class);
        // With another site for it, the cell is moved there.
        Design roomy =
                switchingItsOwnPad().wires("u").site("D", "", "x y").chain("D.x u R.d").design();
        Answer moved = ask(roomy, "s", "P");
        assertThat(removed(moved)).containsExactly("remove cell c");
        Design after = kept(moved);
        Fabric fabric = after.fabric();
        assertThat(fabric.site(after.findCell("c").orElseThrow().site()).name()).isEqualTo("D");
        assertThat(after.occupancy().findNetOn(fabric.findVertex("P")).orElseThrow().name())
                .isEqualTo("s");
        assertThat(after.occupancy().findNetOn(fabric.findVertex("EN.a"))).isEmpty();
        assertThat(ask(after, "s", "P")).isInstanceOf(Answer.Open.class);
    }

    @Test
    void aWireThatAnEnableGivesBackIsKnownToSurveysToo() {
        Design design =
                source().wires("v w")
                        .site("T", "", "o")
                        .site("U", "", "o")
                        .site("EN", "a", "")
                        .enabledPad("P", "EN")
                        .port("led", PortDirection.OUT, "P")
                        .chain("T.o v P")
                        .chain("U.o w EN.a")
                        .chain("SRC.q w P")
                        .cell("t", "T")
                        .cell("u", "U")
                        .net("s", "source.q", "")
                        .net("data", "t.o", "led", "T.o v P")
                        .net("on", "u.o", "enable:led", "U.o w EN.a")
                        .design();
        for (Answer answer : List.of(ask(design, "s", "P"), surveyed(design, "s", "P"))) {
            assertThat(answer).isInstanceOf(Answer.TakesPort.class);
            assertThat(slowPs(answer)).isEqualTo(4);
        }
        assertThat(ask(kept(ask(design, "s", "P")), "s", "P")).isInstanceOf(Answer.Open.class);
    }

    // Sites that the net itself passes through

    /** Net s passes through sites M and N; output q of M leads to the pad. */
    private static HandMade passingTwoSites() {
        return source().wires("a b c d")
                .site("M", "i", "p q")
                .site("N", "i j", "p q r")
                .site("END", "d", "")
                .through("M", "i", "p")
                .through("M", "i", "q")
                .through("N", "i", "p")
                .through("N", "i", "q")
                .through("N", "j", "r")
                .pad("OUT")
                .chain("SRC.q a M.i")
                .chain("M.p b N.i")
                .chain("N.p c END.d")
                .cell("end", "END")
                .net("s", "source.q", "end.d", "SRC.q a M.i M.p b N.i N.p c END.d");
    }

    private static void assertBlockedByItself(Design design, String sites) {
        for (Answer answer : List.of(ask(design, "s", "OUT"), surveyed(design, "s", "OUT"))) {
            assertThat(answer).isInstanceOf(Answer.NoRoute.class);
            assertThat(((Answer.NoRoute) answer).reason())
                    .isEqualTo(NoRouteReason.OWN_PASS_THROUGH);
            assertThat(AnswerText.sentence(answer))
                    .contains(
                            "No route from s to pad OUT: the net blocks itself. It passes through "
                                    + sites);
            // Which site it is may depend on the route.
            assertThat(Headline.of(answer))
                    .isEqualTo(
                            "to pad OUT: each route needs a site that the net itself passes"
                                    + " through");
        }
    }

    @Test
    void aNetBlocksItselfWhereItPassesThroughTheSiteThatLeadsToThePad() {
        assertBlockedByItself(
                passingTwoSites().chain("M.q OUT").design(),
                "site M, and a route to the pad would need other pins of it. Reroute the net so"
                        + " that it does not pass through that site, or remove what it feeds"
                        + " through the site.");
    }

    @Test
    void onlyTheSiteOnARouteWithTheFewestSuchPinsIsNamed() {
        assertBlockedByItself(
                passingTwoSites().chain("M.q OUT").chain("N.q d N.j").chain("N.r OUT").design(),
                "site M, and a route to the pad would need other pins of it.");
    }

    @Test
    void allSitesThatStandOnTheOneRouteAreNamed() {
        assertBlockedByItself(
                passingTwoSites().chain("M.q d N.j").chain("N.r OUT").design(),
                "sites M, N, and a route to the pad would need other pins of them. Reroute the"
                        + " net so that it does not pass through those sites, or remove what it"
                        + " feeds through the sites.");
    }

    // Settings

    private static HandMade twoPadsInABank(String ownSetting) {
        return source().setting("lv33", 3300)
                .setting("lv18", 1800)
                .bank("A", 3300)
                .wires("w")
                .pad("OUT", PadDirections.OUT, "A", "", ownSetting)
                .pad("ODD", PadDirections.OUT, "A", "", "lv18")
                .port("odd", PortDirection.OUT, "ODD")
                .chain("SRC.q w OUT")
                .net("signal", "source.q", "");
    }

    @Test
    void aPadThatStatesNoSettingIsOpenThoughAnotherPortOfTheBankIsSetWrongly() {
        Design design = twoPadsInABank("").design();
        for (Answer answer :
                List.of(ask(design, "signal", "OUT"), surveyed(design, "signal", "OUT"))) {
            assertThat(answer).isInstanceOf(Answer.Open.class);
            assertThat(((Answer.Open) answer).route().setting().orElseThrow().name())
                    .isEqualTo("lv33");
            assertThat(answer.cautions())
                    .anyMatch(c -> c.text().contains("set for another voltage: odd"));
            assertThat(Survey.hazardous(answer)).isTrue();
        }
    }

    // Other pads

    @Test
    void noRouteAndNoSurveyGoesThroughAnotherPad() {
        Design design =
                source().wires("w x")
                        .pad("NEAR")
                        .pad("FAR")
                        .chain("SRC.q w NEAR x FAR")
                        .net("signal", "source.q", "")
                        .design();
        assertThat(ask(design, "signal", "NEAR")).isInstanceOf(Answer.Open.class);
        assertThat(surveyed(design, "signal", "NEAR")).isInstanceOf(Answer.Open.class);
        assertThat(ask(design, "signal", "FAR")).isInstanceOf(Answer.NoRoute.class);
        assertThat(surveyed(design, "signal", "FAR")).isInstanceOf(Answer.NoRoute.class);
    }

    @Test
    void theSurveyNamesTheObstacleBesideAnotherPad() {
        Design design =
                source().wires("w x beside")
                        .site("OTHER", "", "q")
                        .cell("other", "OTHER")
                        .pad("NEAR")
                        .pad("FAR")
                        .chain("SRC.q w NEAR x FAR")
                        .chain("w beside x", 100, 200)
                        .chain("OTHER.q beside")
                        .net("signal", "source.q", "")
                        .net("busy", "other.q", "", "OTHER.q beside")
                        .design();
        Answer asked = ask(design, "signal", "FAR");
        Answer surveyed = surveyed(design, "signal", "FAR");
        assertThat(surveyed).isInstanceOf(Answer.Blocked.class);
        assertThat(((Answer.Blocked) surveyed).obstacles())
                .extracting(o -> o.occupant().name())
                .containsExactly("busy");
        assertThat(slowPs(surveyed)).isEqualTo(slowPs(asked)).isEqualTo(404);
        assertThat(AnswerText.sentence(surveyed)).contains("net busy uses wire beside");
    }

    @Test
    void chokepointsDoNotCountRoutesThroughOtherPads() {
        Design design =
                source().wires("w x beside")
                        .pad("NEAR")
                        .pad("FAR")
                        .chain("SRC.q w NEAR x FAR")
                        .chain("w beside x", 100, 200)
                        .net("signal", "source.q", "")
                        .design();
        Answer.Open open = (Answer.Open) ask(design, "signal", "FAR");
        assertThat(open.chokepoints())
                .extracting(Chokepoint::resource)
                .containsExactly("w", "beside", "x", "FAR");
    }

    // What is proposed can be kept

    @Test
    void aBranchThatARemovalWouldPruneStaysWhereTheRouteStartsOnIt() {
        Design design =
                source().wires("w x")
                        .site("EN", "d", "q")
                        .cell("enable", "EN")
                        .enabledPad("OUT", "EN")
                        .chain("SRC.q w x EN.d")
                        .chain("x OUT")
                        .net("signal", "source.q", "enable.d", "SRC.q w x EN.d")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove cell enable");
        Design kept = kept(answer);
        assertThat(kept.findCell("enable")).isEmpty();
        Answer then = ask(kept, "signal", "OUT");
        assertThat(then).isInstanceOf(Answer.Open.class);
        assertThat(slowPs(then)).isEqualTo(slowPs(answer));
    }

    // Enables

    private static HandMade enabledBy(String site) {
        return source().wires("w")
                .enabledPad("OUT", site)
                .chain("SRC.q w OUT")
                .net("signal", "source.q", "");
    }

    @Test
    void aCellThatLetsSignalsThroughStillControlsTheEnable() {
        Design design =
                enabledBy("EN")
                        .site("EN", "d", "q")
                        .through("EN", "d", "q")
                        .openCell("enable", "EN")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove cell enable");
        assertThat(answer.cautions())
                .anyMatch(
                        c -> c.text().contains("enabled through EN, which is used by cell enable"));
    }

    @Test
    void aCellOnASiteWithoutPinsControlsTheEnableToo() {
        Design design = enabledBy("EN").site("EN", "", "").cell("enable", "EN").design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove cell enable");
        assertThat(answer.cautions())
                .anyMatch(
                        c -> c.text().contains("enabled through EN, which is used by cell enable"));
        assertThat(((Answer.Blocked) answer).obstacles())
                .extracting(Obstacle::resource)
                .containsExactly("EN");
        assertThat(AnswerText.sentence(answer)).doesNotContain("site OUT").doesNotContain("pad EN");
    }

    @Test
    void aNetWhoseOwnDriverControlsTheEnableHasNoRoute() {
        for (boolean open : List.of(false, true)) {
            HandMade chip =
                    new HandMade()
                            .wires("w")
                            .site("SRC", "d", "q")
                            .through("SRC", "d", "q")
                            .enabledPad("OUT", "SRC")
                            .chain("SRC.q w OUT")
                            .net("signal", "source.q", "");
            Design design =
                    (open ? chip.openCell("source", "SRC") : chip.cell("source", "SRC")).design();
            for (Answer answer :
                    List.of(ask(design, "signal", "OUT"), surveyed(design, "signal", "OUT"))) {
                assertThat(answer).isInstanceOf(Answer.NoRoute.class);
                assertThat(((Answer.NoRoute) answer).reason())
                        .isEqualTo(NoRouteReason.OWN_DRIVER_ON_ENABLE);
                assertThat(AnswerText.sentence(answer)).contains("cell source");
                assertThat(answer.cautions())
                        .anyMatch(c -> c.text().contains("SRC, which is used by cell source"));
            }
        }
    }

    // The own driver's site

    private static HandMade throughTheOwnSite() {
        return new HandMade()
                .wires("w x")
                .site("SRC", "i", "q p")
                .through("SRC", "i", "p")
                .pad("OUT")
                .chain("SRC.q w SRC.i")
                .chain("SRC.p x OUT")
                .net("signal", "source.q", "");
    }

    @Test
    void theOwnDriversSiteIsPassedWhereItsCellLetsSignalsThrough() {
        Design open = throughTheOwnSite().openCell("source", "SRC").design();
        Answer answer = ask(open, "signal", "OUT");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        assertThat(slowPs(answer)).isEqualTo(10);
        assertThat(slowPs(ask(kept(answer), "signal", "OUT"))).isEqualTo(10);
        Design shut = throughTheOwnSite().cell("source", "SRC").design();
        assertThat(ask(shut, "signal", "OUT")).isInstanceOf(Answer.NoRoute.class);
    }

    @Test
    void anotherNetAtAPinOfTheOwnDriversOpenSiteIsAnObstacle() {
        Design design =
                throughTheOwnSite()
                        .openCell("source", "SRC")
                        .site("OTHER", "", "q")
                        .cell("other", "OTHER")
                        .wires("y")
                        .chain("OTHER.q y SRC.i")
                        .net("busy", "other.q", "source.i", "OTHER.q y SRC.i")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove net busy");
        assertThat(surveyed(design, "signal", "OUT")).isInstanceOf(Answer.Blocked.class);
        assertThat(((Answer.Blocked) surveyed(design, "signal", "OUT")).obstacles())
                .extracting(o -> o.occupant().name())
                .containsExactly("busy");
        assertThat(ask(kept(answer), "signal", "OUT")).isInstanceOf(Answer.Open.class);
    }

    @Test
    void anotherNetThatTheOwnDriverDrivesIsAnObstacleToo() {
        Design design =
                throughTheOwnSite()
                        .openCell("source", "SRC")
                        .net("second", "source.p", "")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove net second");
        assertThat(ask(kept(answer), "signal", "OUT")).isInstanceOf(Answer.Open.class);
    }

    @Test
    void aCellIsSetToLetSignalsThroughWhereTheNetAlreadyEndsInTheAirAtIt() {
        Design design =
                source().wires("w x")
                        .site("MID", "i", "q p")
                        .through("MID", "i", "p")
                        .cell("middle", "MID")
                        .site("OTHER", "", "q")
                        .cell("other", "OTHER")
                        .site("END", "d", "")
                        .cell("end", "END")
                        .wires("y")
                        .chain("MID.q y END.d")
                        .pad("OUT")
                        .chain("SRC.q w MID.i")
                        .chain("MID.p x OUT")
                        .net("signal", "source.q", "", "SRC.q w MID.i")
                        .net("unrouted", "other.q", "middle.i")
                        .net("busy", "middle.q", "end.d", "MID.q y END.d")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(answer).isInstanceOf(Answer.Blocked.class);
        assertThat(ask(kept(answer), "signal", "OUT")).isInstanceOf(Answer.Open.class);
    }

    @Test
    void theFastAnswerNamesWhateverElseUsesAPin() {
        Design design =
                source().wires("w x y")
                        .site("MID", "i", "p")
                        .through("MID", "i", "p")
                        .cell("middle", "MID")
                        .site("OTHER", "", "q")
                        .cell("other", "OTHER")
                        .pad("OUT")
                        .chain("SRC.q w MID.i")
                        .chain("MID.p x OUT")
                        .chain("OTHER.q y MID.i")
                        .net("signal", "source.q", "")
                        .net("inTheAir", "other.q", "", "OTHER.q y MID.i")
                        .design();
        for (Answer answer :
                List.of(ask(design, "signal", "OUT"), surveyed(design, "signal", "OUT"))) {
            assertThat(((Answer.Blocked) answer).obstacles())
                    .extracting(o -> o.occupant().name())
                    .containsExactlyInAnyOrder("middle", "inTheAir");
        }
    }

    // Sites that nets go through

    @Test
    void aRouteGoesOnFromTheNetsOwnSinkWhereItsCellLetsSignalsThrough() {
        Design design =
                source().wires("w x")
                        .site("MID", "i", "p")
                        .through("MID", "i", "p")
                        .openCell("middle", "MID")
                        .pad("OUT")
                        .chain("SRC.q w MID.i")
                        .chain("MID.p x OUT")
                        .net("signal", "source.q", "middle.i", "SRC.q w MID.i")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        assertThat(ask(kept(answer), "signal", "OUT")).isInstanceOf(Answer.Open.class);
    }

    @Test
    void aNetThroughASiteUsesItsFreePinsAndLeavesTheOthers() {
        HandMade chip =
                source().wires("w x y z")
                        .site("MID", "a b", "p q")
                        .through("MID", "a", "p")
                        .through("MID", "b", "q")
                        .site("OTHER", "", "q")
                        .cell("other", "OTHER")
                        .pad("OUT")
                        .chain("SRC.q w MID.a")
                        .chain("MID.p x OUT")
                        .chain("OTHER.q y MID.b")
                        .chain("MID.q z")
                        .net("signal", "source.q", "");
        Design inTheAir = chip.net("other", "other.q", "", "OTHER.q y MID.b").design();
        Answer answer = ask(inTheAir, "signal", "OUT");
        assertThat(answer).isInstanceOf(Answer.Open.class);
        Design kept = kept(answer);
        assertThat(kept.occupancy().findOccupant(kept.fabric().findVertex("MID.q")))
                .map(Occupant::name)
                .contains("signal");
    }

    @Test
    void noSecondNetGoesThroughASite() {
        Design design =
                source().wires("w x y z")
                        .site("MID", "a b", "p q")
                        .through("MID", "a", "p")
                        .through("MID", "b", "q")
                        .site("OTHER", "", "q")
                        .cell("other", "OTHER")
                        .pad("OUT")
                        .chain("SRC.q w MID.a")
                        .chain("MID.p x OUT")
                        .chain("OTHER.q y MID.b")
                        .chain("MID.q z")
                        .net("signal", "source.q", "")
                        .net("through", "other.q", "", "OTHER.q y MID.b MID.q z")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove net through");
    }

    // Why

    @Test
    void occupantsOfWhichSomethingMustBeReleasedMayStayWhereTheirDriverIsRemoved() {
        Design design =
                source().wires("w x1 x2 y1 y2")
                        .site("BOTH", "", "q r")
                        .cell("both", "BOTH")
                        .pad("OUT")
                        .chain("SRC.q w x1 x2 OUT")
                        .chain("w y1 y2 OUT")
                        .chain("BOTH.q x1")
                        .chain("BOTH.q y2")
                        .chain("BOTH.r x2")
                        .chain("BOTH.r y1")
                        .net("signal", "source.q", "")
                        .net("one", "both.q", "", "BOTH.q x1", "BOTH.q y2")
                        .net("two", "both.r", "", "BOTH.r x2", "BOTH.r y1")
                        .design();
        Answer answer = ask(design, "signal", "OUT");
        assertThat(removed(answer)).containsExactly("remove cell both");
        UnblockExplanation explanation =
                ((Answer.Blocked) answer).why().orElseThrow().explanation();
        assertThat(explanation.oneOfThese())
                .extracting(Occupant::name)
                .containsExactlyInAnyOrder("one", "two");
    }

    @Test
    void moreThanSevenObstaclesAreProvenWhereNoLargeSetWasLeftOut() {
        int steps = 9;
        HandMade chip = source().pad("OUT").net("signal", "source.q", "");
        StringBuilder ladder = new StringBuilder("SRC.q");
        for (int i = 0; i < steps; i++) {
            String rung = "w" + i;
            ladder.append(' ').append(rung);
            chip.wires(rung)
                    .site("S" + i, "", "q")
                    .cell("c" + i, "S" + i)
                    .chain("S" + i + ".q " + rung)
                    .net("n" + i, "c" + i + ".q", "", "S" + i + ".q " + rung);
        }
        Design design = chip.chain(ladder + " OUT").design();
        UnblockExplanation explanation =
                ((Answer.Blocked) ask(design, "signal", "OUT")).why().orElseThrow().explanation();
        assertThat(explanation.best().removals()).hasSize(steps);
        assertThat(explanation.atLeast()).isEqualTo(steps);
        assertThat(explanation.provenFewest()).isTrue();
        Fabric fabric = design.fabric();
        assertThat(explanation.chokepoints())
                .extracting(Chokepoint::resource)
                .hasSize(steps + 1)
                .endsWith(fabric.pads().get(0).name());
    }
}
