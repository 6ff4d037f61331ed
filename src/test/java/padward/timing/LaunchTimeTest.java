package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.fabric.delay.Delay;

/**
 * Nets followed back to their registers through logic. Invented: registers take 20 to 30 ps, and
 * every switch its own delay, so that sums can be told apart.
 */
class LaunchTimeTest {
    private static final CellKind TABLE = new CellKind("table", false);

    private static CellKind register(Optional<Delay> clockToOutput) {
        return CellKind.register(
                "register",
                new CellFunction.Register(
                        "d",
                        "clk",
                        "q",
                        Optional.empty(),
                        Optional.empty(),
                        CellFunction.Initial.UNKNOWN,
                        Optional.empty(),
                        clockToOutput,
                        Optional.empty(),
                        Optional.empty()));
    }

    /**
     * Registers a and b, clocked by net clk after 5 to 7 and 50 to 70 ps, feed table t, over 3 to 4
     * and 30 to 40 ps. Through it take 1 to 2 ps from either input.
     */
    private static HandMade made() {
        return new HandMade()
                .kind(register(Optional.of(new Delay(20, 30))))
                .otherKind(TABLE, "src t")
                .wires("w")
                .site("G", "", "o")
                .site("A", "d clk", "q")
                .site("B", "d clk", "q")
                .site("T", "i k", "o")
                .site("Z", "d clk", "q")
                .pad("IN")
                .chain("G.o A.clk", 5, 7)
                .chain("G.o B.clk", 50, 70)
                .chain("A.q T.i", 3, 4)
                .chain("B.q T.k", 30, 40)
                .through("T", "i", "o")
                .through("T", "k", "o")
                .chain("IN T.k", 9, 9)
                .chain("T.o w", 1, 1)
                .cell("src", "G")
                .cell("a", "A")
                .cell("b", "B")
                .cell("t", "T");
    }

    private static HandMade clocked() {
        return made().net("clk", "src.o", "a.clk b.clk", "G.o A.clk", "G.o B.clk");
    }

    private static HandMade both() {
        return clocked()
                .net("fromA", "a.q", "t.i", "A.q T.i")
                .net("fromB", "b.q", "t.k", "B.q T.k")
                .net("n", "t.o", "", "T.o");
    }

    private static LaunchTime launch(HandMade made) {
        Design design = made.design();
        return LaunchTime.of(design, design.findNet("n").orElseThrow());
    }

    @Test
    void theEarliestAndTheLatestPathAreKept() {
        LaunchTime launch = launch(both());
        // Clock 5 to 7, register 20 to 30, wire 3 to 4, table 1 to 2; and by b 101 to 142.
        assertThat(launch.earliest()).contains(new Delay(29, 43));
        assertThat(launch.latest()).contains(new Delay(101, 142));
        assertThat(launch.clocks()).containsExactly("clk");
        assertThat(launch.ports()).isEmpty();
        assertThat(launch.unknown()).isEmpty();
        Net clock = both().design().findNet("clk").orElseThrow();
        assertThat(launch.isOf(clock)).isTrue();
    }

    @Test
    void whatThePortFeedsIsNoPathOfAClock() {
        LaunchTime launch =
                launch(
                        clocked()
                                .port("in", PortDirection.IN, "IN")
                                .net("fromA", "a.q", "t.i", "A.q T.i")
                                .net("fromPort", "in", "t.k", "IN T.k")
                                .net("n", "t.o", "", "T.o"));
        assertThat(launch.ports()).containsExactly("in");
        assertThat(launch.latest()).contains(new Delay(29, 43));
        assertThat(launch.isOf(clocked().design().findNet("clk").orElseThrow())).isFalse();
    }

