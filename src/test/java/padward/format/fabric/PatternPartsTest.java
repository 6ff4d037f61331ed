package padward.format.fabric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.AlikePins;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.WholeSite;
import padward.format.source.Source;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/** Sites with parts in the pattern form of a fabric. */
class PatternPartsTest {
    private static final String PATTERN =
            """
            {
              "format": "padward-fabric/1",
              "form": "pattern",
              "name": "parts",
              "grid": {"columns": 2, "rows": 1},
              "cellKinds": [{"name": "lut", "holdsState": false}, {"name": "ff", "holdsState": true}],
              "wires": [{"name": "e", "step": [1, 0], "count": 2, "delay_ps": [10, 20]}],
              "tiles": [
                {
                  "name": "logic",
                  "wires": ["e"],
                  "sites": [
                    {
                      "name": "cell",
                      "count": 2,
                      "kind": "cell",
                      "pins": [],
                      "parts": [
                        {
                          "name": "table",
                          "accepts": ["lut"],
                          "pins": [
                            {"name": "in", "count": 3, "direction": "in", "alike": "inputs"},
                            {"name": "y", "direction": "out"}
                          ],
                          "through": [{"from": "in", "to": "y", "delay_ps": [5, 9]}]
                        },
                        {
                          "name": "register",
                          "accepts": ["ff"],
                          "pins": [{"name": "d", "direction": "in"}, {"name": "q", "direction": "out"}]
                        }
                      ]
                    },
                    {"name": "io", "count": 1, "kind": "io", "accepts": ["ff"], "pins": []}
                  ],
                  "pads": [{"name": "pad", "count": 2, "directions": "both", "data": "cell/register"}],
                  "rules": [
                    {"from": "e", "to": "cell.in", "map": "all", "switch": "plain"},
                    {"from": "cell.y", "to": "cell.d", "map": "same", "switch": "plain"},
                    {"from": "cell.q", "to": "e", "map": "all", "switch": "plain"}
                  ]
                }
              ],
              "switches": [{"name": "plain", "delay_ps": [1, 2]}],
              "layout": [{"tile": "logic", "columns": [0, 1], "rows": [0, 0]}]
            }
            """;

    @TempDir private Path folder;

    private Path file(String text, String name) throws Exception {
        return Files.writeString(folder.resolve(name), text);
    }

    @Test
    void eachPartIsASiteOfItsOwn() throws Exception {
        Fabric fabric = FabricReader.read(file(PATTERN, "p.json"), Progress.NONE);
        assertThat(IntStream.range(0, fabric.siteCount()).mapToObj(s -> fabric.site(s).name()))
                .startsWith(
                        "x0y0/cell[0]/table",
                        "x0y0/cell[0]/register",
                        "x0y0/cell[1]/table",
                        "x0y0/cell[1]/register",
                        "x0y0/io",
                        "x1y0/cell[0]/table");
        SiteView register = fabric.site(fabric.findSite("x1y0/cell[1]/register"));
        assertThat(register.described()).isEqualTo("part register of site x1y0/cell[1]");
        assertThat(register.findPin("d")).isEqualTo(fabric.findVertex("x1y0/cell[1].d"));
        assertThat(fabric.siteOf(fabric.findVertex("x1y0/cell[1].q"))).isEqualTo(register.id());
        assertThat(fabric.findSite("x1y0/cell[1]")).isEqualTo(Fabric.NOTHING);
        assertThat(fabric.findParts("x1y0/cell[1]"))
                .containsExactly(register.id() - 1, register.id());
        assertThat(fabric.findParts("x1y0/io")).isEmpty();
        assertThat(fabric.findParts("nowhere")).isEmpty();
        SiteView table = fabric.site(register.id() - 1);
        assertThat(AlikePins.of(fabric, table, "lut", "in[1]")).containsExactly("in[0]", "in[2]");
        assertThat(WholeSite.allOf(fabric))
                .extracting(WholeSite::name)
                .contains("x0y0/cell[0]", "x0y0/cell[1]", "x0y0/io");
        assertThat(fabric.pads().get(1).dataSite())
                .isEqualTo(fabric.findSite("x0y0/cell[1]/register"));
        assertThat(edges(fabric))
                .contains(
                        "x0y0/cell[0].y SWITCH x0y0/cell[0].d",
                        "x0y0/cell[1].in[2] PASS_THROUGH x0y0/cell[1].y")
                .doesNotContain("x0y0/cell[0].d PASS_THROUGH x0y0/cell[0].q");
    }

