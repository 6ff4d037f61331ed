package padward.ui.draw;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Properties of every view of the fabric. */
class ViewportTest {
    static LongStream seeds() {
        return LongStream.range(0, 50);
    }

    private static Viewport random(Random random) {
        return new Viewport(
                200 + random.nextInt(2000),
                200 + random.nextInt(1200),
                random.nextDouble() * 60,
                random.nextDouble() * 60,
                1 + random.nextDouble() * 300);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void screenAndWorldLeadBack(long seed) {
        Random random = new Random(seed);
        Viewport view = random(random);
        double x = random.nextDouble() * 60;
        double y = random.nextDouble() * 60;
        assertThat(view.worldX(view.screenX(x))).isCloseTo(x, within(1e-9));
        assertThat(view.worldY(view.screenY(y))).isCloseTo(y, within(1e-9));
        assertThat(view.screenY(y + 1)).isLessThan(view.screenY(y));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whatIsUnderThePointerStaysThere(long seed) {
        Random random = new Random(seed);
        Viewport view = random(random);
        double x = random.nextDouble() * view.width();
        double y = random.nextDouble() * view.height();
        Viewport zoomed = view.zoomedAt(x, y, 0.5 + random.nextDouble());
        assertThat(zoomed.worldX(x)).isCloseTo(view.worldX(x), within(1e-9));
        assertThat(zoomed.worldY(y)).isCloseTo(view.worldY(y), within(1e-9));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aFittedRectangleIsSeenWhole(long seed) {
        Random random = new Random(seed);
        double x0 = random.nextDouble() * 50;
        double y0 = random.nextDouble() * 50;
        double x1 = x0 + 1 + random.nextDouble() * 50;
        double y1 = y0 + 1 + random.nextDouble() * 50;
        Viewport view = random(random).fitted(x0, y0, x1, y1, 500);
        assertThat(view.screenX(x0)).isGreaterThanOrEqualTo(0);
        assertThat(view.screenX(x1)).isLessThanOrEqualTo(view.width());
        assertThat(view.screenY(y1)).isGreaterThanOrEqualTo(0);
        assertThat(view.screenY(y0)).isLessThanOrEqualTo(view.height());
    }
}
