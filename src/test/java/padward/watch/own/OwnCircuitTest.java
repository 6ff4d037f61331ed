package padward.watch.own;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.design.Netlist;
import padward.watch.CircuitRun;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/** A netlist's circuit does what the netlist says, and a netlist that says nothing is refused. */
class OwnCircuitTest {
    private static final int INPUTS = 4;

    private static Circuit circuit(NetlistLogic logic, int tableInputs) throws BadInput {
        Map<String, Signal> signals = new LinkedHashMap<>();
        logic.dataPorts().forEach(p -> signals.put(p, new Signal.Observed("net/" + p)));
        Map<String, String> clocks = new LinkedHashMap<>();
        logic.clockPorts().forEach(p -> clocks.put(p, "clk"));
        return new Bound(logic, signals, clocks).circuit(tableInputs);
    }

    /** Drawn netlists against a plain run of their cells, pin by pin. */
    @Test
    void drawnNetlistsDoWhatTheirCellsDo() throws Exception {
        int made = 0;
        for (int seed = 0; seed < 300; seed++) {
            Random random = new Random(seed);
            Drawn drawn = new Drawn(random);
            NetlistLogic logic;
            try {
                logic = drawn.netlist.logic();
            } catch (BadInput constant) {
                assertThat(constant.found())
                        .matches("one (that|whose next value) is always (high|low)");
                continue;
            }
            made++;
            Circuit circuit = circuit(logic, 3 + random.nextInt(2));
            assertThat(circuit.elements())
                    .allMatch(e -> !(e instanceof CircuitElement.Table) || e.inputs().size() <= 4);
            CircuitRun run = new CircuitRun(circuit, i -> false);
            for (int t = 0; t < 60; t++) {
                Map<String, Boolean> levels = new HashMap<>();
                for (int i = 0; i < INPUTS; i++) {
                    levels.put("i" + i, random.nextBoolean());
                }
                for (int o = 0; o < 2; o++) {
                    boolean shown = run.output(n -> levels.get(n.substring(4)), o);
                    assertThat(shown)
                            .as("seed %d, cycle %d, output %d", seed, t, o)
                            .isEqualTo(drawn.level(drawn.outs.get(o), levels));
                }
                run.edge();
                drawn.edge(levels);
            }
        }
        assertThat(made).isGreaterThan(150);
    }

    /** A drawn netlist that remembers what it drew. */
    private static final class Drawn {
        private final OwnNetlists netlist = new OwnNetlists().in("clock");
        private final Map<String, Integer> contents = new HashMap<>();
        private final Map<String, Map<String, String>> pins = new HashMap<>();
        private final Map<String, Boolean> state = new HashMap<>();
        private final List<String> outs = new ArrayList<>();

        Drawn(Random random) {
            List<String> nets = new ArrayList<>();
            for (int i = 0; i < INPUTS; i++) {
                netlist.in("i" + i);
                nets.add("i" + i);
            }
            int registers = random.nextInt(4);
            for (int r = 0; r < registers; r++) {
                nets.add("r" + r);
                state.put("r" + r, false);
            }
            for (int t = 0; t < 6; t++) {
                table("t" + t, nets, random);
                nets.add("t" + t);
            }
            for (int r = 0; r < registers; r++) {
                register("r" + r, nets, random);
            }
            for (int o = 0; o < 2; o++) {
                outs.add(nets.get(nets.size() - 1 - o * random.nextInt(4)));
                netlist.out("o" + o, outs.get(o));
            }
        }

        private void table(String name, List<String> nets, Random random) {
            int all = random.nextInt(1 << 16);
            Map<String, String> at = new HashMap<>();
            Map<String, String> settings = new HashMap<>();
            for (String pin : OwnNetlists.INPUTS) {
                draw(pin, nets, random, at, settings);
            }
            settings.put("t", random.nextBoolean() ? hex(all) : "16'h" + hex(all));
            contents.put(name, all);
            put(name, "look", "y", at, settings);
        }

