package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.format.design.DesignReader;
import padward.format.tables.TableImport;

/** What stands beside a name that is offered. */
class NameRemarkTest {
    private static OpenDesign opened;

    @BeforeAll
    static void open() throws Exception {
        Path file = Path.of("fixtures/small/only.design.json");
        opened = new OpenDesign(DesignReader.read(file, Progress.NONE));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "pump/level/sample[1] | net",
                "pump/run/motor_out | net",
                "x7y3/pad[0] | pad: D7, J1.3, port motor",
                "D7 | pad: J1.3, port motor",
                "J1.3 | pad: D7, port motor",
                "x1y0/pad[0] | pad: F7",
                "x3y3 | tile",
                "x7y3/outreg[0] | site",
                "x7y3/outreg[0].d | pin of a site",
                "x5y3/run1_e[0] | wire",
                "nothing | ''",
            })
    void theSortOfAThingIsSaid(String name, String remark) {
        assertThat(NameRemark.of(opened, name)).isEqualTo(remark);
    }

    @Test
    void aCellAndAPartOfASiteAreSaid() throws Exception {
        TableImport.Result read = TableImport.read(Path.of("fixtures/irregular"), 1, Progress.NONE);
        OpenDesign irregular = new OpenDesign(((TableImport.Sound) read).design().orElseThrow());
        assertThat(NameRemark.of(irregular, "store")).isEqualTo("cell");
        assertThat(NameRemark.of(irregular, "x1y1/cell/table")).isEqualTo("site");
        assertThat(NameRemark.of(irregular, "level")).isEqualTo("net");
    }

    @Test
    void aPadIsSaidByItsOtherNames() {
        assertThat(NameRemark.ofPad(opened, "x7y3/pad[0]")).isEqualTo("D7, J1.3, port motor");
        assertThat(NameRemark.ofPad(opened, "motor")).isEqualTo("D7, J1.3");
        assertThat(NameRemark.ofPad(opened, "x5y3/run1_e[0]")).isEmpty();
    }
}
