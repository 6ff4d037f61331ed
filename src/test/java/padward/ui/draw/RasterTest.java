package padward.ui.draw;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import javafx.scene.paint.Color;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
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
    void whatIsOutsideIsLeftOut() {
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

    /**
     * Compared with the plain method: each step of the longer side rounded separately, kept if
     * inside.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void slantedLinesAreTheNearestPixelsAndGoAsFarAsTheyShould(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 2_000; round++) {
            Raster raster = new Raster(40, 25);
            double[] at = new double[4];
            for (int i = 0; i < at.length; i++) {
                // Odd parts of 64, so that no coordinate of an end lies between two pixels.
                at[i] = (random.nextInt(64 * 60) * 2 + 1) / 128.0 - 15;
            }
            raster.line(at[0], at[1], at[2], at[3], 1, RED);
            double steps = Math.max(Math.abs(at[2] - at[0]), Math.abs(at[3] - at[1]));
            for (int i = 0; i <= steps; i++) {
                double x = at[0] + (at[2] - at[0]) * i / steps;
                double y = at[1] + (at[3] - at[1]) * i / steps;
                boolean doubtful = betweenPixels(x) || betweenPixels(y);
                int column = (int) Math.round(x);
                int row = (int) Math.round(y);
                boolean inside = column >= 0 && column < 40 && row >= 0 && row < 25;
                if (inside && !doubtful) {
                    assertThat(raster.at(column, row))
                            .as("round %d, step %d", round, i)
                            .isEqualTo(RED);
                }
            }
            assertThat(count(raster)).as("round %d", round).isLessThanOrEqualTo((int) steps + 2);
        }
    }

    private static boolean betweenPixels(double at) {
        return Math.abs(at - Math.floor(at) - 0.5) < 0.01;
    }

    private static int count(Raster raster) {
        int result = 0;
        for (int y = 0; y < 25; y++) {
            for (int x = 0; x < 40; x++) {
                result += raster.at(x, y) != 0 ? 1 : 0;
            }
        }
        return result;
    }

    @Test
    void colours() {
        assertThat(Raster.pixel(Color.web("#0072B2"))).isEqualTo(0xff0072B2);
    }
}
