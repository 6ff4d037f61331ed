package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.example.HandMade;
import padward.fabric.delay.Delay;

/** What a change does to sinks that were there before, on a few wires of different delay. */
class SinkDelayChangeTest {
    /** Net n comes to pins of cell u that are alike, a over x, and to cell v over y. */
    private static HandMade made() {
        return new HandMade()
                .wires("x y z")
                .site("S", "", "o")
                .site("U", "a~in b~in c", "")
                .site("V", "i", "")
                .pad("P")
                .chain("S.o x U.a", 10, 20)
                .chain("S.o y V.i", 30, 40)
                .chain("S.o z U.b", 100, 150)
                .chain("z V.i", 7, 9)
                .chain("x P", 1, 1)
                .chain("z P", 1, 1)
                .chain("z U.a", 1, 1)
                .cell("s", "S")
                .cell("u", "U")
                .cell("v", "V")
                .port("led", PortDirection.OUT, "P")
                .net("n", "s.o", "u.a v.i led", "S.o x U.a", "x P", "S.o y V.i");
    }

    private static RouteTree tree(Design design, String... branches) {
        RouteTree.Builder tree = new RouteTree.Builder(design.fabric().findVertex("S.o"));
        for (String branch : branches) {
            List<Integer> path =
                    Arrays.stream(branch.split(" ")).map(design.fabric()::findVertex).toList();
            for (int i = 1; i < path.size(); i++) {
                if (!tree.contains(path.get(i))) {
                    tree.add(path.get(i - 1), path.get(i));
                }
            }
        }
        return tree.build();
    }

    private static List<String> told(List<SinkDelayChange> changes) {
        return changes.stream().map(c -> c.net() + " to " + c.sink() + " " + c.laterPs()).toList();
    }

    @Test
    void sinksAreToldTheMostDelayedFirst() {
        Design before = made().design();
        Design after =
                Outcome.apply(
                        before,
                        List.of(
                                new Edit.RouteNet(
                                        "n", tree(before, "S.o x U.a", "x P", "S.o z V.i"))));
        List<SinkDelayChange> changes = SinkDelayChange.between(before, after);
        // To v.i: 80 ps before, 150 + 9 ps after; the others as they were.
        assertThat(told(changes)).containsExactly("n to v.i 79", "n to u.a 0", "n to port led 0");
        assertThat(changes.get(0).before()).isEqualTo(new Delay(60, 80));
        assertThat(changes.get(0).after()).isEqualTo(new Delay(107, 159));
        assertThat(changes.get(0).earlierPs()).isZero();
        assertThat(changes.get(0).slackBeforePs()).isEmpty();
        assertThat(SinkDelayChange.between(after, before).get(2).earlierPs()).isEqualTo(47);
        assertThat(SinkDelayChange.between(before, before)).isEmpty();
    }

    /** The signals of pins a and b of cell u may be swapped: its sink is told as it was. */
    @Test
    void aSwappedSinkIsFoundAgain() {
        Design before = made().design();
        Edit swap =
                new Edit.RouteNet(
                        "n",
                        tree(before, "S.o z U.b", "z P", "S.o y V.i"),
                        List.of(new Edit.PinSwap("u", "a", "b")));
        List<SinkDelayChange> changes =
                SinkDelayChange.between(before, Outcome.apply(before, List.of(swap)));
        // 40 ps to pin a before, 300 ps to pin b after; the port 21 ps before, 151 ps after.
        assertThat(told(changes))
                .containsExactly("n to u.a 260", "n to port led 130", "n to v.i 0");
    }

    /** A new sink at a pin that is alike takes nobody's place while the old sink is there. */
    @Test
    void aNewSinkIsNotTheOldOne() {
        Design before = made().design();
        Design more =
                Outcome.apply(
                        before,
                        List.of(
                                new Edit.AddSink(
                                        "n",
                                        new Edit.CellEnd("u", "b"),
                                        Arrays.stream("S.o z U.b".split(" "))
                                                .map(before.fabric()::findVertex)
                                                .toList())));
        assertThat(told(SinkDelayChange.between(before, more)))
                .containsExactly("n to u.a 0", "n to v.i 0", "n to port led 0");
    }

