package padward.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import org.junit.jupiter.api.Test;

class ListingTest {
    @Test
    void allAreListed() {
        assertThat(Listing.all(List.of("a"))).isEqualTo("a");
        assertThat(Listing.all(List.of("a", "b"))).isEqualTo("a and b");
        assertThat(Listing.all(List.of("a", "b", "c"))).isEqualTo("a, b and c");
        assertThatIllegalArgumentException().isThrownBy(() -> Listing.all(List.of()));
    }

    @Test
    void ofManyTheFirstAreNamed() {
        assertThat(Listing.first(List.of(), 2)).isEmpty();
        assertThat(Listing.first(List.of("a", "b"), 2)).isEqualTo("a, b");
        assertThat(Listing.first(List.of("a", "b", "c"), 2)).isEqualTo("a, b and 1 more");
    }
}
