package padward.ui.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What becomes of work that fails. */
class BackgroundTest {
    @Test
    void anErrorIsToldLikeAnyOtherFault() {
        List<Exception> told = new ArrayList<>();
        BackgroundWork.immediate()
                .start(
                        progress -> {
                            throw new OutOfMemoryError("Java heap space");
                        },
                        (fraction, message) -> {},
                        result -> {},
                        told::add);
        assertThat(told).hasSize(1);
        assertThat(told.get(0)).hasMessageContaining("Java heap space");
        assertThat(told.get(0)).hasCauseInstanceOf(OutOfMemoryError.class);
    }
}
