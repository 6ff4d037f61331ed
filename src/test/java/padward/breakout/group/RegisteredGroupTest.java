package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.Route;
import padward.breakout.group.RegisterCheck.Slack;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.delay.Delay;
import padward.format.design.DesignReader;
import padward.timing.ExternalLineDelay;

/**
 * Registers placed before pads, and whether they take their data in time, with sums by hand.
 * Invented: register a, clocked after 10 to 14 ps, feeds n, which reaches the pad's register in 6
 * to 8 ps; that is clocked after 10 to 16 ps.
 */
class RegisteredGroupTest {
    private static final String FABRIC =
            """
            {"format":"padward-fabric/1","form":"explicit","name":"f","note":"Invented.",
            "grid":{"columns":2,"rows":1},
            "cellKinds":[{"name":"reg","holdsState":true,"register":{"data":"d","clock":"clk",
            "output":"q","clockToOutput_ps":[20,30],"setup_ps":[7,11],"hold_ps":HOLD}},
            {"name":"gate"}],
            "wires":[{"name":"ck0","from":[0,0],"to":[1,0]},{"name":"ck1","from":[0,0],"to":[1,0]},
            {"name":"w1","from":[0,0],"to":[1,0]},{"name":"x","from":[0,0],"to":[1,0]}],
            "sites":[{"name":"c0","at":[0,0],"kind":"cell","accepts":["gate"],
            "pins":[{"name":"o","direction":"out"}]},
            {"name":"c2","at":[0,0],"kind":"cell","accepts":["gate"],
            "pins":[{"name":"i","direction":"in"},{"name":"o","direction":"out"}],
            "through":[{"from":"i","to":"o","delay_ps":[3,4]}]},
            {"name":"c3","at":[0,0],"kind":"cell","accepts":["gate"],
            "pins":[{"name":"o","direction":"out"}]},
            {"name":"c1","at":[0,0],"kind":"cell","accepts":["reg"],
            "pins":[{"name":"d","direction":"in"},{"name":"clk","direction":"in"},
            {"name":"q","direction":"out"}]},
            {"name":"io","at":[1,0],"kind":"io","accepts":["reg"],
            "pins":[{"name":"d","direction":"in"},{"name":"clk","direction":"in"},
            {"name":"q","direction":"out"}]}],
            "pads":[{"name":"P0","at":[1,0],"directions":"out","data":"io"}],
            "switches":[["c0.o","ck0",5,7],["ck0","c1.clk",5,7],["ck0","io.clk",5,9],
            ["c3.o","ck1",5,7],["ck1","c1.clk",5,7],["ck1","io.clk",5,9],
            ["c1.q","w1",3,4],["w1","io.d",3,4],["w1","c2.i",1,2],["c2.o","x",1,1],["x","io.d",1,1]],
            "connections":[["io.q","P0",0,0]]}
            """;

    private static final String DESIGN =
            """
            {"format":"padward-design/1","name":"d","fabric":"f.json",
            "cells":[{"name":"src","kind":"gate","site":"c0"},{"name":"a","kind":"reg","site":"c1"},
            {"name":"src2","kind":"gate","site":"c3"},{"name":"g","kind":"gate","site":"c2"}],
            "ports":[],
            "nets":[{"name":"clk","clock":true,"driver":{"cell":"src","pin":"o"},SINK},
            {"name":"other","clock":true,"driver":{"cell":"src2","pin":"o"},REST},
            {"name":"n","driver":{"cell":"a","pin":"q"},"sinks":[{"cell":"g","pin":"i"}],
            "route":[["c1.q","w1","c2.i"]]},
            {"name":"m","driver":{"cell":"g","pin":"o"},"sinks":[],"route":[]}]}
            """;

    private static final String CLOCKED =
            "\"sinks\":[{\"cell\":\"a\",\"pin\":\"clk\"}],\"route\":[[\"c%s.o\",\"ck%s\",\"c1.clk\"]]";
    private static final String IDLE = "\"sinks\":[],\"route\":[]";

    @TempDir private Path folder;

    private Design read(String hold, boolean byOther) throws Exception {
        Files.writeString(folder.resolve("f.json"), FABRIC.replace("HOLD", hold));
        Files.writeString(
                folder.resolve("d.json"),
                DESIGN.replace("SINK", byOther ? IDLE : CLOCKED.formatted("0", "0"))
                        .replace("REST", byOther ? CLOCKED.formatted("3", "1") : IDLE));
        return DesignReader.read(folder.resolve("d.json"), Progress.NONE);
    }

