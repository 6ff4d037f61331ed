package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.text.AnswerText;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.CellKind;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;

/** Signals without a way out: the reason, and the signals near by that have one. */
class NoRouteTest {
    private static final Delay STEP = new Delay(10, 20);

    /**
     * Two adders in a row, joined by a carry wire that leads nowhere else; each has a sum that gets
     * onto general wires, which lead to the pad. A register takes the second sum. Nothing leads to
     * the second pad. Invented.
     */
    private static Fabric fabric() {
        FabricInfo info =
                new FabricInfo(
                        "carry",
                        "invented",
                        List.of(new CellKind("adder", false), new CellKind("register", true)),
                        List.of(),
                        List.of());
        ExplicitBuilder builder = new ExplicitBuilder(info, 1, 1);
        for (String wire : List.of("carry", "clockline")) {
            builder.addWire(wire, 0, 0, wire);
        }
        for (String wire : List.of("a", "b", "c")) {
            builder.addWire(wire, 0, 0, "general");
        }
        List<SitePin> adder =
                List.of(
                        new SitePin("cin", PinDirection.IN),
                        new SitePin("cout", PinDirection.OUT),
                        new SitePin("sum", PinDirection.OUT));
        builder.addSite("one", 0, "logic", List.of("adder"), adder);
        builder.addSite("two", 0, "logic", List.of("adder"), adder);
        List<SitePin> register =
                List.of(
                        new SitePin("d", PinDirection.IN),
                        new SitePin("clk", PinDirection.IN),
                        new SitePin("q", PinDirection.OUT));
        builder.addSite("reg", 0, "logic", List.of("register"), register);
        builder.addSite("ticker", 0, "clock", List.of("register"), List.of(register.get(2)));
        for (String pad : List.of("pad", "island")) {
            builder.addPad(pad, 0, "", "", PadDirections.OUT, Fabric.NOTHING, Fabric.NOTHING, "");
        }
        String[][] edges = {
            {"one.cout", "carry"},
            {"carry", "two.cin"},
            {"one.sum", "a"},
            {"two.sum", "b"},
            {"b", "reg.d"},
            {"reg.q", "c"},
            {"a", "pad"},
            {"b", "pad"},
            {"c", "pad"},
            {"ticker.q", "clockline"},
            {"clockline", "reg.clk"}
        };
        for (String[] edge : edges) {
            builder.addEdge(
                    builder.findVertex(edge[0]),
                    builder.findVertex(edge[1]),
                    EdgeKind.SWITCH,
                    STEP);
        }
        return builder.build();
    }

    private static Design design() {
        Fabric fabric = fabric();
        List<Cell> cells =
                List.of(
                        new Cell(0, "one", "adder", fabric.findSite("one"), Map.of()),
                        new Cell(1, "two", "adder", fabric.findSite("two"), Map.of()),
                        new Cell(2, "reg", "register", fabric.findSite("reg"), Map.of()),
                        new Cell(3, "ticker", "register", fabric.findSite("ticker"), Map.of()));
        List<Net> nets =
                List.of(
                        net(
                                fabric,
                                0,
                                "carry",
                                0,
                                "cout",
                                1,
                                "cin",
                                false,
                                "one.cout",
                                "carry",
                                "two.cin"),
                        net(fabric, 1, "sum", 1, "sum", 2, "d", false, "two.sum", "b", "reg.d"),
                        new Net(
                                2,
                                "held",
                                new Terminal.CellPin(2, "q"),
                                List.of(),
                                RouteTree.of(fabric.findVertex("reg.q")),
                                false),
                        net(
                                fabric,
                                3,
                                "tick",
                                3,
                                "q",
                                2,
                                "clk",
                                true,
                                "ticker.q",
                                "clockline",
                                "reg.clk"));
        return new Design("carry", "invented", fabric, Board.UNKNOWN, cells, nets, List.of());
    }

    private static Net net(
            Fabric fabric,
            int id,
            String name,
            int driver,
            String out,
            int sink,
            String in,
            boolean clock,
            String... route) {
        RouteTree.Builder tree = new RouteTree.Builder(fabric.findVertex(route[0]));
        for (int i = 1; i < route.length; i++) {
            tree.add(fabric.findVertex(route[i - 1]), fabric.findVertex(route[i]));
        }
        return new Net(
                id,
                name,
                new Terminal.CellPin(driver, out),
                List.of(new Terminal.CellPin(sink, in)),
                tree.build(),
                clock);
    }

    private static Answer.NoRoute ask(String net, int pad) {
        Design design = design();
        Question question =
                new Question(design, design.findNet(net).orElseThrow(), pad, Corner.SLOW);
        return (Answer.NoRoute)
                new Asker(design.fabric(), SearchEngineKind.OWN)
                        .explained(question, SearchLimits.USUAL, Progress.NONE);
    }

    @Test
    void aCarryHasDedicatedWiresAndASumNearBy() {
        Answer.NoRoute answer = ask("carry", 0);
        assertThat(answer.reason()).isEqualTo(NoRouteReason.DEDICATED_WIRES);
        assertThat(answer.detail())
                .isEqualTo("Its wires are of kind carry, which lead to pins cin.");
        assertThat(answer.nearby())
                .extracting(s -> s.net().name() + ": " + s.difference())
                .containsExactly(
                        "sum: after cell two",
                        "held: after cell two; registered copy, one clock later if always enabled");
        assertThat(AnswerText.sentence(answer))
                .contains("dedicated wires only")
                .contains("Related signals with a route to this pad: sum (after cell two, open)");
    }

    @Test
    void aClockHasClockWires() {
        Answer.NoRoute answer = ask("tick", 0);
        assertThat(answer.reason()).isEqualTo(NoRouteReason.CLOCK_WIRES_ONLY);
        assertThat(answer.detail()).contains("lead to pins clk");
    }

    @Test
    void aPadThatNoWireLeadsToHasItsOwnReason() {
        Answer.NoRoute answer = ask("sum", 1);
        assertThat(answer.reason()).isEqualTo(NoRouteReason.NOTHING_LEADS_TO_PAD);
        assertThat(answer.nearby()).isEmpty();
    }
}