        private static String hex(int all) {
            return String.format("%04x", all);
        }

        private void register(String name, List<String> nets, Random random) {
            Map<String, String> at = new HashMap<>();
            Map<String, String> settings = new HashMap<>();
            at.put("d", nets.get(random.nextInt(nets.size())));
            for (String pin : List.of("e", "r")) {
                if (random.nextBoolean()) {
                    draw(pin, nets, random, at, settings);
                }
            }
            put(name, "keep", "q", at, settings);
        }

        /** A net, or now and then a constant. */
        private static void draw(
                String pin,
                List<String> nets,
                Random random,
                Map<String, String> at,
                Map<String, String> settings) {
            if (random.nextInt(6) == 0) {
                settings.put(Netlist.TIED + pin, random.nextBoolean() ? "1" : "0");
            } else {
                at.put(pin, nets.get(random.nextInt(nets.size())));
            }
        }

        private void put(
                String name,
                String kind,
                String output,
                Map<String, String> at,
                Map<String, String> settings) {
            Map<String, String> wired = new HashMap<>(at);
            if (kind.equals("keep")) {
                wired.put("c", "clock");
            }
            netlist.cell(name, kind, output, settings, wired);
            settings.forEach(
                    (k, v) -> {
                        if (k.startsWith(Netlist.TIED)) {
                            at.put(k.substring(Netlist.TIED.length()), v);
                        }
                    });
            pins.put(name, at);
        }

        boolean level(String net, Map<String, Boolean> inputs) {
            if (net.equals("0") || net.equals("1")) {
                return net.equals("1");
            }
            if (inputs.containsKey(net)) {
                return inputs.get(net);
            }
            if (state.containsKey(net)) {
                return state.get(net);
            }
            int row = 0;
            for (int i = 0; i < OwnNetlists.INPUTS.size(); i++) {
                row |= level(pins.get(net).get(OwnNetlists.INPUTS.get(i)), inputs) ? 1 << i : 0;
            }
            return (contents.get(net) >> row & 1) == 1;
        }

        void edge(Map<String, Boolean> inputs) {
            Map<String, Boolean> next = new HashMap<>();
            for (String name : state.keySet()) {
                Map<String, String> at = pins.get(name);
                boolean kept = state.get(name);
                boolean value =
                        level(at.getOrDefault("e", "1"), inputs)
                                ? level(at.get("d"), inputs)
                                : kept;
                next.put(name, value && !level(at.getOrDefault("r", "0"), inputs));
            }
            state.putAll(next);
        }
    }

    @Test
    void cellsOnWhichNoOutputDependsAreLeftOut() throws Exception {
        OwnNetlists netlist =
                new OwnNetlists()
                        .in("a")
                        .in("b")
                        .look("and", "8888", Map.of("a", "a", "b", "b"))
                        .cell("store", "memory", "q", Map.of(), Map.of("d", "b"))
                        .out("out", "and");
        Circuit circuit = circuit(netlist.logic(), 4);
        assertThat(circuit.elements()).hasSize(1);
        assertThat(circuit.latency()).isZero();
        assertThat(circuit.cautions())
                .contains(
                        Circuit.GLITCHES,
                        "1 cell of the netlist is left out, because no output depends on it.");
        assertThat(circuit.function())
                .isEqualTo("Output out of your netlist t: a is net/a, b is net/b.");
    }

    @Test
    void aRegisterStatesItsStart() throws Exception {
        OwnNetlists netlist =
                new OwnNetlists()
                        .in("clk")
                        .in("a")
                        .cell(
                                "r",
                                "keep",
                                "q",
                                Map.of("start", "1'b1"),
                                Map.of("c", "clk", "d", "a"))
                        .out("out", "r");
        CircuitElement.Register register =
                (CircuitElement.Register) circuit(netlist.logic(), 4).elements().get(0);
        assertThat(register.initial()).contains(true);
        assertThat(register.clock()).isEqualTo("clk");
    }

