package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Numbers in pages are those of a plain map. */
class PagedIntsTest {
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void isAMap(long seed) {
        Random random = new Random(seed);
        int size = 1 + random.nextInt(1000);
        PagedInts paged = new PagedInts(size);
        Map<Integer, Integer> plain = new HashMap<>();
        for (int i = 0; i < 2000; i++) {
            int at = random.nextInt(size);
            int value = random.nextInt(5) - 1;
            int before = plain.getOrDefault(at, PagedInts.NOTHING);
            assertThat(paged.get(at)).isEqualTo(before);
            if (random.nextBoolean()) {
                assertThat(paged.put(at, value)).isEqualTo(before);
                plain.put(at, value);
            } else {
                assertThat(paged.putIfAbsent(at, value)).isEqualTo(before);
                plain.put(at, before == PagedInts.NOTHING ? value : before);
            }
        }
    }

    @Test
    void whatIsNotWrittenIsShared() {
        PagedInts one = new PagedInts(300);
        one.put(299, 7);
        assertThat(new PagedInts(300).get(299)).isEqualTo(PagedInts.NOTHING);
        assertThat(one.get(0)).isEqualTo(PagedInts.NOTHING);
    }
}