    @Test
    void aRouteThatDoesNotReachItsSinkIsNamed() {
        LaunchTime data =
                launch(
                        clocked()
                                .net("fromA", "a.q", "t.i", "A.q T.i")
                                .net("fromB", "b.q", "t.k", "B.q")
                                .net("n", "t.o", "", "T.o"));
        assertThat(data.unknown()).containsExactly("the route of net fromB");
        assertThat(data.earliest()).isEmpty();
        assertThat(data.latest()).isEmpty();
        LaunchTime clock =
                launch(
                        made().net("clk", "src.o", "a.clk b.clk", "G.o A.clk")
                                .net("n", "b.q", "", "B.q"));
        assertThat(clock.unknown()).containsExactly("the route of net clk");
        assertThat(clock.latest()).isEmpty();
    }

    @Test
    void aRegisterWithoutAClockNetIsUntraced() {
        LaunchTime launch =
                launch(made().net("fromA", "a.q", "t.i", "A.q T.i").net("n", "t.o", "", "T.o"));
        assertThat(launch.untraced()).containsExactly("the clock of cell a");
        assertThat(launch.unknown()).containsExactly("the clock of cell a");
        assertThat(launch.latest()).isEmpty();
    }

    @Test
    void whatTheFabricDoesNotStateIsMissingFromTheSum() {
        LaunchTime launch = launch(both().kind(register(Optional.empty())));
        assertThat(launch.latest()).contains(new Delay(81, 112));
        assertThat(launch.unknown()).containsExactly("clock-to-output of kind register");
        // Table u has no pass-through from its input to its output.
        LaunchTime through =
                launch(
                        clocked()
                                .site("U", "i", "o")
                                .chain("A.q U.i", 2, 2)
                                .cell("u", "U")
                                .otherKind(new CellKind("plain", false), "u")
                                .net("fromA", "a.q", "u.i", "A.q U.i")
                                .net("n", "u.o", "", "U.o"));
        assertThat(through.latest()).contains(new Delay(27, 39));
        assertThat(through.unknown()).containsExactly("the delay through kind plain");
    }

    /** A switch between two pins of a site is no way through the cell. */
    @Test
    void aSwitchBetweenPinsIsNotTheDelayThroughTheCell() {
        LaunchTime launch =
                launch(
                        clocked()
                                .site("U", "i", "o")
                                .chain("A.q U.i", 2, 2)
                                .chain("U.i U.o", 100, 100)
                                .cell("u", "U")
                                .otherKind(new CellKind("plain", false), "u")
                                .net("fromA", "a.q", "u.i", "A.q U.i")
                                .net("n", "u.o", "", "U.o"));
        assertThat(launch.latest()).contains(new Delay(27, 39));
        assertThat(launch.unknown()).containsExactly("the delay through kind plain");
    }

    /** Table t feeds itself over table u: only the loop is untraced, and a's path still counts. */
    @Test
    void aLoopOverTwoTablesIsFound() {
        HandMade made =
                clocked()
                        .site("U", "i", "o")
                        .through("U", "i", "o")
                        .chain("w U.i", 1, 1)
                        .chain("U.o T.k", 1, 1)
                        .cell("u", "U")
                        .otherKind(new CellKind("other", false), "u")
                        .net("fromA", "a.q", "t.i", "A.q T.i")
                        .net("back", "u.o", "t.k", "U.o T.k")
                        .net("n", "t.o", "u.i", "T.o w U.i");
        LaunchTime launch = launch(made);
        assertThat(launch.untraced()).hasSize(1);
        assertThat(launch.untraced().iterator().next())
                .startsWith("when the loop of logic through net ");
        assertThat(launch.earliest()).contains(new Delay(29, 43));
        assertThat(launch.isOf(made.design().findNet("clk").orElseThrow())).isFalse();
    }

    /** A chain of tables without a loop has none, wherever two of its nets come together again. */
    @Test
    void twoPathsFromOneTableAreNoLoop() {
        LaunchTime launch =
                launch(
                        clocked()
                                .site("U", "i k", "o")
                                .site("V", "i", "o")
                                .through("U", "i", "o")
                                .through("U", "k", "o")
                                .through("V", "i", "o")
                                .chain("w U.i", 1, 1)
                                .chain("w V.i", 1, 1)
                                .chain("V.o U.k", 10, 10)
                                .cell("u", "U")
                                .cell("v", "V")
                                .otherKind(new CellKind("other", false), "u v")
                                .net("fromA", "a.q", "t.i", "A.q T.i")
                                .net("mid", "t.o", "u.i v.i", "T.o w U.i", "w V.i")
                                .net("late", "v.o", "u.k", "V.o U.k")
                                .net("n", "u.o", "", "U.o"));
        assertThat(launch.untraced()).isEmpty();
        assertThat(launch.earliest()).contains(new Delay(32, 47));
        assertThat(launch.latest()).contains(new Delay(43, 59));
    }