    /** One stated value says nothing of the other registers, which are named. */
    @Test
    void registersWithoutAStartAmongOthersAreNamed() throws Exception {
        OwnNetlists some =
                ab().cell("r", "keep", "q", Map.of("start", "1"), Map.of("c", "clk", "d", "s"))
                        .keep("s", Map.of("c", "clk", "d", "a"))
                        .out("out", "r");
        assertThat(circuit(some.logic(), 4).cautions())
                .containsExactly(
                        "Only some registers of the netlist state an initial value; these state"
                                + " none and may begin at 0 or 1: s.");
        OwnNetlists none = ab().keep("s", Map.of("c", "clk", "d", "a")).out("out", "s");
        assertThat(circuit(none.logic(), 4).cautions()).isEmpty();
    }

    private static void isRefused(
            OwnNetlists netlist, String place, String expected, String found) {
        BadInput fault = catchThrowableOfType(BadInput.class, netlist::logic);
        assertThat(fault).isNotNull();
        assertThat(fault.getMessage())
                .isEqualTo("t.v, at " + place + ": expected " + expected + ", found " + found);
    }

    private static OwnNetlists ab() {
        return new OwnNetlists().in("clk").in("a").in("b");
    }

    @Test
    void whatCannotBePlacedIsRefused() {
        isRefused(ab(), "module t", "an output port", "none");
        isRefused(ab().out("o", "a"), "port o", "an output that a cell drives", "input a");
        isRefused(
                ab().cell("m", "memory", "q", Map.of(), Map.of("d", "a")).out("o", "m"),
                "cell m",
                "a cell of a kind that states what it does, as a lookup table or register",
                "kind “memory”");
        isRefused(
                ab().look("t", "", Map.of("a", "a")).out("o", "t"),
                "cell t",
                "contents of 4 inputs as “t”, such as 16'h8000",
                "none");
        isRefused(
                ab().look("t", "12345", Map.of("a", "a")).out("o", "t"),
                "cell t",
                "contents of 4 inputs as “t”, such as 16'h8000",
                "“12345”");
        isRefused(
                ab().look("t", "8888", Map.of("a", "a")).out("o", "t"),
                "cell t",
                "a net at pin “b”, which matters",
                "none");
        isRefused(
                ab().look("t", "ffff", Map.of("a", "a")).out("o", "t"),
                "cell t",
                "a cell whose output depends on its inputs",
                "one that is always high");
        isRefused(
                ab().cell(
                                "r",
                                "keep",
                                "q",
                                Map.of("start", "0", Netlist.TIED + "d", "1"),
                                Map.of("c", "clk"))
                        .out("o", "r"),
                "cell r",
                "a register whose next value depends on a net",
                "one whose next value is always high");
        isRefused(
                ab().keep("r", Map.of("d", "a")).out("o", "r"),
                "cell r",
                "a clock that comes from an input port",
                "none");
        isRefused(
                ab().look("t", "8888", Map.of("a", "a", "b", "b"))
                        .keep("r", Map.of("d", "a", "c", "t"))
                        .out("o", "r"),
                "cell r",
                "a clock that comes from an input port",
                "net t, which a cell drives");
        isRefused(
                ab().keep("r", Map.of("c", "clk")).out("o", "r"),
                "cell r",
                "a net at pin “d”, which matters",
                "none");
        isRefused(
                ab().look("t", "8888", Map.of("a", "a", "b", "u"))
                        .look("u", "8888", Map.of("a", "b", "b", "t"))
                        .out("o", "t"),
                "cell t",
                "a register in each loop",
                "t ← u without one");
        isRefused(
                ab().cell("t", "look", "z", Map.of("t", "8888"), Map.of("a", "a", "b", "b"))
                        .out("o", "t"),
                "port o",
                "a net from the output that the kind states, “y”",
                "“z” of cell t");
    }
}
