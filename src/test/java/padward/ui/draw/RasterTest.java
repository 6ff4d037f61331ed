package padward.ui.draw;

import static org.assertj.core.api.Assertions.assertThat;

import javafx.scene.paint.Color;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.framework.junit5.ApplicationExtension;

/** Pixels written one by one. */
@ExtendWith(ApplicationExtension.class)
class RasterTest {
    private static final int RED = Raster.pixel(Color.RED);

    @Test
    void linesAlongTheAxesEndWhereTheyShould() {
        Raster raster = new Raster(20, 10);
        raster.line(2, 3, 6, 3, 2, RED);
        assertThat(raster.at(2, 3)).isEqualTo(RED);
        assertThat(raster.at(6, 4)).isEqualTo(RED);
        assertThat(raster.at(7, 3)).isZero();
        assertThat(raster.at(2, 5)).isZero();
        raster.clear();
        assertThat(raster.at(2, 3)).isZero();
    }

    @Test
    void whatLiesOutsideIsLeftOut() {
        Raster raster = new Raster(20, 10);
        raster.line(-100, 5, 100, 5, 1, RED);
        raster.line(5, -50, 5, 50, 1, RED);
        raster.line(-40, -40, 60, 60, 1, RED);
        raster.disc(19, 9, 5, RED, RED);
        raster.box(-3, -3, 5, 5, 0, RED, RED);
        assertThat(raster.at(0, 5)).isEqualTo(RED);
        assertThat(raster.at(19, 5)).isEqualTo(RED);
        assertThat(raster.at(5, 9)).isEqualTo(RED);
        assertThat(raster.at(8, 8)).isEqualTo(RED);
        assertThat(raster.at(1, 1)).isEqualTo(RED);
    }

    @Test
    void colours() {
        assertThat(Raster.pixel(Color.web("#0072B2"))).isEqualTo(0xff0072B2);
    }
}
