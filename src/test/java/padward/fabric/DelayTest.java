package padward.fabric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import padward.fabric.delay.Delay;
import padward.fabric.delay.DelayTooLong;

/** Sums of delays at the limit of what is calculated. */
class DelayTest {
    private static final Delay LONGEST = new Delay(Integer.MAX_VALUE - 1, Integer.MAX_VALUE);

    @Test
    void theLimitItselfIsADelay() {
        assertThat(new Delay(5, Integer.MAX_VALUE - 3).plus(new Delay(1, 3)))
                .isEqualTo(new Delay(6, Integer.MAX_VALUE));
        assertThat(Delay.ps(Integer.MAX_VALUE)).isEqualTo(Integer.MAX_VALUE);
    }

    @Test
    void beyondItNothingWrapsRound() {
        assertThatThrownBy(() -> LONGEST.plus(new Delay(0, 1))).isInstanceOf(DelayTooLong.class);
        assertThatThrownBy(() -> LONGEST.plus(LONGEST))
                .isInstanceOf(DelayTooLong.class)
                .hasMessageContaining("at most 2147483647 ps");
        assertThatThrownBy(() -> Delay.ps(1L << 32)).isInstanceOf(DelayTooLong.class);
    }
}
