package padward.ui.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.watch.request.CircuitSort;

/** What names do that are dropped on the panel, and how a condition spells them. */
class WatchFieldsTest {
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "''; a && \\2b\\+",
                "hold; hold && a && \\2b\\+",
                "hold || beep; (hold || beep) && a && \\2b\\+",
                "hold ||; hold || a && \\2b\\+",
                "hold && !; hold && ! a && \\2b\\+",
            })
    void droppedNamesGoOnWithACondition(String before, String after) {
        WatchFields fields = new WatchFields();
        fields.whenProperty().set(before);
        fields.add(List.of("a", "2b+"));
        assertThat(fields.whenProperty().get()).isEqualTo(after);
    }

    @Test
    void droppedNetsAreObserved() {
        WatchFields fields = new WatchFields();
        fields.sortProperty().set(CircuitSort.SELECT);
        fields.netsProperty().set("a");
        fields.add(List.of("a", "2b+"));
        assertThat(fields.netsProperty().get()).isEqualTo("a, 2b+");
    }

    @Test
    void aWordOfAConditionIsANameWithSigns() {
        for (String name : List.of("a/b[3]", "2b+", "a b\\c", "")) {
            assertThat(NameWords.plain(NameWords.escaped(name))).isEqualTo(name);
        }
        assertThat(NameWords.plain("a\\")).isEqualTo("a");
    }
}
