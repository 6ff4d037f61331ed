package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.group.RegisterQuestion;
import padward.breakout.group.RegisteredGroup;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.format.design.DesignReader;
import padward.timing.ExternalLineDelay;

/** Clocks forwarded or dragged, and signals held, on an invented fabric of a few wires. */
class ClockForwardingTest {
    /**
     * A clock wire leads to the IO register's clock, and through it to the pad; wires to its data.
     */
    private static final String FABRIC =
            """
            {"format":"padward-fabric/1","form":"explicit","name":"f","note":"Invented.",
            "grid":{"columns":2,"rows":1},
            "cellKinds":[{"name":"reg","holdsState":true}],
            "wires":[{"name":"ck0","from":[0,0],"to":[1,0],"kind":"ck"},
            {"name":"w0","from":[0,0],"to":[1,0],"kind":"w"},
            {"name":"w1","from":[0,0],"to":[1,0],"kind":"w"}],
            "sites":[{"name":"c0","at":[0,0],"kind":"cell","accepts":["reg"],
            "pins":[{"name":"clk","direction":"in"},{"name":"q","direction":"out"}]},
            {"name":"c1","at":[0,0],"kind":"cell","accepts":["reg"],
            "pins":[{"name":"clk","direction":"in"},{"name":"q","direction":"out"}]},
            {"name":"io","at":[1,0],"kind":"io","accepts":["reg"],
            "pins":[{"name":"d","direction":"in"},{"name":"clk","direction":"in"},
            {"name":"q","direction":"out"}],
            "through":[{"from":"d","to":"q","delay_ps":[1,2]}FORWARD]}],
            "pads":[{"name":"P0","at":[1,0],"directions":"out","data":"io"}],
            "switches":[["c0.q","ck0",5,7],["c0.q","w0",1,2],["c1.q","w1",3,4],["ck0","c1.clk",5,7],
            ["ck0","io.clk",5,9],["w0","io.d",1,2],["w1","io.d",3,4]],
            "connections":[["io.q","P0",0,0]]}
            """;

    private static final String DESIGN =
            """
            {"format":"padward-design/1","name":"d","fabric":"f.json",
            "cells":[{"name":"src","kind":"reg","site":"c0"},{"name":"a","kind":"reg","site":"c1"}],
            "ports":[],
            "nets":[{"name":"clk","clock":true,"driver":{"cell":"src","pin":"q"},
            "sinks":[{"cell":"a","pin":"clk"}],"route":[["c0.q","ck0","c1.clk"]]},
            {"name":"n","driver":{"cell":"a","pin":"q"},"sinks":[],"route":[]}]}
            """;

    @TempDir private Path folder;

    private Design read(String forward) throws Exception {
        Files.writeString(folder.resolve("f.json"), FABRIC.replace("FORWARD", forward));
        Files.writeString(folder.resolve("d.json"), DESIGN);
        return DesignReader.read(folder.resolve("d.json"), Progress.NONE);
    }

    private static ClockForwarding forwarding(Design design) {
        Net clock = design.findNet("clk").orElseThrow();
        Question question = new Question(design, clock, 0, Corner.SLOW);
        Answer.Open open = (Answer.Open) Asker.ask(question, Progress.NONE);
        return ClockForwarding.of(question, open.route(), Progress.NONE);
    }

    @Test
    void aClockOnOtherWiresIsShownTheRouteOnItsOwn() throws Exception {
        Design design = read(",{\"from\":\"clk\",\"to\":\"q\",\"delay_ps\":[4,6]}");
        ClockForwarding found = forwarding(design);
        assertThat(found.otherKinds()).containsExactly("w");
        assertThat(found.route().orElseThrow().total()).isEqualTo(new Delay(14, 22));
    }

    @Test
    void withoutAPassThroughNoRouteStaysOnClockWires() throws Exception {
        ClockForwarding found = forwarding(read(""));
        assertThat(found.otherKinds()).containsExactly("w");
        assertThat(found.route()).isEmpty();
        assertThat(found.toText())
                .isEqualTo(
                        "The clock leaves its own kinds of wire and runs on w. No free route to the"
                                + " pad stays on its own kinds of wire.")
                .doesNotContainIgnoringCase("forward");
    }

    @Test
    void aSignalIsRegisteredByTheClock() throws Exception {
        Design design = read("");
        List<Net> nets = List.of(design.findNet("n").orElseThrow());
        Bus bus =
                Bus.of(
                        design,
                        nets,
                        List.of(0),
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        Progress.NONE);
        Net clock = design.findNet("clk").orElseThrow();
        RegisteredGroup registered =
                RegisteredGroup.of(
                        new RegisterQuestion(design, bus, clock, 0, ExternalLineDelay.USUAL, 5),
                        Progress.NONE);
        assertThat(registered.isPossible()).isTrue();
        RegisteredGroup.Line line = registered.lines().get(0);
        assertThat(line.toRemove()).isEmpty();
        assertThat(line.data()).isEqualTo(new Delay(6, 8));
        assertThat(line.clocked()).isEqualTo(new Delay(10, 16));
        assertThat(registered.skew()).isEmpty();
    }
}
