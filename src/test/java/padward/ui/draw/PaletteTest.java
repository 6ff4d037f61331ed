package padward.ui.draw;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import javafx.scene.paint.Color;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Letters and marks of the canvases stand out from every background that they can have. Ratio and
 * least ratios: W3C, Web Content Accessibility Guidelines 2.2, "contrast ratio", and success
 * criteria 1.4.3 (text, 4.5) and 1.4.11 (graphical objects, 3).
 */
class PaletteTest {
    private static final double TEXT = 4.5;
    private static final double MARK = 3;

    /** The strongest tint of a kind of tile, as the tile painter applies it. */
    private static final double KIND = 0.26;

    static Stream<Palette> palettes() {
        return Stream.of(Palette.LIGHT, Palette.DARK);
    }

    /**
     * The ends of the scale, and four pairs as calculated by wcag-contrast 3.0.0, a separate
     * package: #767676 is the lightest grey that passes on white; the others are of Okabe and Ito.
     */
    @Test
    void theRatioIsThatOfTheGuidelines() {
        assertThat(contrast(Color.WHITE, Color.BLACK)).isCloseTo(21, within(1e-9));
        assertThat(contrast(Color.RED, Color.RED)).isEqualTo(1);
        assertThat(contrast(Color.web("#767676"), Color.WHITE)).isCloseTo(4.54, within(0.005));
        assertThat(contrast(Color.web("#0072B2"), Color.WHITE)).isCloseTo(5.19, within(0.005));
        assertThat(contrast(Color.web("#D55E00"), Color.WHITE)).isCloseTo(3.87, within(0.005));
        assertThat(contrast(Color.web("#56B4E9"), Color.BLACK)).isCloseTo(9.10, within(0.005));
    }

    @ParameterizedTest
    @MethodSource("palettes")
    void textIsLegibleOnItsGrounds(Palette p) {
        Color kind = p.tile().interpolate(p.kind(), KIND);
        demand(
                TEXT,
                "ink",
                p.ink(),
                List.of(p.paper(), p.tile(), p.rim(), p.site(), p.used(), kind));
        demand(TEXT, "faint", p.faint(), List.of(p.paper(), p.tile(), p.rim(), kind));
        demand(TEXT, "obstacle's name", p.obstacleInk(), List.of(p.paper()));
    }

    /** Routes always have paper below them. */
    @ParameterizedTest
    @MethodSource("palettes")
    void marksStandOutFromTheirGrounds(Palette p) {
        List<Color> grounds = List.of(p.paper(), p.tile(), p.rim());
        Map<String, Color> marks = new LinkedHashMap<>();
        marks.put("route", p.route());
        marks.put("net", p.net());
        marks.put("alternative", p.alternative());
        marks.put("obstacle", p.obstacle());
        marks.put("selection", p.selection());
        marks.put("delay line", p.delayLine());
        marks.put("frontier", p.frontier());
        for (int i = 0; i < p.several().size(); i++) {
            marks.put("route " + i + " of several", p.several().get(i));
        }
        marks.put("held wire", p.usedStrong());
        marks.put("outline", p.box());
        marks.forEach((name, color) -> demand(MARK, name, color, grounds));
        demand(MARK, "outline", p.box(), List.of(p.site()));
        demand(MARK, "held site", p.used(), List.of(p.site()));
    }

    /** One of several routes is not taken for something that has a colour of its own. */
    @ParameterizedTest
    @MethodSource("palettes")
    void severalRoutesHaveColorsOfTheirOwn(Palette p) {
        assertThat(p.several())
                .doesNotContain(
                        p.selection(), p.route(), p.net(), p.alternative(), p.obstacle(), p.box())
                .doesNotHaveDuplicates();
    }

    private static void demand(double least, String name, Color color, List<Color> grounds) {
        for (Color ground : grounds) {
            assertThat(contrast(color, ground))
                    .as("%s %s on %s", name, color, ground)
                    .isGreaterThanOrEqualTo(least);
        }
    }

    private static double contrast(Color one, Color other) {
        double a = luminance(one) + 0.05;
        double b = luminance(other) + 0.05;
        return Math.max(a, b) / Math.min(a, b);
    }

    private static double luminance(Color color) {
        double[] linear =
                DoubleStream.of(color.getRed(), color.getGreen(), color.getBlue())
                        .map(c -> c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4))
                        .toArray();
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
    }
}
