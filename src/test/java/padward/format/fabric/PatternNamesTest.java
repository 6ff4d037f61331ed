package padward.format.fabric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;

/** In a pattern no two wires, sites, pins and pads of one tile have the same name. */
class PatternNamesTest {
    @TempDir private Path folder;

    /** A fabric with a kind of wire of that name and count next to {@code e1}, two of a tile. */
    private Fabric read(String wire, int count) throws Exception {
        String text =
                """
                {"format":"padward-fabric/1","form":"pattern","name":"t",
                 "grid":{"columns":3,"rows":1},"cellKinds":[{"name":"r","holdsState":true}],
                 "wires":[{"name":"e1","step":[1,0],"count":2,"delay_ps":[1,2]},
                  {"name":"%s","step":[1,0],"count":%d,"delay_ps":[1,2]}],
                 "switches":[{"name":"s","delay_ps":[1,2]}],
                 "tiles":[{"name":"t","wires":["e1","%1$s"],
                  "sites":[{"name":"cell","count":2,"kind":"k","accepts":["r"],
                   "pins":[{"name":"in","count":2,"direction":"in"},
                    {"name":"out","direction":"out"}]},
                   {"name":"one","kind":"k","accepts":["r"],
                   "pins":[{"name":"out","direction":"out"}]}],
                  "pads":[{"name":"pad","count":2,"directions":"both"}],
                  "rules":[{"from":"cell.out","to":"e1","map":"all","switch":"s"},
                   {"from":"e1","to":"pad","map":"all","switch":"s"}]}],
                 "layout":[{"tile":"t"}]}
                """
                        .formatted(wire, count);
        Path file = Files.writeString(folder.resolve("f.json"), text);
        return FabricReader.read(file, Progress.NONE);
    }

    @ParameterizedTest
    @CsvSource({
        "e1[0], 1",
        "pad[0], 1",
        "cell[0].out, 1",
        "cell[1].in[1], 1",
        "one.out, 1",
        "pad, 2",
        "cell[0], 1",
        "one, 1",
        "pad, 1",
        "cell.in, 1"
    })
    void aNameThatSomethingElseHasIsAFault(String wire, int count) {
        BadInput fault = catchThrowableOfType(BadInput.class, () -> read(wire, count));
        assertThat(fault).isNotNull();
        assertThat(fault.place()).isEqualTo("$.tiles[0].wires[1]");
        assertThat(fault.found()).contains(" again");
    }

    @Test
    void otherNamesLeadToTheirVertices() throws Exception {
        for (String wire : new String[] {"e2", "e1[2]", "pad[2]", "cell", "e1[0]x"}) {
            Fabric fabric = read(wire, 1);
            for (int v = 0; v < fabric.vertexCount(); v++) {
                assertThat(fabric.findVertex(fabric.vertexName(v))).as(wire).isEqualTo(v);
            }
        }
    }
}
