package padward.ui.scene;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class DelayBandWidthTest {
    @Test
    void bandsAreOneTwoOrFiveTimesAPowerOfTen() {
        assertThat(DelayBandWidth.AUTOMATIC.ps(0)).isEqualTo(10);
        assertThat(DelayBandWidth.AUTOMATIC.ps(80)).isEqualTo(10);
        assertThat(DelayBandWidth.AUTOMATIC.ps(81)).isEqualTo(20);
        assertThat(DelayBandWidth.AUTOMATIC.ps(1601)).isEqualTo(500);
        assertThat(DelayBandWidth.AUTOMATIC.ps(4001)).isEqualTo(1000);
        assertThat(DelayBandWidth.TWO.ps(4001)).isEqualTo(2000);
    }
}
