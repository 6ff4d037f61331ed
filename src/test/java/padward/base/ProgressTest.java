package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A limit of time holds for all numbers of milliseconds. */
class ProgressTest {
    @ParameterizedTest
    @ValueSource(longs = {60_000, 9_223_372_036_854L, 10_000_000_000_000L, Long.MAX_VALUE})
    void aDistantLimitDoesNotStopAtOnce(long millis) {
        assertThat(Progress.NONE.within(millis).cancelled()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(longs = {0})
    void noTimeStopsAtOnce(long millis) {
        assertThat(Progress.NONE.within(millis).cancelled()).isTrue();
    }
}
