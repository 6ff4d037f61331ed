package padward.ui.scene;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class BandWidthTest {
    @Test
    void bandsAreOneTwoOrFiveTimesAPowerOfTen() {
        assertThat(BandWidth.AUTOMATIC.ps(0)).isEqualTo(10);
        assertThat(BandWidth.AUTOMATIC.ps(80)).isEqualTo(10);
        assertThat(BandWidth.AUTOMATIC.ps(81)).isEqualTo(20);
        assertThat(BandWidth.AUTOMATIC.ps(1601)).isEqualTo(500);
        assertThat(BandWidth.AUTOMATIC.ps(4001)).isEqualTo(1000);
        assertThat(BandWidth.TWO.ps(4001)).isEqualTo(2000);
    }
}