    /** What it shows after a rising edge is not what it shows after a falling one. */
    @Test
    void pinsOfARegisterOfBothEdgesAreNeverSwapped() throws Exception {
        String pins =
                """
                {"name": "up", "direction": "in", "alike": "data"},
                {"name": "down", "direction": "in", "alike": "data"},
                {"name": "one", "direction": "in", "alike": "data"},
                {"name": "other", "direction": "in", "alike": "data"},""";
        String kind =
                """
                {"name": "ff", "holdsState": true, "doubleRateRegister":
                  {"rising": "up", "falling": "down", "clock": "d", "output": "q"}}""";
        String text =
                PATTERN.replace("{\"name\": \"ff\", \"holdsState\": true}", kind)
                        .replace(
                                "{\"name\": \"d\", \"direction\": \"in\"}",
                                pins + "{\"name\": \"d\", \"direction\": \"in\"}");
        Fabric fabric = FabricReader.read(file(text, "p.json"), Progress.NONE);
        SiteView register = fabric.site(fabric.findSite("x1y0/cell[1]/register"));
        assertThat(AlikePins.of(fabric, register, "ff", "up")).isEmpty();
        assertThat(AlikePins.of(fabric, register, "ff", "down")).isEmpty();
        assertThat(AlikePins.of(fabric, register, "ff", "one")).containsExactly("other");
        assertThat(AlikePins.of(fabric, register, "another", "up")).hasSize(3);
    }

    private static List<String> edges(Fabric fabric) {
        List<String> all = new ArrayList<>();
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                EdgeKind kind = edges.kind();
                all.add(fabric.vertexName(v) + " " + kind + " " + fabric.vertexName(edges.other()));
            }
        }
        return all;
    }

    /** The pattern as a list, wire by wire, as tables, and as a pattern again. */
    @Test
    void allFormsSayTheSame() throws Exception {
        Path pattern = folder.resolve("pattern.json");
        PatternWriter.write(
                FabricReader.readPattern(Source.of(file(PATTERN, "p.json")), Progress.NONE),
                pattern);
        Path again = folder.resolve("again.json");
        PatternWriter.write(FabricReader.readPattern(Source.of(pattern), Progress.NONE), again);
        assertThat(again).hasSameBinaryContentAs(pattern);
        Fabric made = FabricReader.read(pattern, Progress.NONE);
        Path list = folder.resolve("list.json");
        FabricWriter.write(made, list);
        Fabric listed = FabricReader.read(list, Progress.NONE);
        assertSame(made, listed);
        Path tables = folder.resolve("tables");
        TableExport.write(made, tables, false, Progress.NONE);
        assertSame(
                made, ((TableImport.Sound) TableImport.read(tables, 10, Progress.NONE)).fabric());
    }

    private static void assertSame(Fabric one, Fabric other) {
        assertThat(other.siteCount()).isEqualTo(one.siteCount());
        for (int s = 0; s < one.siteCount(); s++) {
            SiteView own = one.site(s);
            SiteView its = other.site(other.findSite(own.name()));
            assertThat(its.part()).isEqualTo(own.part());
            assertThat(its.accepts()).isEqualTo(own.accepts());
            assertThat(its.pins()).isEqualTo(own.pins());
        }
        assertThat(edges(other)).containsExactlyInAnyOrderElementsOf(edges(one));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "\"kind\": \"cell\",; \"kind\": \"cell\", \"accepts\": [\"lut\"],; sites[0].accepts;"
                        + "nothing, as the site has parts, which state this",
                "\"register\", \"accepts\"; \"table\", \"accepts\"; sites[0].parts[1].name;"
                        + "each part of a site once",
                "{\"name\": \"d\", \"direct; {\"name\": \"y\", \"direct; sites[0].parts[1].pins;"
                        + "names used once in the tile type",
                "\"from\": \"in\"; \"from\": \"d\"; sites[0].parts[0].through[0].from;"
                        + "a pin of the site",
                "\"io\", \"count\": 1; \"cell\", \"count\": 2; sites[1].name;"
                        + "a name used once in the tile type",
                "cell/register; cell; data; the name of a group of sites in this tile type",
            })
    void whatIsWrongIsNamed(String old, String other, String place, String expected)
            throws Exception {
        String text = PATTERN.replaceAll("\\s+", " ");
        assertThat(text).contains(old);
        Path file = file(text.replace(old, other), "bad.json");
        assertThatThrownBy(() -> FabricReader.read(file, Progress.NONE))
                .isInstanceOfSatisfying(
                        BadInput.class,
                        fault -> {
                            assertThat(fault.place()).contains(place);
                            assertThat(fault.expected()).isEqualTo(expected);
                        });
    }
}
