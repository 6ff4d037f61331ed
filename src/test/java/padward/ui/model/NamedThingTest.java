package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Port;
import padward.example.HandMade;
import padward.format.design.DesignReader;

/** What the words of a sentence name. */
class NamedThingTest {
    private Design design;

    @BeforeEach
    void read() throws Exception {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    /** A port has often the name of its net: the map would go to the net. */
    @Test
    void aPadWithTheNameOfANetIsNamedInFull() {
        Port port =
                design.ports().stream()
                        .filter(p -> design.findNet(p.name()).isPresent())
                        .findFirst()
                        .orElseThrow();
        String full = design.fabric().pads().get(port.pad()).name();
        assertThat(NamedThing.find(design, "port", port.name()))
                .contains(new NamedThing(NamedThing.Kind.PAD, full));
        assertThat(NamedThing.find(design, "net", port.name()))
                .contains(new NamedThing(NamedThing.Kind.NET, port.name()));
        assertThat(NamedThing.find(design, "pin", "B1"))
                .contains(new NamedThing(NamedThing.Kind.PAD, "B1"));
    }

    @Test
    void aTileIsNamedByWhereItIs() {
        assertThat(NamedThing.find(design, "in", "x1y0"))
                .contains(new NamedThing(NamedThing.Kind.TILE, "x1y0"));
        assertThat(NamedThing.find(design, "in", "x999999y0")).isEmpty();
    }

    @Test
    void aNumberIsNoNameUnlessAWordBeforeSaysSo() {
        Design numbered = new HandMade().wires("3 w").design();
        assertThat(NamedThing.find(numbered, "takes", "3")).isEmpty();
        assertThat(NamedThing.find(numbered, "wire", "3"))
                .contains(new NamedThing(NamedThing.Kind.WIRE, "3"));
    }
}
