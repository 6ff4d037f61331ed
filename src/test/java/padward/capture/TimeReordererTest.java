package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What reordering needs grows with the channels, not with their pairs. */
class TimeReordererTest {
    @Test
    void manyChannelsOffTheSheetFitIntoMemory() {
        List<String> channels = IntStream.range(0, 40_000).mapToObj(i -> "v" + i).toList();
        TimeReorderer reorderer = new TimeReorderer(channels, Deskew.NONE, 1, null);
        assertThat(reorderer.shiftFs(39_999)).isZero();
    }
}
