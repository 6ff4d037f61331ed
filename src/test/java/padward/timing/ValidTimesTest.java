package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import padward.breakout.group.RegisterCheck;
import padward.design.Design;
import padward.design.Net;
import padward.example.HandMade;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.fabric.delay.Delay;

/**
 * When lines are valid relative to a clock on a channel of its own: by hand, and against drawn dies
 * and benches. Invented: the clock comes to register a after 10 to 14 ps, which takes 20 to 30 ps.
 */
class ValidTimesTest {
    private static final CellFunction.Register FUNCTION =
            new CellFunction.Register(
                    "d",
                    "clk",
                    "q",
                    Optional.empty(),
                    Optional.empty(),
                    CellFunction.Initial.UNKNOWN,
                    Optional.empty(),
                    Optional.of(new Delay(20, 30)),
                    Optional.empty(),
                    Optional.empty());

    private static Design design() {
        return new HandMade()
                .kind(CellKind.register("register", FUNCTION))
                .wires("ck w")
                .site("g", "", "o")
                .site("r", "d clk", "q")
                .pad("p")
                .chain("g.o ck r.clk", 5, 7)
                .chain("r.q w p", 3, 4)
                .cell("src", "g")
                .cell("a", "r")
                .net("clk", "src.o", "a.clk", "g.o ck r.clk")
                .net("n", "a.q", "", "r.q")
                .design();
    }

    /** Registers of another clock are named, and their times are not those of this clock. */
    @Test
    void launchTimesByOneClock() {
        Design design = design();
        Net net = design.findNet("n").orElseThrow();
        LaunchTime own = LaunchTime.by(design, design.findNet("clk").orElseThrow(), net);
        assertThat(own).isEqualTo(LaunchTime.of(design, net));
        assertThat(own.latest()).contains(new Delay(30, 44));
        LaunchTime other = LaunchTime.by(design, net, net);
        assertThat(other.clocks()).containsExactly("clk");
        assertThat(other.latest()).isEmpty();
        assertThat(other.earliest()).isEmpty();
    }

    private static OutputPath output(int outsidePs, int tolerancePs) {
        PadLoad load = new PadLoad(0, false, false);
        Delay none = Delay.ZERO;
        Delay lead = new Delay(outsidePs - tolerancePs, outsidePs + tolerancePs);
        return new OutputPath(load, none, none, none, none, none, lead, Optional.empty());
    }

    private static ValidTimes.Entry entry(Arrival clockLine, OutputPath output, double percent) {
        Design design = design();
        Net net = design.findNet("n").orElseThrow();
        Net clock = design.findNet("clk").orElseThrow();
        return ValidTimes.entry(
                "n", "n", 3300, design, net, clock, new Delay(6, 8), output, clockLine, percent);
    }

    @Test
    void theSumsAreThoseByHand() {
        Arrival clockLine = new Arrival(new Delay(100, 160), 0, 0);
        // 30 + 6 - 100 at the fast corner, 44 + 8 - 160 at the slow one.
        assertThat(entry(clockLine, output(0, 0), 0).window())
                .contains(new ValidTimes.Window(-64, -108));
        // And half of 5 % of 36 + 100 and of 52 + 160, rounded up.
        assertThat(entry(clockLine, output(0, 0), 5).window())
                .contains(new ValidTimes.Window(-60, -114));
        // And 3 and 4 ps of tolerance outside, of which the lead takes 3 around 50.
        assertThat(entry(new Arrival(new Delay(100, 160), 50, 4), output(50, 3), 0).window())
                .contains(new ValidTimes.Window(-59, -113));
    }

    /** Data leaves after 30 to 44 ps, and was measured to be 500 ± 7 ps later than the clock. */
    @Test
    void aMeasuredLineIsAsMuchLaterAsWasMeasured() {
        Design design = design();
        Net net = design.findNet("n").orElseThrow();
        Net clock = design.findNet("clk").orElseThrow();
        Arrival clockLine = new Arrival(Delay.ZERO, 0, 0);
        for (double percent : List.of(0.0, 5.0)) {
            // Half of 5 % of 44 and of 30 ps, rounded up.
            int late = percent > 0 ? 2 : 0;
            int early = percent > 0 ? 1 : 0;
            assertThat(
                            ValidTimes.entry(
                                            "n",
                                            "n",
                                            0,
                                            design,
                                            net,
                                            clock,
                                            launch -> new Arrival(launch, 500, 7),
                                            clockLine,
                                            percent)
                                    .window())
                    .contains(new ValidTimes.Window(551 + late, 523 - early));
        }
    }

