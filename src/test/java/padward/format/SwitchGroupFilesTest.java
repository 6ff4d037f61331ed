package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/** Switch groups in both forms of a fabric's files. */
class SwitchGroupFilesTest {
    private static final String SWITCHES =
            """
            from,to,delay_ps,kind,group
            x0y0/a,x1y0/c,10,,mux1
            x0y0/b,x1y0/d,10,,mux1
            x0y0/a,x1y0/d,10,,x0y0/mux0
            x0y0/b,x1y0/c,10,,
            x1y0/c,x1y0/pad,10,connection,
            """;

    @TempDir private Path folder;

    private TableImport.Result readTables(String switches) throws Exception {
        Files.writeString(folder.resolve("wires.csv"), "name\nx0y0/a\nx0y0/b\nx1y0/c\nx1y0/d\n");
        Files.writeString(folder.resolve("pads.csv"), "name\nx1y0/pad\n");
        Files.writeString(folder.resolve("switches.csv"), switches);
        return TableImport.read(folder, 10, Progress.NONE);
    }

    private Fabric fabric() throws Exception {
        return ((TableImport.Sound) readTables(SWITCHES)).fabric();
    }

    private static List<String> switches(Fabric fabric, int group) {
        return fabric.switchGroups()
                .switches(group)
                .longStream()
                .mapToObj(
                        e ->
                                fabric.vertexName(EdgeKey.from(e))
                                        + " "
                                        + fabric.vertexName(EdgeKey.to(e)))
                .toList();
    }

    private static void assertGroups(Fabric fabric) {
        SwitchGroups groups = fabric.switchGroups();
        assertThat(groups.count()).isEqualTo(2);
        assertThat(groups.name(0)).isEqualTo("mux1");
        assertThat(switches(fabric, 0)).containsExactly("x0y0/a x1y0/c", "x0y0/b x1y0/d");
        assertThat(switches(fabric, 1)).containsExactly("x0y0/a x1y0/d");
        int b = fabric.findVertex("x0y0/b");
        assertThat(groups.groupOf(b, fabric.findVertex("x1y0/d"))).isZero();
        assertThat(groups.groupOf(b, fabric.findVertex("x1y0/c"))).isEqualTo(Fabric.NOTHING);
    }

    @Test
    void bothFormsKeepThem() throws Exception {
        Fabric fabric = fabric();
        assertGroups(fabric);
        Path json = folder.resolve("one.fabric.json");
        FabricWriter.write(fabric, json);
        Fabric read = FabricReader.read(json, Progress.NONE);
        assertGroups(read);
        Path tables = folder.resolve("tables");
        TableExport.write(read, tables, false, Progress.NONE);
        Fabric imported =
                ((TableImport.Sound) TableImport.read(tables, 10, Progress.NONE)).fabric();
        assertGroups(imported);
        Path again = folder.resolve("two.fabric.json");
        FabricWriter.write(imported, again);
        assertThat(again).hasSameBinaryContentAs(json);
    }

    @Test
    void aFabricWithoutGroupsHasNone() throws Exception {
        String without = SWITCHES.replace("mux1", "").replace("x0y0/mux0", "");
        Fabric fabric = ((TableImport.Sound) readTables(without)).fabric();
        assertThat(fabric.switchGroups().isEmpty()).isTrue();
        Path json = folder.resolve("f.json");
        FabricWriter.write(fabric, json);
        assertThat(json).content().doesNotContain("switchGroups");
    }

    @Test
    void aFixedConnectionIsInNoGroup() throws Exception {
        TableImport.Result result =
                readTables(SWITCHES.replace("10,connection,", "10,connection,mux1"));
        BadInput fault = ((TableImport.Faulty) result).shown().get(0);
        assertThat(fault.place()).isEqualTo("row 6, column group");
        assertThat(fault.expected()).isEqualTo("no group, as a fixed connection is always on");
        assertThat(fault.found()).isEqualTo("\"mux1\"");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "[\"x0y0/b\", \"x1y0/d\"]; [\"x0y0/b\", \"x0y0/a\"]; $.switchGroups[0].switches[1];"
                        + "the two ends of one of `switches`; \"x0y0/b\" and \"x0y0/a\"",
                "[\"x0y0/b\", \"x1y0/d\"]; [\"x1y0/c\", \"x1y0/pad\"];"
                        + " $.switchGroups[0].switches[1];"
                        + "the two ends of one of `switches`; \"x1y0/c\" and \"x1y0/pad\"",
                "[\"x0y0/a\", \"x1y0/d\"]; [\"x0y0/a\", \"x1y0/c\"]; $.switchGroups[1].switches[0];"
                        + "a switch in one group; one that is in another group already",
                "x0y0/mux0; mux1; $.switchGroups[1].name;"
                        + "a name that only one switch group has; \"mux1\" again",
            })
    void whatAGroupCannotBeIsReported(
            String old, String other, String place, String expected, String found)
            throws Exception {
        Path json = folder.resolve("f.json");
        FabricWriter.write(fabric(), json);
        String text = Files.readString(json);
        int at = text.indexOf("switchGroups");
        String groups = text.substring(at).replaceAll("\\s+", " ").replace("[ ", "[");
        groups = groups.replace(" ]", "]");
        assertThat(groups).contains(old);
        Files.writeString(json, text.substring(0, at) + groups.replace(old, other));
        assertThatThrownBy(() -> FabricReader.read(json, Progress.NONE))
                .isInstanceOfSatisfying(
                        BadInput.class,
                        fault -> {
                            assertThat(fault.place()).isEqualTo(place);
                            assertThat(fault.expected()).isEqualTo(expected);
                            assertThat(fault.found()).isEqualTo(found);
                        });
    }
}
