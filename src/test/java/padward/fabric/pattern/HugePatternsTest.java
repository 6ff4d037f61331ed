package padward.fabric.pattern;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.time.Duration;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.format.fabric.FabricReader;
import padward.format.source.Source;

/** A few lines can ask for more than any machine has: that is refused before it is made. */
class HugePatternsTest {
    private static final String PATTERN =
            """
            {"format": "padward-fabric/1", "form": "pattern", "name": "t",
             "grid": {"columns": 3, "rows": 3},
             "cellKinds": [{"name": "r", "holdsState": true}],
             "wires": [{"name": "e", "step": [1, 0], "count": WIRES, "delay_ps": [1, 2]}],
             "switches": [{"name": "s", "delay_ps": [1, 2]}],
             "tiles": [{"name": "t", "wires": ["e"],
              "sites": [{"name": "cell", "count": SITES, "kind": "k", "accepts": ["r"],
               "pins": [PINS]}],
              "rules": [{"from": "e", "to": "e", "map": "all", "switch": "s"}]}],
             "layout": [{"tile": "t"}]}
            """;

    private static Fabric read(int wires, int sites, int pins) throws BadInput {
        StringBuilder listed = new StringBuilder();
        for (int i = 0; i < pins; i++) {
            listed.append(i == 0 ? "" : ",")
                    .append("{\"name\": \"p" + i + "\", \"count\": 4096, \"direction\": \"in\"}");
        }
        String text =
                PATTERN.replace("WIRES", "" + wires)
                        .replace("SITES", "" + sites)
                        .replace("PINS", listed);
        return FabricReader.read(new Source.OfText("pattern", text), Progress.NONE);
    }

    private static void assertRefused(int wires, int sites, int pins, String place, String limit) {
        Assertions.assertTimeoutPreemptively(
                Duration.ofSeconds(20),
                () -> {
                    BadInput fault =
                            catchThrowableOfType(BadInput.class, () -> read(wires, sites, pins));
                    assertThat(fault.place()).startsWith(place);
                    assertThat(fault.expected()).contains(limit);
                });
    }

    @Test
    void switchesAreCountedBeforeTheyAreMade() {
        assertRefused(4096, 1, 1, "$.tiles[0], rule from “e”", "2000000 switches");
    }

    @Test
    void pinsAreCountedBeforeTheyAreMade() {
        assertRefused(1, 4096, 200, "$.tiles[0].sites[0].pins", "1000000 wires, pins and pads");
    }

    /** Each wire meets a thousand others: looking through all of them for each would not end. */
    @Test
    void asManyAsTheLimitAllowsAreRead() {
        Assertions.assertTimeoutPreemptively(
                Duration.ofSeconds(60),
                () -> assertThat(read(1400, 1, 1).vertexCount()).isEqualTo(6 * 1400 + 9 * 4096));
    }

    /** Numbers of delays no longer fit into two bytes then; few fabrics have more than some. */
    @Test
    void moreThan65536DifferentDelaysAreKept() throws Exception {
        int side = 257;
        StringBuilder through = new StringBuilder();
        for (int i = 0; i < side * side; i++) {
            through.append(i == 0 ? "" : ",")
                    .append("{\"from\": \"a[" + i / side + "]\", \"to\": \"b[" + i % side)
                    .append("]\", \"delay_ps\": [" + i + ", " + (i + 1) + "]}");
        }
        String pins =
                "{\"name\": \"a\", \"count\": 257, \"direction\": \"in\"},"
                        + "{\"name\": \"b\", \"count\": 257, \"direction\": \"out\"}";
        String text =
                PATTERN.replace("WIRES", "1")
                        .replace("SITES", "1")
                        .replace("[PINS]", "[" + pins + "], \"through\": [" + through + "]");
        Fabric fabric = FabricReader.read(new Source.OfText("pattern", text), Progress.NONE);
        for (int i = 0; i < side * side; i += 1000) {
            int from = fabric.findVertex("x1y1/cell.a[" + i / side + "]");
            int to = fabric.findVertex("x1y1/cell.b[" + i % side + "]");
            assertThat(delay(fabric.edgesOut(), from, to)).isEqualTo(i + 1);
            assertThat(delay(fabric.edgesIn(), to, from)).isEqualTo(i + 1);
        }
    }

    private static int delay(EdgeCursor edges, int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return edges.delayPs(Corner.SLOW);
            }
        }
        throw new AssertionError("no edge from " + from + " to " + to);
    }
}
