package padward.ui.question;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.base.Volts;
import padward.breakout.ask.Answer;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** What the field over the list of pads understands. */
class PadFilterTest {
    private Answer inA;
    private Answer inB;

    @BeforeEach
    void survey() {
        WindowModel model = new WindowModel(BackgroundWork.immediate());
        model.open(Path.of("fixtures/small/around.design.json"));
        model.shown().netTextProperty().set("alarm/beep");
        model.shown().ask();
        List<Answer> all = model.shown().surveyProperty().get().orElseThrow().answers();
        inA = all.stream().filter(a -> bank(a).equals("A")).findFirst().orElseThrow();
        inB = all.stream().filter(a -> bank(a).equals("B")).findFirst().orElseThrow();
    }

    private static String bank(Answer answer) {
        return answer.question().padValue().bank();
    }

    @Test
    void commasSeparateWords() {
        PadFilter filter = PadFilter.of("J1, bank A, 3.3 V, < 999");
        assertThat(filter.fits(inA, "J1.3 bank A, 3.3 V")).isTrue();
        assertThat(filter.fits(inA, "J2.3 bank A, 3.3 V")).isFalse();
        assertThat(filter.fits(inB, "J1.3 bank B, 3.3 V")).isFalse();
        assertThat(PadFilter.of("pin, < 0,001").fits(inA, "pin")).isFalse();
    }

    /**
     * A comma is a point, unless it may mark thousands; then nothing is listed, and why is told.
     */
    @Test
    void aNumberThatMayMeanTwoIsAFault() {
        assertThat(PadFilter.of("pin, < 999,5").fits(inA, "pin")).isTrue();
        PadFilter two = PadFilter.of("pin, < 1,250 ns");
        assertThat(two.fits(inA, "pin")).isFalse();
        assertThat(two.fault())
                .isEqualTo(
                        "Expected a number with a point, because the comma could mean thousands,"
                                + " found “1,250”.");
        assertThat(PadFilter.of("pin, < 1,2,3").fault())
                .isEqualTo("Expected a number, found “1,2,3”.");
        assertThat(PadFilter.of("pin, < 2, bank A").fault()).isEmpty();
    }

    @Test
    void aBankIsMeantWhole() {
        assertThat(PadFilter.of("bank a").fits(inA, "bank A")).isTrue();
        assertThat(PadFilter.of("bank A").fits(inB, "bank A0, near bank A")).isFalse();
        assertThat(PadFilter.of("bank").fits(inB, "bank B")).isTrue();
    }

    @Test
    void suppliesAreNotRounded() {
        assertThat(List.of(Volts.text(3300), Volts.text(1350), Volts.text(3000)))
                .containsExactly("3.3 V", "1.35 V", "3.0 V");
        assertThat(PadFilter.of("1.35v").fits(inA, "bank A, 1.35 V")).isTrue();
        assertThat(PadFilter.of("1.4 V").fits(inA, "bank A, 1.35 V")).isFalse();
    }
}
