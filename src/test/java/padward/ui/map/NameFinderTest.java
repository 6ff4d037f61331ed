package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import padward.design.Design;
import padward.design.board.Board;
import padward.design.board.PadWiring;
import padward.design.board.PadWiring.Layer;
import padward.example.HandMade;
import padward.ui.design.OpenDesign;
import padward.ui.scene.WorldRectangle;

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

    /** A net of the board on two pads, as of a supply: both are shown. */
    @Test
    void aNameOfSeveralPadsIsFoundWhereTheyAre() {
        List<PadWiring> wirings =
                Stream.of(0, 1)
                        .map(pad -> new PadWiring(pad, "shared", 0, Layer.OUTER, 0, List.of()))
                        .toList();
        OpenDesign opened =
                new OpenDesign(
                        new HandMade()
                                .pad("P0")
                                .pad("P1")
                                .board(new Board("made", "", wirings))
                                .design());
        WorldRectangle both = NameFinder.find(opened, "shared").orElseThrow().whole();
        for (String pad : List.of("P0", "P1")) {
            WorldRectangle one = NameFinder.find(opened, pad).orElseThrow().whole();
            assertThat(both.with(one)).isEqualTo(both);
        }
        assertThat(NameFinder.find(opened, "of none")).isEmpty();
    }

    @Test
    void aPlaceCountsOnceHoweverManyOfItsNamesFit() {
        Design design =
                new HandMade().wires("w").site("BARE", "", "").cell("bare_cell", "BARE").design();
        FindMatches matches = FindMatches.find(new OpenDesign(design), "BARE").orElseThrow();
        assertThat(matches.names()).as("the site, whose cell fits too").containsExactly("BARE");
    }
}
