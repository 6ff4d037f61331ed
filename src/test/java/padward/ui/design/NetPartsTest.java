package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.synth.DesignMaker;

/** The used parts of wires with taps, compared with a walk over each net's whole tree. */
class NetPartsTest {
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void theUsedPartsOfWiresAreThoseOfTheTrees(long seed) {
        Design design = DesignMaker.makeIrregular(6000, seed, 0.6, Progress.NONE).design();
        OpenDesign opened = new OpenDesign(design);
        NetParts parts = new NetParts(opened);
        int seen = 0;
        for (Net net : design.nets()) {
            RouteTree tree = net.route();
            for (int place = 0; place < tree.size(); place++) {
                int wire = tree.vertex(place);
                List<String> found = new ArrayList<>();
                parts.forEachPart(wire, (from, to) -> found.add(from + " " + to));
                assertThat(found)
                        .as("seed %d, wire %d", seed, wire)
                        .containsExactlyInAnyOrderElementsOf(plain(opened.layout(), tree, place));
                seen += found.size();
            }
        }
        assertThat(seen).isGreaterThan(100);
    }

    private static List<String> plain(TileLayout layout, RouteTree tree, int place) {
        List<String> result = new ArrayList<>();
        int wire = tree.vertex(place);
        for (int child = 1; child < tree.size(); child++) {
            if (tree.parent(child) == place) {
                int leaves = layout.meeting(wire, tree.vertex(child)).fromTile();
                int enters =
                        place == 0
                                ? leaves
                                : layout.meeting(tree.vertex(tree.parent(place)), wire).toTile();
                result.add(enters + " " + leaves);
            }
        }
        return result;
    }
}
