package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.OffsetDateTime;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TimeStampTest {
    @ParameterizedTest
    @CsvSource({
        "2026-03-04T05:06:07.89+01:00, 2026-03-04T05:06:07+01:00",
        "2026-03-04T05:06:00Z, 2026-03-04T05:06:00Z"
    })
    void timesAreWrittenToTheSecond(OffsetDateTime time, String text) {
        assertThat(TimeStamp.text(time)).isEqualTo(text);
    }
}
