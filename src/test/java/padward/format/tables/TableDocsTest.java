package padward.format.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.Tap;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.TableShape;

/** The tables as {@code docs/your-own-device.md} shows them are those that are read. */
class TableDocsTest {
    static List<TableShape> tables() {
        return Tables.ALL;
    }

    @ParameterizedTest
    @MethodSource("tables")
    void theGuideShowsEveryColumn(TableShape shape) throws Exception {
        String guide = Files.readString(Path.of("docs/your-own-device.md"));
        assertThat(guide).contains(markdown(shape));
    }

    /** What the guide shows of tables, with the little that it leaves out, is a fabric. */
    @Test
    void itsFragmentsAreReadAsTheyStand(@TempDir Path folder) throws Exception {
        String wires = fragment("name,kind,to_tile\n");
        Files.writeString(folder.resolve("wires.csv"), wires + "x0y0/run7[2],run7,x7y0\n");
        Files.writeString(folder.resolve("taps.csv"), fragment("wire,tile,name\n"));
        Files.writeString(folder.resolve("pads.csv"), "name\nx0y0/pad\nx2y0/pad\n");
        Files.writeString(
                folder.resolve("switches.csv"),
                "from,to,delay_ps\nx0y0/pad,x0y0/run7[2],300\nx2y0/run7_by2[2],x2y0/pad,200\n");
        TableImport.Result read = TableImport.read(folder, 1, Progress.NONE);
        Fabric fabric = ((TableImport.Sound) read).fabric();
        int wire = fabric.findVertex("x7y0/run7_end[2]");
        assertThat(fabric.vertexName(wire)).isEqualTo("x0y0/run7[2]");
        assertThat(fabric.taps(wire))
                .containsExactly(
                        new Tap(0, "x0y0/run7[2]"),
                        new Tap(2, "x2y0/run7_by2[2]"),
                        new Tap(7, "x7y0/run7_end[2]"));
        assertThat(fabric.switchTile(wire, fabric.findVertex("x2y0/pad"))).isEqualTo(2);
    }

    /** The rows that the guide shows below a head. */
    private static String fragment(String head) throws Exception {
        String guide = Files.readString(Path.of("docs/your-own-device.md"));
        int start = guide.indexOf("```\n" + head) + "```\n".length();
        return guide.substring(start, guide.indexOf("```", start));
    }

    @Test
    void itsLoopWritesTablesThatThereAre() throws Exception {
        String guide = Files.readString(Path.of("docs/your-own-device.md"));
        Set<String> written = new TreeSet<>();
        Matcher lines = Pattern.compile("write ([a-z_]+):").matcher(guide);
        while (lines.find()) {
            written.add(lines.group(1));
        }
        assertThat(Tables.ALL).extracting(TableShape::name).containsAll(written);
        assertThat(written).contains("wires", "taps", "parts", "switches", "pads", "routes");
    }

    static String markdown(TableShape shape) {
        StringBuilder text = new StringBuilder();
        text.append("### `").append(shape.name()).append("`: ").append(shape.meaning());
        text.append("\n\n| column | needed | what stands there |\n|---|---|---|\n");
        for (ColumnShape column : shape.columns()) {
            text.append("| `").append(column.name()).append("` | ");
            text.append(column.need() == ColumnShape.Need.MUST ? "yes" : "");
            text.append(column.need() == ColumnShape.Need.INSTEAD ? "instead" : "");
            text.append(" | ").append(column.meaning().replace("|", "\\|")).append(" |\n");
        }
        return text.toString();
    }

    /** Prints all of them, to be copied into the guide. */
    public static void main(String[] args) {
        Tables.ALL.forEach(t -> System.out.println(markdown(t)));
    }
}
