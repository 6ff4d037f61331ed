package padward.example;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.OfferedPads;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.format.tables.TableImport;
import padward.route.search.Engine;

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
        assertThat(fabric.taps(vertex("clk"))).hasSize(7);
    }

    @Test
    void switchesOfTheMemoryAreInBothItsTiles() {
        int d = vertex("x2y0/mem.d");
        int we = vertex("x2y0/mem.we");
        assertThat(fabric.switchTile(vertex("x0y0/e[0]"), d)).isEqualTo(tile(2, 0));
        assertThat(fabric.switchTile(vertex("x0y1/e[0]"), we)).isEqualTo(tile(2, 1));
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

    @Test
    void allAnswersCostWhatAnotherEngineFindsAndCanBeKept() {
        Asker own = new Asker(fabric, Engine.OWN);
        Asker reference = new Asker(fabric, Engine.REFERENCE);
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
