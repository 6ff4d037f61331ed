package padward.ui.control;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class LeadingNumberOrderTest {
    @Test
    void tenComesAfterTwoAndNothingLast() {
        List<String> texts = List.of("10.270–17.720", "2.170–3.550", "", "1647", "2.165–3.0");
        assertThat(texts.stream().sorted(LeadingNumberOrder.ORDER))
                .containsExactly("2.165–3.0", "2.170–3.550", "10.270–17.720", "1647", "");
    }
}
