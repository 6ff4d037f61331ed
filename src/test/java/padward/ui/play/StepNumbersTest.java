package padward.ui.play;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.base.Counts;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.PadNames;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.lesson.recording.PlayedSearch;
import padward.route.cost.ObstacleCost;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.paint.MapPicture;

/** Numbers of the step player are written the same on machines of every language. */
class StepNumbersTest {
    private final Locale usual = Locale.getDefault();

    @BeforeEach
    void useGerman() {
        Locale.setDefault(Locale.GERMANY);
        // The locale does change numbers: without this, the test could not fail.
        assertThat(String.format("%.1f %,d", 0.5, 1000)).isEqualTo("0,5 1.000");
    }

    @AfterEach
    void useTheUsualLocale() {
        Locale.setDefault(usual);
    }

    @Test
    void countsAndCostsHaveACommaAfterThousandsAndADecimalPoint() {
        assertThat(Counts.text(1_234_567)).isEqualTo("1,234,567");
        assertThat(SearchPlayer.cost(1_220)).isEqualTo("1.220 ns");
        assertThat(SearchPlayer.cost(2 * ObstacleCost.PRICE + 1_220))
                .isEqualTo("1.220 ns through 2 occupied stretches");
    }

    @Test
    void sentencesAndLabelsOnTheMapHaveADecimalPoint() throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        int pad = PadNames.find(design, "J1.4").get(0);
        Answer answer =
                Asker.ask(
                        new Question(
                                design,
                                design.findNet("pump/level/sample[1]").orElseThrow(),
                                pad,
                                Corner.SLOW),
                        Progress.NONE);
        PlayedSearches played = PlayedSearches.of(answer, Progress.NONE);
        SearchPlayer player = played.search(PlayedSearch.A_STAR, 0).orElseThrow();
        player.goTo(player.size() / 2);
        assertThat(player.text())
                .containsPattern("\\d\\.\\d{3} ns")
                .doesNotContainPattern("\\d,\\d");
        assertThat(played.savedText(0)).containsPattern("\\d\\.\\d %");
        SvgSurface picture = new SvgSurface(900, 900, "search");
        Viewport near = new Viewport(900, 900, 4, 3.5, 200);
        player.overlay()
                .paint(MapPicture.plain(new OpenDesign(design), near, Palette.LIGHT), picture);
        assertThat(picture.finish())
                .containsPattern("\\d\\.\\d{3} \\+ \\d\\.\\d{3}")
                .doesNotContainPattern("\\d,\\d{3} \\+");
    }
}
