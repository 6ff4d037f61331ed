package padward.fabric.pattern;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.fabric.Fabric;

class NameTableTest {
    @Test
    void findsWhatAMapFinds() {
        Random random = new Random(7);
        for (int size = 0; size < 200; size++) {
            Map<String, Integer> map = new HashMap<>();
            for (int i = 0; i < size; i++) {
                map.put(word(random), i);
            }
            NameTable table = new NameTable(map);
            for (String name : map.keySet()) {
                assertEquals(map.get(name), table.find(name, 0, name.length()));
            }
            for (int i = 0; i < 300; i++) {
                String text = word(random) + word(random) + word(random);
                int from = random.nextInt(text.length() + 1);
                int to = from + random.nextInt(text.length() + 1 - from);
                assertEquals(
                        map.getOrDefault(text.substring(from, to), Fabric.NOTHING),
                        table.find(text, from, to),
                        text);
            }
        }
    }

    /** Words that often have the same hash, as {@code Aa} and {@code BB} have. */
    private static String word(Random random) {
        StringBuilder word = new StringBuilder();
        for (int length = random.nextInt(4); length >= 0; length--) {
            word.append(new String[] {"Aa", "BB", "C#", "x", "[1]", "é"}[random.nextInt(6)]);
        }
        return word.toString();
    }
}
