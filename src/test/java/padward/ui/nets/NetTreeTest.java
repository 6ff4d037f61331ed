package padward.ui.nets;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.survey.PadReachability;
import padward.design.Design;
import padward.format.design.DesignReader;

/** The nets browser's tree, without a window. */
class NetTreeTest {
    private static Design design;
    private static PadReachability outlets;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        outlets = PadReachability.of(design);
    }

    private static NetTree tree(String text, boolean expression) throws BadInput {
        return NetTree.of(design, outlets, NetTree.test(text, expression));
    }

    @Test
    void levelsFollowTheNamesAndVectorsAreFolded() throws BadInput {
        NetTree all = tree("", false);
        assertThat(all.children())
                .extracting(c -> c.row().label())
                .containsExactly("alarm/", "clk12", "float_hi", "float_lo", "pump/");
        NetTree level = all.children().get(4).children().get(0);
        assertThat(level.row().label()).isEqualTo("level/");
        NetTree vector =
                level.children().stream()
                        .filter(c -> c.row().label().startsWith("sample"))
                        .findFirst()
                        .orElseThrow();
        assertThat(vector.row().label()).isEqualTo("sample[0 to 1]");
        assertThat(vector.children())
                .extracting(c -> c.row().name())
                .containsExactly("pump/level/sample[0]", "pump/level/sample[1]");
    }

    @Test
    void rowsTellFanOutDelayAndClock() throws BadInput {
        NetRow clock = tree("clk12", false).children().get(0).row();
        assertThat(clock.fanOut()).isEqualTo(8);
        assertThat(clock.remark()).isEqualTo("clock");
        assertThat(clock.latest()).endsWith(" ns");
    }

    @Test
    void patternsAndExpressionsChoose() throws BadInput {
        assertThat(tree("*blink*", false).row().fanOut()).isEqualTo(2);
        assertThat(tree("float", false).row().fanOut()).isEqualTo(2);
        assertThat(tree("float_(hi|lo)$", true).row().fanOut()).isEqualTo(2);
        assertThat(tree("nothing", false).children()).isEmpty();
        assertThatThrownBy(() -> tree("(", true))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("a regular expression");
    }
}