    private static RegisteredGroup registered(
            Design design, String net, double clockMhz, double localPercent) {
        Net out = design.findNet(net).orElseThrow();
        Net clock = design.findNet("clk").orElseThrow();
        // Without a pass-through no route leads to the pad but through the register.
        Bus.Line line =
                new Bus.Line(
                        out,
                        0,
                        new Route(List.of(), 0, Optional.empty(), Delay.ZERO, Delay.ZERO, true),
                        "");
        Bus bus = new Bus(List.of(line), List.of(), List.of(), 0, Optional.empty());
        return RegisteredGroup.of(
                new RegisterQuestion(
                        design, bus, clock, clockMhz, ExternalLineDelay.USUAL, localPercent),
                Progress.NONE);
    }

    @Test
    void setupHoldAndClockToOutputAreCounted() throws Exception {
        RegisteredGroup.Line line = registered(read("[2,5]", false), "n", 0, 0).lines().get(0);
        assertThat(line.reason()).isEmpty();
        assertThat(line.data()).isEqualTo(new Delay(6, 8));
        assertThat(line.clocked()).isEqualTo(new Delay(10, 16));
        // 10 + 20 + 6 - 10 + 7, and 14 + 30 + 8 - 16 + 11.
        assertThat(line.check().leastPeriod()).contains(new Slack(33, 47));
        // 10 + 20 + 6 - 10 - 2, and 14 + 30 + 8 - 16 - 5.
        assertThat(line.check().hold()).contains(new Slack(24, 31));
        assertThat(line.check().unknown()).isEmpty();
        assertThat(line.atInstrument()).isEqualTo(new Delay(30, 46));
    }

    /** Half of 5 % of 52 + 16 ps at the slow corner, of 36 + 10 at the fast one, rounded up. */
    @Test
    void localVariationIsAgainstBoth() throws Exception {
        RegisterCheck check = registered(read("[2,5]", false), "n", 0, 5).lines().get(0).check();
        assertThat(check.leastPeriod()).contains(new Slack(35, 49));
        assertThat(check.hold()).contains(new Slack(22, 29));
    }

    /** Through the gate: 1 to 2 ps to it, 3 to 4 through it, 2 ps on. */
    @Test
    void logicBeforeARegisterCounts() throws Exception {
        RegisterCheck check = registered(read("[2,5]", false), "m", 0, 0).lines().get(0).check();
        assertThat(check.leastPeriod())
                .contains(new Slack(10 + 20 + 4 + 3 + 2 - 10 + 7, 14 + 30 + 6 + 4 + 2 - 16 + 11));
    }

    @Test
    void aRegisterThatWouldTakeWrongDataIsRefused() throws Exception {
        RegisteredGroup early = registered(read("[30,30]", false), "n", 0, 0);
        assertThat(early.lines().get(0).reason())
                .contains("hold is not met: the data changes 0.004 ns too early");
        assertThat(early.placed()).isEmpty();
        RegisteredGroup fast = registered(read("[2,5]", false), "n", 25_000, 0);
        assertThat(fast.lines().get(0).reason())
                .contains("setup is not met: it takes a period of 0.047 ns");
    }

    @Test
    void twoClocksAreRefused() throws Exception {
        RegisteredGroup registered = registered(read("[2,5]", true), "n", 0, 0);
        assertThat(registered.lines().get(0).reason().orElseThrow())
                .startsWith("its source is clocked by other");
        assertThat(registered.placed()).isEmpty();
    }

    @Test
    void theEditsPlaceTheRegister() throws Exception {
        Design design = read("[2,5]", false);
        Bus placed = registered(design, "n", 0, 0).placed().orElseThrow();
        Design after = Outcome.apply(design, placed.edits());
        Cell cell = after.findCell("registered/n").orElseThrow();
        assertThat(after.fabric().site(cell.site()).name()).isEqualTo("io");
        assertThat(after.findNet("n").orElseThrow().sinks())
                .contains(new Terminal.CellPin(cell.id(), "d"));
        assertThat(after.findNet("clk").orElseThrow().sinks())
                .contains(new Terminal.CellPin(cell.id(), "clk"));
        Net out = after.findNet("registered/n").orElseThrow();
        assertThat(out.driver()).isEqualTo(new Terminal.CellPin(cell.id(), "q"));
        assertThat(after.textOf(out.sinks().get(0))).isEqualTo("port out_P0");
        assertThat(
                        after.findNet("n")
                                .orElseThrow()
                                .route()
                                .placeOf(after.fabric().findVertex("w1")))
                .isPositive();
    }
}
