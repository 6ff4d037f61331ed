package padward.fabric.pattern;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.time.Duration;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
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
}
