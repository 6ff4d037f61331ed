package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import padward.design.Design;
import padward.example.HandMade;
import padward.ui.design.OpenDesign;

/** Where the map goes when a name is given. */
class NameFinderTest {
    @Test
    void aSiteWithoutPinsIsFoundByItsTile() {
        Design design = new HandMade().wires("w").site("BARE", "", "").cell("c", "BARE").design();
        OpenDesign opened = new OpenDesign(design);
        int wire = design.fabric().findVertex("w");
        assertThat(NameFinder.find(opened, "BARE").orElseThrow().vertex()).hasValue(wire);
        assertThat(NameFinder.find(opened, "c").orElseThrow().vertex()).hasValue(wire);
    }
}
