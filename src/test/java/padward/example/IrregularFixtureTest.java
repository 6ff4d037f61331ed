package padward.example;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.OfferedPads;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.DesignReview;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.fabric.review.FabricReview;
import padward.format.tables.TableImport;
import padward.route.search.SearchEngineKind;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.design.TileRange;

/** What {@code fixtures/irregular/README.md} says of its device holds. */
class IrregularFixtureTest {
    private Design design;
    private Fabric fabric;

    @BeforeEach
    void read() throws Exception {
        TableImport.Result result =
                TableImport.read(Path.of("fixtures/irregular"), 10, Progress.NONE);
        assertThat(result).isInstanceOf(TableImport.Sound.class);
        design = ((TableImport.Sound) result).design().orElseThrow();
        fabric = design.fabric();
    }

    private int vertex(String name) {
        int vertex = fabric.findVertex(name);
        assertThat(vertex).as(name).isNotEqualTo(Fabric.NOTHING);
        return vertex;
    }

    private int tile(int column, int row) {
        return row * fabric.columns() + column;
    }

    @Test
    void aWireIsFoundUnderEachOfItsNames() {
        int wire = vertex("x0y1/e[0]");
        assertThat(vertex("x2y1/e2[0]")).isEqualTo(wire);
        assertThat(fabric.tapTiles(wire))
                .containsExactly(tile(0, 1), tile(1, 1), tile(2, 1), tile(3, 1));
        assertThat(fabric.tapTiles(vertex("x2y0/bend")))
                .containsExactly(tile(2, 0), tile(3, 0), tile(3, 1));
        assertThat(fabric.taps(vertex("clk"))).hasSize(8);
    }

    @Test
    void switchesOfTheMemoryAreInBothItsTiles() {
        int d = vertex("x2y0/mem.d");
        int we = vertex("x2y0/mem.we");
        assertThat(fabric.switchTile(vertex("x0y0/e[0]"), d)).isEqualTo(tile(2, 0));
        assertThat(fabric.switchTile(vertex("x0y1/e[0]"), we)).isEqualTo(tile(2, 1));
    }

    @Test
    void theMemoryIsInTwoTiles() {
        SiteView memory = fabric.site(fabric.findSite("x2y0/mem"));
        assertThat(memory.tiles()).containsExactly(tile(2, 0), tile(2, 1));
        assertThat(fabric.sitesReaching(tile(2, 1))).containsExactly(memory.id());
        assertThat(fabric.sitesReaching(tile(2, 0))).isEmpty();
        TileLayout layout = new OpenDesign(design).layout();
        TileLayout.Box box = layout.site(memory.id());
        assertThat(box.y()).isLessThan(1);
        assertThat(box.y() + box.height()).isGreaterThan(1.5);
        List<Integer> seen = new ArrayList<>();
        layout.forEachSite(
                TileRange.of(fabric, 2, 2, 1, 1),
                (site, there) -> {
                    assertThat(there).isEqualTo(layout.site(site));
                    seen.add(site);
                });
        assertThat(seen).containsExactly(memory.id());
    }

    @Test
    void aTableAndARegisterOfOneCellAreUsedApart() {
        int table = fabric.findSite("x1y1/cell/table");
        int register = fabric.findSite("x1y1/cell/register");
        assertThat(design.occupancy().findCellOn(table)).map(Cell::name).contains("next");
        assertThat(design.occupancy().findCellOn(register)).map(Cell::name).contains("count");
        assertThat(design.occupancy().findNetOver(vertex("x1y1/cell.y"), vertex("x1y1/cell.d")))
                .map(Net::name)
                .contains("data_en");
        int other = fabric.findSite("x1y0/cell/register");
        assertThat(design.occupancy().findCellOn(other)).map(Cell::name).contains("hold");
        assertThat(design.occupancy().isOccupied(vertex("x1y0/cell.a"))).isFalse();
        assertThat(design.occupancy().isOccupied(vertex("x1y0/cell.y"))).isFalse();
    }