    /** A die between its corners, local variation and tolerances as drawn: never outside. */
    @Test
    void noDrawnBenchLeavesTheWindow() {
        Random random = new Random(1);
        for (int i = 0; i < 2000; i++) {
            Delay clock = new Delay(random.nextInt(3000), 3000 + random.nextInt(3000));
            int tolerance = random.nextInt(100);
            Arrival clockLine = new Arrival(clock, 1500, tolerance);
            OutputPath data = output(800, random.nextInt(100));
            ValidTimes.Window window = entry(clockLine, data, 5).window().orElseThrow();
            double k = random.nextDouble();
            double dataLocal = 1 + 0.025 * (2 * random.nextDouble() - 1);
            double clockLocal = 1 + 0.025 * (2 * random.nextDouble() - 1);
            // Two tolerances, neither at more than its share of the root of the sum of squares.
            double angle = random.nextDouble() * 2 * Math.PI;
            double hypot = Math.hypot(tolerance, data.lead().spreadPs() / 2.0);
            double seen =
                    dataLocal * (36 + k * 16)
                            + 800
                            - clockLocal * (clock.fastPs() + k * clock.spreadPs())
                            - 1500
                            + hypot * Math.sin(angle);
            assertThat(seen).isBetween((double) window.toPs(), (double) window.fromPs());
        }
    }

    @Test
    void theInstrumentIsToldWhenToTakeThem() {
        ValidTimes.Entry one = one(new ValidTimes.Window(2000, -500), 3300);
        ValidTimes.Entry other = one(new ValidTimes.Window(1500, -1000), 3300);
        ValidTimes times = new ValidTimes("clk", "channel 1", 8000, List.of(one, other));
        assertThat(times.all()).contains(new ValidTimes.Window(2000, -1000));
        assertThat(times.advice())
                .containsExactly(
                        "All are valid from 2.000 ns after an edge for 5.000 ns: take them 4.500 ns"
                                + " after the rising edge, ± 2.500 ns. The falling edge will do, if"
                                + " the clock is high for half of its period.",
                        "Threshold: 1.65 V, half of the drivers' 3.3 V.");
        assertThat(new ValidTimes("clk", "channel 1", 2500, List.of(one, other)).advice().get(0))
                .startsWith("There is no time at which all are valid")
                .contains("more than 3.000 ns");
        assertThat(new ValidTimes("clk", "channel 1", 0, List.of(one, other)).advice().get(0))
                .contains("if the clock's period is more than 3.000 ns");
    }

    private static List<String> advice(int fromPs, int toPs) {
        ValidTimes.Entry entry = one(new ValidTimes.Window(fromPs, toPs), 0);
        return new ValidTimes("clk", "channel 1", 8000, List.of(entry)).advice();
    }

    /** Falling edges are at 4 and 12 ns; a signal that has just become valid there is not taken. */
    @Test
    void theFallingEdgeWillDoWhereItIsWithin() {
        assertThat(advice(9000, 5000).get(0)).contains("The falling edge will do");
        assertThat(advice(9000, 3000).get(0)).contains("The falling edge will not do");
        assertThat(advice(4000, -1000).get(0)).contains("The falling edge will not do");
        assertThat(advice(3000, -4000).get(0)).contains("The falling edge will not do");
        assertThat(advice(3000, -3999).get(0)).contains("The falling edge will do");
        assertThat(advice(0, -1000).get(0)).startsWith("All are valid from 0.000 ns after an edge");
    }

    @Test
    void aWindowOfNoLengthIsNone() {
        assertThat(advice(3000, -5000).get(0)).startsWith("There is no time");
        assertThat(advice(3000, -4999).get(0)).startsWith("All are valid");
    }

    @Test
    void oneLineWithoutAWindowLeavesNoneForAll() {
        ValidTimes.Entry known = one(new ValidTimes.Window(2000, -500), 3300);
        ValidTimes.Entry unknown =
                new ValidTimes.Entry("m", "m", 1800, Optional.empty(), Set.of("why"));
        ValidTimes times = new ValidTimes("clk", "channel 1", 8000, List.of(known, unknown));
        assertThat(times.all()).isEmpty();
        assertThat(times.advice())
                .containsExactly(
                        "Threshold: 0.9 V, half of the drivers' 1.8 V where it is that.",
                        "Threshold: 1.65 V, half of the drivers' 3.3 V where it is that.");
        assertThat(new ValidTimes("clk", "channel 1", 8000, List.of()).all()).isEmpty();
    }

    /** Later than a period: what is seen belongs to an earlier edge. */
    @Test
    void aLineThatIsLateByPeriodsSaysSo() {
        ValidTimes late =
                new ValidTimes(
                        "clk",
                        "channel 1",
                        4000,
                        List.of(one(new ValidTimes.Window(6000, 5000), 0)));
        assertThat(late.advice())
                .containsExactly(
                        "All are valid from 6.000 ns after an edge for 3.000 ns: take them 3.500 ns"
                                + " after the rising edge, ± 1.500 ns. What is taken there belongs to"
                                + " the edge 1 period before it. The falling edge will not do, if the clock is"
                                + " high for half of its period.");
    }

