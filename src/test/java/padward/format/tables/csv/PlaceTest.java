package padward.format.tables.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Places in names, and several names in one field. */
class PlaceTest {
    @ParameterizedTest
    @CsvSource({
        "x3y4/run1_e[5], 3, 4",
        "wire_x3y4_5, 3, 4",
        "WIRE_X3Y4_5, 3, 4",
        "top/x10y20.in, 10, 20",
        "max2/x7y0, 7, 0",
        "ABX1Y2, 1, 2"
    })
    void theFirstPlaceOfANameCounts(String name, int column, int row) {
        assertThat(Place.first(name)).isEqualTo(Place.of(column, row));
    }

    @ParameterizedTest
    @CsvSource({"wire5", "x3", "x3z4", "box3y4", "xy", "x1234567890y1"})
    void otherNamesHaveNone(String name) {
        assertThat(Place.first(name)).isEqualTo(Place.NONE);
    }

    @Test
    void severalNamesInOneFieldComeBackAsTheyWere() {
        for (List<String> names :
                List.of(
                        List.<String>of(),
                        List.of("one"),
                        List.of("a|b", "c\\", "d"),
                        List.of("\\|", "|"))) {
            assertThat(Listed.split(Listed.join(names))).isEqualTo(names);
        }
    }
}
