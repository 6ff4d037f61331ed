package padward.fabric.explicit;

import it.unimi.dsi.fastutil.longs.Long2IntMap;
import java.io.IOException;
import java.util.Arrays;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The stated tiles of switches, found by halving. 12 bytes for each. Immutable, safe for all
 * threads.
 */
final class SwitchTiles {
    /** No tile is stated. */
    static final SwitchTiles NONE = new SwitchTiles(new long[0], new int[0]);

    /** {@link EdgeKey}s, rising. */
    private final long[] edges;

    private final int[] tiles;

    private SwitchTiles(long[] edges, int[] tiles) {
        this.edges = edges;
        this.tiles = tiles;
    }

    /** By {@link EdgeKey}. O(n log n). */
    static SwitchTiles of(Long2IntMap tileOf) {
        long[] edges = tileOf.keySet().toLongArray();
        Arrays.sort(edges);
        return new SwitchTiles(edges, Arrays.stream(edges).mapToInt(tileOf::get).toArray());
    }

    /** The tile that is stated of a switch, or {@link Fabric#NOTHING}. O(log n). */
    int find(int from, int to) {
        int at = Arrays.binarySearch(edges, EdgeKey.of(from, to));
        return at < 0 ? Fabric.NOTHING : tiles[at];
    }

    /** Bytes of the arrays. */
    long memory() {
        return (long) (Long.BYTES + Integer.BYTES) * edges.length;
    }

    void write(CompactOut out) throws IOException {
        out.longNumbers(edges);
        out.numbers(tiles);
    }

    static SwitchTiles read(CompactIn in, int vertices, int tiles) throws IOException {
        long[] edges = in.longNumbers();
        int[] stated = in.numbers(0, tiles - 1);
        Damaged.unless(stated.length == edges.length, "tiles of switches");
        for (int i = 0; i < edges.length; i++) {
            int from = EdgeKey.from(edges[i]);
            int to = EdgeKey.to(edges[i]);
            Damaged.unless(
                    from >= 0
                            && from < vertices
                            && to >= 0
                            && to < vertices
                            && (i == 0 || edges[i - 1] < edges[i]),
                    "the ends of an edge");
        }
        return new SwitchTiles(edges, stated);
    }
}