    /** Seen before its edge, as the clock's own line is slower by periods. */
    @Test
    void aLineThatIsEarlyByPeriodsSaysSo() {
        ValidTimes early =
                new ValidTimes(
                        "clk",
                        "channel 1",
                        4000,
                        List.of(one(new ValidTimes.Window(-9000, -10_000), 0)));
        assertThat(early.advice().get(0))
                .contains("take them 0.500 ns after the rising edge")
                .contains("What is taken there belongs to the edge 2 periods after it.")
                .doesNotContain("before it");
    }

    /** What loops changes when it likes, whatever else comes to it. */
    @Test
    void aLoopOfLogicHasNoWindow() {
        Design design =
                new HandMade()
                        .kind(new CellKind("register", false))
                        .wires("w")
                        .site("r", "d", "q")
                        .pad("p")
                        .chain("r.q w r.d", 3, 4)
                        .chain("w p")
                        .cell("a", "r")
                        .net("n", "a.q", "a.d", "r.q w r.d")
                        .design();
        LaunchTime launch = LaunchTime.of(design, design.findNet("n").orElseThrow());
        assertThat(launch.untraced())
                .containsExactly("when the loop of logic through net n changes");
        assertThat(launch.unknown()).containsAll(launch.untraced());
    }

    /** One clock is known, and another register's is not: that is not one clock alone. */
    @Test
    void aRegisterWithoutAKnownClockIsNotOfTheOthersClock() {
        Net clock = design().findNet("clk").orElseThrow();
        Optional<Delay> some = Optional.of(Delay.ZERO);
        Set<String> none = Set.of();
        assertThat(new LaunchTime(Set.of("clk"), none, none, some, some, none, none).isOf(clock))
                .isTrue();
        Set<String> other = Set.of("the clock of cell b");
        assertThat(new LaunchTime(Set.of("clk"), none, none, some, some, other, other).isOf(clock))
                .isFalse();
    }

    private static Design doubleRate(Map<String, String> settings) {
        DoubleRateRegister register =
                new DoubleRateRegister(
                        "up",
                        "down",
                        "clk",
                        "q",
                        Optional.of("upLevel"),
                        Optional.of("downLevel"),
                        Optional.of(new Delay(20, 30)));
        return new HandMade()
                .kind(
                        new CellKind(
                                "register",
                                true,
                                Optional.empty(),
                                Optional.empty(),
                                Optional.of(register)))
                .wires("ck w")
                .site("g", "", "o")
                .site("r", "up down clk", "q")
                .pad("p")
                .chain("g.o ck r.clk", 5, 7)
                .chain("r.q w p", 3, 4)
                .cell("src", "g")
                .cell("a", "r", settings)
                .net("clk", "src.o", "a.clk", "g.o ck r.clk")
                .net("n", "a.q", "", "r.q")
                .design();
    }

    /** It changes twice a period, so the time until the next edge of the clock is no window. */
    @Test
    void whatChangesAtBothEdgesHasNoWindow() {
        Design design = doubleRate(Map.of());
        Net net = design.findNet("n").orElseThrow();
        Net clock = design.findNet("clk").orElseThrow();
        LaunchTime launch = LaunchTime.of(design, net);
        assertThat(launch.bothEdges()).containsExactly("clk");
        assertThat(launch.isOf(clock)).isFalse();
        assertThat(RegisterCheck.otherClock(clock, launch).orElseThrow())
                .startsWith("it changes at both edges of clk");
        assertThat(entryOf(design, net, clock).toText())
                .isEqualTo("n: not known: it changes at both edges of clk.");
    }

    /** A copy of its clock is as late as a register's output. */
    @Test
    void aCopyOfTheClockHasItsTime() {
        Design design = doubleRate(Map.of("upLevel", "1", "downLevel", "0"));
        LaunchTime launch = LaunchTime.of(design, design.findNet("n").orElseThrow());
        assertThat(launch.bothEdges()).isEmpty();
        assertThat(launch.latest()).contains(new Delay(30, 44));
    }

    private static ValidTimes.Entry entryOf(Design design, Net net, Net clock) {
        return ValidTimes.entry(
                net.name(),
                net.name(),
                0,
                design,
                net,
                clock,
                Delay.ZERO,
                output(0, 0),
                new Arrival(Delay.ZERO, 0, 0),
                5);
    }

    private static ValidTimes.Entry one(ValidTimes.Window window, int millivolts) {
        return new ValidTimes.Entry("n", "n", millivolts, Optional.of(window), Set.of());
    }

    @Test
    void anotherClockIsNotGuessedAt() {
        Design design = design();
        Net net = design.findNet("n").orElseThrow();
        ValidTimes.Entry entry = entryOf(design, net, net);
        assertThat(entry.window()).isEmpty();
        assertThat(entry.toText()).isEqualTo("n: not known: not registered by n alone.");
    }
}