    /** Of three pins that are alike, the net keeps b, and goes from a to d. */
    @Test
    void aSwappedSinkIsNotOneThatWasThere() {
        Design before =
                new HandMade()
                        .wires("x y z")
                        .site("S", "", "o")
                        .site("U", "a~in b~in d~in", "")
                        .chain("S.o x U.a", 10, 20)
                        .chain("S.o y U.b", 30, 40)
                        .chain("S.o z U.d", 100, 150)
                        .cell("s", "S")
                        .cell("u", "U")
                        .net("n", "s.o", "u.b u.a", "S.o x U.a", "S.o y U.b")
                        .design();
        Edit swap =
                new Edit.RouteNet(
                        "n",
                        tree(before, "S.o z U.d", "S.o y U.b"),
                        List.of(new Edit.PinSwap("u", "a", "d")));
        assertThat(told(SinkDelayChange.between(before, Outcome.apply(before, List.of(swap)))))
                .containsExactly("n to u.a 260", "n to u.b 0");
    }

    /** A sink of another cell, or at a pin that is not alike, does not take its place. */
    @Test
    void aSinkThatIsGoneHasNoDelayAfter() {
        Design before = made().design();
        Design without = Outcome.apply(before, List.of(new Edit.RemoveCell("u")));
        assertThat(told(SinkDelayChange.between(before, without)))
                .containsExactlyInAnyOrder("n to v.i 0", "n to port led 0");
        // Another cell, and pin c, which is not like a.
        Design more =
                Outcome.apply(
                        without,
                        List.of(
                                new Edit.AddCell("w", "register", "U", Map.of()),
                                new Edit.AddSink(
                                        "n",
                                        new Edit.CellEnd("w", "b"),
                                        Arrays.stream("S.o z U.b".split(" "))
                                                .map(before.fabric()::findVertex)
                                                .toList())));
        assertThat(told(SinkDelayChange.between(before, more)))
                .containsExactlyInAnyOrder("n to v.i 0", "n to port led 0");
    }

    @Test
    void aSinkThatWasNotReachedIsLeftOut() {
        Design before =
                new HandMade()
                        .wires("x y")
                        .site("S", "", "o")
                        .site("U", "a b", "")
                        .chain("S.o x U.a", 10, 20)
                        .chain("S.o y U.b", 10, 20)
                        .cell("s", "S")
                        .cell("u", "U")
                        .net("n", "s.o", "u.a u.b", "S.o x U.a")
                        .design();
        Design after =
                Outcome.apply(
                        before,
                        List.of(new Edit.RouteNet("n", tree(before, "S.o x U.a", "S.o y U.b"))));
        assertThat(told(SinkDelayChange.between(before, after))).containsExactly("n to u.a 0");
        assertThat(told(SinkDelayChange.between(after, before))).containsExactly("n to u.a 0");
    }

    @Test
    void requiredTimesGiveSlack() {
        Design made = made().design();
        Net net = made.findNet("n").orElseThrow();
        Terminal sink = net.sinks().get(1);
        Net timed =
                new Net(
                        net.id(),
                        net.name(),
                        net.driver(),
                        net.sinks(),
                        net.route(),
                        false,
                        OptionalInt.empty(),
                        Map.of(sink, 100));
        Design before =
                new Design(
                        made.name(),
                        made.note(),
                        made.fabric(),
                        made.board(),
                        made.cells().stream().toList(),
                        List.of(timed),
                        made.ports().stream().toList());
        Design after =
                Outcome.apply(
                        before,
                        List.of(
                                new Edit.RouteNet(
                                        "n", tree(before, "S.o x U.a", "x P", "S.o z V.i"))));
        SinkDelayChange change = SinkDelayChange.between(before, after).get(0);
        assertThat(change.slackBeforePs()).hasValue(20);
        assertThat(change.slackAfterPs()).hasValue(-59);
        assertThat(change.breaksTiming()).isTrue();
        assertThat(SinkDelayChange.between(before, after).get(1).breaksTiming()).isFalse();
        SinkDelayChange back = SinkDelayChange.between(after, before).get(2);
        assertThat(back.slackBeforePs()).hasValue(-59);
        assertThat(back.breaksTiming()).isFalse();
    }

    /** Timing that is just met, at no slack, is met. */
    @Test
    void noSlackIsEnough() {
        Delay any = Delay.ZERO;
        assertThat(slacks(any, 0, -1).breaksTiming()).isTrue();
        assertThat(slacks(any, 5, 0).breaksTiming()).isFalse();
        assertThat(slacks(any, -1, -2).breaksTiming()).isFalse();
    }

    private static SinkDelayChange slacks(Delay any, int before, int after) {
        return new SinkDelayChange(
                "n", "u.a", any, any, OptionalInt.of(before), OptionalInt.of(after));
    }
}
