package padward.watch.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;

/** A table and a register, written by hand, cycle by cycle. */
class DesignSimulationTest {
    private static final String FABRIC =
            """
            {"format":"padward-fabric/1","form":"explicit","name":"f","grid":{"columns":1,"rows":1},"wires":[],
            "cellKinds":[
            {"name":"look","lookupTable":{"inputs":["a","b"],"output":"y","setting":"rows","prefix":"4'b"}},
            {"name":"keep","holdsState":true,"register":{"data":"d","clock":"c","output":"q",
            "enable":"e","reset":"r","initial":"low","initialSetting":"start"}}],
            "sites":[
            {"name":"t","at":[0,0],"kind":"logic","accepts":["look"],"pins":[
            {"name":"a","direction":"in"},{"name":"b","direction":"in"},{"name":"y","direction":"out"}]},
            {"name":"s","at":[0,0],"kind":"logic","accepts":["keep"],"pins":[
            {"name":"d","direction":"in"},{"name":"c","direction":"in"},{"name":"e","direction":"in"},
            {"name":"r","direction":"in"},{"name":"q","direction":"out"}]}],
            "pads":[{"name":"A","at":[0,0],"directions":"in"},{"name":"B","at":[0,0],"directions":"in"},
            {"name":"C","at":[0,0],"directions":"in"},{"name":"E","at":[0,0],"directions":"in"},
            {"name":"R","at":[0,0],"directions":"in"},{"name":"P","at":[0,0],"directions":"out"}],
            "switches":[["A","t.a",1,1],["B","t.b",1,1],["C","s.c",1,1],["E","s.e",1,1],
            ["R","s.r",1,1],["t.y","s.d",1,1],["s.q","P",1,1],["s.q","t.a",1,1]]}
            """;

    private static final String DESIGN =
            """
            {"format":"padward-design/1","name":"d","fabric":"f.json",
            "cells":[{"name":"x","kind":"look","site":"t","settings":{"rows":"4'b0110"}},
            {"name":"k","kind":"keep","site":"s","settings":{"start":"1"}}],
            "ports":[{"name":"a","direction":"in","pad":"A"},{"name":"b","direction":"in","pad":"B"},
            {"name":"c","direction":"in","pad":"C"},{"name":"e","direction":"in","pad":"E"},
            {"name":"r","direction":"in","pad":"R"},{"name":"o","direction":"out","pad":"P"}],
            "nets":[
            {"name":"na","driver":{"port":"a"},"sinks":[{"cell":"x","pin":"a"}],"route":[["A","t.a"]]},
            {"name":"nb","driver":{"port":"b"},"sinks":[{"cell":"x","pin":"b"}],"route":[["B","t.b"]]},
            {"name":"clk","clock":true,"driver":{"port":"c"},"sinks":[{"cell":"k","pin":"c"}],"route":[["C","s.c"]]},
            {"name":"en","driver":{"port":"e"},"sinks":[{"cell":"k","pin":"e"}],"route":[["E","s.e"]]},
            {"name":"re","driver":{"port":"r"},"sinks":[{"cell":"k","pin":"r"}],"route":[["R","s.r"]]},
            {"name":"ny","driver":{"cell":"x","pin":"y"},"sinks":[{"cell":"k","pin":"d"}],"route":[["t.y","s.d"]]},
            {"name":"nq","driver":{"cell":"k","pin":"q"},"sinks":[{"port":"o"}],"route":[["s.q","P"]]}]}
            """;

    private static final int PAD = 5;

    @TempDir private Path folder;

    private Design design(String text) throws Exception {
        Files.writeString(folder.resolve("f.json"), FABRIC);
        Path file = Files.writeString(folder.resolve("d.json"), text);
        return DesignReader.read(file, Progress.NONE);
    }

    @Test
    void tablesRegistersEnablesAndResetsDoWhatTheFabricStates() throws Exception {
        DesignSimulation run = new DesignSimulation(design(DESIGN));
        Random random = new Random(3);
        boolean expected = true;
        for (int cycle = 0; cycle < 1000; cycle++) {
            boolean a = random.nextBoolean();
            boolean b = random.nextBoolean();
            boolean enable = random.nextInt(3) > 0;
            boolean reset = random.nextInt(8) == 0;
            run.begin(
                    net ->
                            switch (net) {
                                case "na" -> Optional.of(a);
                                case "nb" -> Optional.of(b);
                                case "en" -> Optional.of(enable);
                                case "re" -> Optional.of(reset);
                                default -> Optional.empty();
                            });
            assertThat(run.pad(PAD)).isEqualTo(expected);
            assertThat(run.net("ny")).isEqualTo(a ^ b);
            run.edge("clk", Set.of("k", "x"));
            expected = !reset && (enable ? a ^ b : expected);
        }
        run.edge("na", Set.of("k"));
        assertThat(run.net("nq")).isEqualTo(expected);
        run.set("k", !expected);
        assertThat(run.pad(PAD)).isEqualTo(!expected);
    }

    @Test
    void whatIsNotKnownIsAFault() throws Exception {
        DesignSimulation run = new DesignSimulation(design(DESIGN));
        assertFault(() -> run.net("ny"), "na", "a port drives it");
        assertFault(() -> run.net("nz"), "nz", "the name of a net");
        assertFault(() -> run.pad(0), "na", "a port drives it");
        DesignSimulation bare = new DesignSimulation(design(DESIGN.replace("4'b0110", "0110")));
        bare.begin(net -> Optional.of(true).filter(l -> net.length() == 2 && !net.equals("ny")));
        assertFault(() -> bare.net("ny"), "x", "its contents in its setting rows");
        String apart =
                DESIGN.replace(
                        "{\"name\":\"nb\",\"driver\":{\"port\":\"b\"},\"sinks\":[{\"cell\":\"x\",\"pin\":\"b\"}],\"route\":[[\"B\",\"t.b\"]]},\n",
                        "");
        DesignSimulation open = new DesignSimulation(design(apart));
        open.begin(net -> net.equals("na") ? Optional.of(true) : Optional.empty());
        assertFault(() -> open.net("ny"), "x.b", "a net that comes to it");
    }

    private interface Asking {
        boolean ask() throws BadInput;
    }

    private static void assertFault(Asking asking, String place, String expected) {
        BadInput fault = catchThrowableOfType(BadInput.class, asking::ask);
        assertThat(fault).isNotNull();
        assertThat(fault.place()).isEqualTo(place);
        assertThat(fault.expected()).contains(expected);
    }
}