    /** Where the fabric names no clock pin, the one clock net at the cell is its clock. */
    @Test
    void aRegisterOfUnknownPinsHasTheClockNetThatIsThere() {
        Design design =
                clocked()
                        .kind(new CellKind("register", true))
                        .net("data", "t.o", "", "T.o")
                        .net("n", "a.q", "", "A.q")
                        .design();
        assertThat(LaunchTime.clockOf(design, design.findCell("a").orElseThrow())).isEmpty();
        Net plain = design.findNet("clk").orElseThrow();
        Design marked =
                new Design(
                        design.name(),
                        design.note(),
                        design.fabric(),
                        design.board(),
                        design.cells().stream().toList(),
                        design.nets().stream()
                                .map(
                                        n ->
                                                n.id() == plain.id()
                                                        ? new Net(
                                                                n.id(),
                                                                n.name(),
                                                                n.driver(),
                                                                n.sinks(),
                                                                n.route(),
                                                                true)
                                                        : n)
                                .toList(),
                        design.ports().stream().toList());
        assertThat(LaunchTime.clockOf(marked, marked.findCell("a").orElseThrow()).map(Net::name))
                .contains("clk");
        LaunchTime launch = LaunchTime.of(marked, marked.findNet("n").orElseThrow());
        assertThat(launch.latest()).contains(new Delay(5, 7));
        assertThat(launch.unknown()).containsExactly("clock-to-output of kind register");
    }

    /** The clock comes to the data pin as well, over 900 ps: that is not when it is clocked. */
    @Test
    void theClockCountsAtTheClockPin() {
        HandMade made =
                made().chain("G.o A.d", 900, 900)
                        .net("clk", "src.o", "a.d a.clk", "G.o A.d", "G.o A.clk")
                        .net("n", "a.q", "", "A.q");
        assertThat(launch(made).latest()).contains(new Delay(25, 37));
        DoubleRateRegister twice =
                new DoubleRateRegister(
                        "d",
                        "d",
                        "clk",
                        "q",
                        Optional.of("up"),
                        Optional.of("down"),
                        Optional.of(new Delay(40, 60)));
        HandMade copy =
                made().kind(
                                new CellKind(
                                        "register",
                                        true,
                                        Optional.empty(),
                                        Optional.empty(),
                                        Optional.of(twice)))
                        .chain("G.o Z.d", 900, 900)
                        .chain("G.o Z.clk", 6, 8)
                        .cell("z", "Z", Map.of("up", "1", "down", "0"))
                        .net("clk", "src.o", "z.d z.clk", "G.o Z.d", "G.o Z.clk")
                        .net("n", "z.q", "", "Z.q");
        assertThat(launch(copy).latest()).contains(new Delay(46, 68));
        // Behind a table it is data that changes at both edges.
        HandMade behind =
                made().kind(
                                new CellKind(
                                        "register",
                                        true,
                                        Optional.empty(),
                                        Optional.empty(),
                                        Optional.of(twice)))
                        .chain("G.o Z.clk", 6, 8)
                        .chain("Z.q T.i", 1, 1)
                        .cell("z", "Z", Map.of("up", "1", "down", "0"))
                        .net("clk", "src.o", "z.clk", "G.o Z.clk")
                        .net("q", "z.q", "t.i", "Z.q T.i")
                        .net("n", "t.o", "", "T.o");
        assertThat(launch(behind).bothEdges()).containsExactly("clk");
        assertThat(launch(behind).latest()).isEmpty();
    }
}
