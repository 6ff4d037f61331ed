package padward.ui.design;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.fabric.Fabric;

/** The kinds of tile of a fabric, numbered by how common they are, the most common first. */
public final class TileKinds {
    private final byte[] kinds;

    /** O(tiles). */
    TileKinds(Fabric fabric) {
        Map<String, Integer> counts = new HashMap<>();
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            counts.merge(fabric.tileType(tile), 1, Integer::sum);
        }
        List<String> names = new ArrayList<>(counts.keySet());
        names.sort(Comparator.<String>comparingInt(n -> -counts.get(n)).thenComparing(n -> n));
        Map<String, Integer> numbers = new HashMap<>();
        names.forEach(n -> numbers.put(n, Math.min(Byte.MAX_VALUE, numbers.size())));
        kinds = new byte[fabric.tileCount()];
        for (int tile = 0; tile < kinds.length; tile++) {
            kinds[tile] = numbers.get(fabric.tileType(tile)).byteValue();
        }
    }

    /** The number of a tile's kind. */
    public int of(int tile) {
        return kinds[tile];
    }
}
