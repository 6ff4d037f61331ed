package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.text.AnswerText;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.DesignReview;
import padward.design.NetLock;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.example.HandMade;
import padward.fabric.delay.Corner;
import padward.fabric.review.FabricReview;

/**
 * Net {@code a} of cell {@code from} can come to pad P over wire w1, which net {@code b} uses, or
 * over w2 and w3. Cell {@code mid} stands where net {@code b} ends.
 */
class LockedCasesTest {
    private static HandMade made() {
        return new HandMade()
                .wires("w0 w1 w2 w3 w4")
                .site("S0", "", "o")
                .site("S1", "", "o")
                .site("S2", "i", "o")
                .pad("P")
                .pad("Q")
                .chain("S0.o w0 w1 P")
                .chain("w0 w2 w3 P")
                .chain("S1.o w1 S2.i")
                .chain("w4 S2.i")
                .chain("w3 w4 Q")
                .cell("from", "S0")
                .cell("other", "S1")
                .cell("mid", "S2")
                .net("a", "from.o", "", "S0.o w0")
                .net("b", "other.o", "mid.i", "S1.o w1 S2.i");
    }

    private static Answer ask(Design design, String net, int pad) {
        return Asker.ask(
                new Question(design, design.findNet(net).orElseThrow(), pad, Corner.SLOW),
                Progress.NONE);
    }

    private static String text(Answer answer) {
        return AnswerText.sentence(answer);
    }

    private static List<String> refused(Design design, Edit edit) {
        return ((Outcome.Refused) Outcome.of(design, List.of(edit))).reasons();
    }

    @Test
    void aRouteKeepsOffUnusableWires() {
        assertThat(ask(made().unusable("w2").design(), "a", 0)).isInstanceOf(Answer.Blocked.class);
        Answer answer = ask(made().unusable("w1 w3").design(), "a", 0);
        assertThat(((Answer.NoRoute) answer).reason()).isEqualTo(NoRouteReason.UNUSABLE_ON_ROUTE);
        assertThat(text(answer))
                .contains(
                        "every route from a to pad P needs something unusable: wire w3 is"
                                + " unusable.");
    }

    @Test
    void aLockedNetIsNoObstacle() {
        Answer answer = ask(made().unusable("w2").lockNet("b", NetLock.WIRES).design(), "a", 0);
        assertThat(((Answer.NoRoute) answer).reason()).isEqualTo(NoRouteReason.LOCKED);
        assertThat(text(answer))
                .contains("a cannot be brought out on pad P, because net b is locked.");
    }

    @Test
    void aLockedNetCanBeBroughtOutUnlessItIsLockedWhole() {
        assertThat(ask(made().lockNet("a", NetLock.WIRES).design(), "a", 0))
                .isInstanceOf(Answer.Open.class);
        Answer answer = ask(made().lockNet("a", NetLock.WHOLE).design(), "a", 0);
        assertThat(text(answer)).contains("because net a is locked and takes no branch.");
    }

    @Test
    void aPortOfALockedNetKeepsItsPad() {
        Design design =
                new HandMade()
                        .wires("w0 w1")
                        .site("S0", "", "o")
                        .site("S1", "", "o")
                        .pad("P")
                        .chain("S0.o w0 P")
                        .chain("S1.o w1 P")
                        .cell("c0", "S0")
                        .cell("c1", "S1")
                        .port("out", PortDirection.OUT, "P")
                        .net("a", "c0.o", "", "S0.o w0")
                        .net("b", "c1.o", "out", "S1.o w1 P")
                        .lockNet("b", NetLock.WIRES)
                        .design();
        assertThat(text(ask(design, "a", 0))).contains("because net b is locked.");
        assertThat(refused(design, new Edit.DisconnectPort("out")))
                .containsExactly("net b is locked");
    }

    @Test
    void editsOfWhatIsLockedAreRefusedInOneClause() {
        Design design = made().lockCell("mid").lockNet("a", NetLock.WHOLE).design();
        assertThat(refused(design, new Edit.RemoveCell("mid")))
                .containsExactly("cell mid is locked");
        assertThat(refused(design, new Edit.SetCell("mid", "through", "open")))
                .containsExactly("cell mid is locked");
        assertThat(refused(design, new Edit.RemoveNet("a"))).containsExactly("net a is locked");
        assertThat(refused(design, new Edit.RemoveCell("from"))).containsExactly("net a is locked");
        int root = design.findNet("a").orElseThrow().route().root();
        assertThat(refused(design, new Edit.RouteNet("a", RouteTree.of(root))))
                .containsExactly("net a is locked");
        assertThat(Outcome.of(design, List.of(new Edit.RemoveNet("b"))))
                .isInstanceOf(Outcome.Applied.class);
    }

    @Test
    void nothingNewComesToWhatIsUnusable() {
        Design design = made().unusable("w2 S2").design();
        int w0 = design.fabric().findVertex("w0");
        int w2 = design.fabric().findVertex("w2");
        int w3 = design.fabric().findVertex("w3");
        int pad = design.fabric().findVertex("P");
        Edit out = new Edit.BreakOut("a", "out", "P", "", List.of(w0, w2, w3, pad));
        assertThat(refused(design, out)).containsExactly("w2 is unusable");
        Design empty = Outcome.apply(design, List.of(new Edit.RemoveCell("mid")));
        assertThat(refused(empty, new Edit.AddCell("new", "register", "S2", Map.of())))
                .contains("site S2 is unusable");
    }

    @Test
    void checkNamesWhatUsesUnusableThings() {
        Design design = made().unusable("w1 S2").design();
        assertThat(DesignReview.of(design))
                .contains("cells on unusable sites: 1 (mid on S2)")
                .contains("nets over unusable wires or pins: 1 (b over w1)");
        assertThat(FabricReview.of(design.fabric(), Progress.NONE).counts())
                .contains("unusable: 1 wire, 1 site");
    }
}