    @Test
    void padsForSomethingElseAreNotOffered() {
        assertThat(OfferedPads.of(fabric).stream().map(p -> fabric.pads().get(p).name()))
                .contains("x0y0/pad0", "x3y1/pad4")
                .doesNotContain("x3y0/pad3", "x3y1/pad5");
    }

    @Test
    void whereOneNetTurnsAnotherCannot() {
        int group = fabric.switchGroups().groupOf(vertex("x0y0/e[1]"), vertex("x1y0/n"));
        assertThat(fabric.switchGroups().name(group)).isEqualTo("x1y0/turn1");
        int other = fabric.switchGroups().groupOf(vertex("x1y2/s"), vertex("x3y0/w[1]"));
        assertThat(other).isEqualTo(group);
        assertThat(design.occupancy().findNetOver(vertex("x1y2/s"), vertex("x3y0/w[1]")))
                .map(Net::name)
                .contains("data_en");
    }

    private Design changed(Path folder, String table, String old, String now) throws Exception {
        try (Stream<Path> all = Files.list(Path.of("fixtures/irregular"))) {
            for (Path file : all.filter(f -> f.toString().endsWith(".csv")).toList()) {
                Files.copy(file, folder.resolve(file.getFileName()));
            }
        }
        String text = Files.readString(folder.resolve(table));
        assertThat(text).contains(old);
        Files.writeString(folder.resolve(table), text.replace(old, now));
        TableImport.Result result = TableImport.read(folder, 10, Progress.NONE);
        return ((TableImport.Sound) result).design().orElseThrow();
    }

    @Test
    void checkNamesAClockOnGeneralWires(@TempDir Path folder) throws Exception {
        assertThat(DesignReview.of(design)).isEmpty();
        Design other = changed(folder, "nets.csv", "data_in,\n", "data_in,yes\n");
        assertThat(DesignReview.of(other))
                .containsExactly("sinks of clocks that no clock wire feeds: 1 (store.d)");
    }

    @Test
    void checkNamesAPortOnAPadThatIsNotForIt(@TempDir Path folder) throws Exception {
        Files.createDirectories(folder);
        Design other =
                changed(
                        folder,
                        "pads.csv",
                        "pad4,B1,east,both,x3y1/out4,,,,lv33-8,,",
                        "pad4,,east,both,x3y1/out4,,,,lv33-8,no,");
        assertThat(DesignReview.of(other))
                .containsExactly(
                        "ports on pads that are not for signals of a design: 1 (level, not bonded"
                                + " out)");
    }

    @Test
    void checkNamesAGroupOfOneSwitch(@TempDir Path folder) throws Exception {
        Design other =
                changed(folder, "switches.csv", "x1y0/n,,,x1y0/turn0", "x1y0/n,,,x1y0/turm0");
        assertThat(FabricReview.of(other.fabric(), Progress.NONE).findings())
                .containsExactly(
                        "switch groups of one switch, which exclude nothing: 2 (x1y0/turm0,"
                                + " x1y0/turn0)");
    }

    @Test
    void allAnswersCostWhatAnotherEngineFindsAndCanBeKept() {
        Asker own = new Asker(fabric, SearchEngineKind.OWN);
        Asker reference = new Asker(fabric, SearchEngineKind.REFERENCE);
        int kept = 0;
        for (Net net : design.nets()) {
            for (int pad = 0; pad < fabric.pads().size(); pad++) {
                Question question = new Question(design, net, pad, Corner.SLOW);
                Answer answer = own.answer(question, Progress.NONE);
                Answer other = reference.answer(question, Progress.NONE);
                assertThat(answer.getClass()).isEqualTo(other.getClass());
                assertThat(answer.findRoute().map(r -> r.total()))
                        .isEqualTo(other.findRoute().map(r -> r.total()));
                if (answer instanceof Answer.FreeRoute free && !AnswerEdits.isThere(free)) {
                    List<Edit> edits = AnswerEdits.of(free);
                    assertThat(Outcome.of(design, edits)).isInstanceOf(Outcome.Applied.class);
                    kept++;
                }
            }
        }
        assertThat(kept).isGreaterThan(5);
    }
}
