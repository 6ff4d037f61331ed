package padward.ui.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.Arrays;
import java.util.Comparator;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * The pads in the order of their tiles, so that those in view are found without visiting all pads.
 */
public final class PadIndex {
    private final Fabric fabric;
    private final String longestPin;

    /** Pads by tile; within a tile in the order of their numbers. */
    private final int[] pads;

    private final int[] tiles;
    private final int[] ordinals;
    private final Int2IntOpenHashMap padByVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap countByTile = new Int2IntOpenHashMap();

    PadIndex(Fabric fabric) {
        this.fabric = fabric;
        int count = fabric.pads().size();
        ordinals = new int[count];
        padByVertex.defaultReturnValue(Fabric.NOTHING);
        for (int pad = 0; pad < count; pad++) {
            padByVertex.put(fabric.pads().get(pad).vertex(), pad);
            ordinals[pad] = countByTile.addTo(tileOf(pad), 1);
        }
        pads =
                IntStream.range(0, count)
                        .boxed()
                        .sorted(Comparator.comparingInt(this::tileOf))
                        .mapToInt(Integer::intValue)
                        .toArray();
        tiles = Arrays.stream(pads).map(this::tileOf).toArray();
        longestPin =
                fabric.pads().stream()
                        .map(Pad::packagePin)
                        .max(Comparator.comparingInt(String::length))
                        .orElse("");
    }

    private int tileOf(int pad) {
        return fabric.pads().get(pad).tile();
    }

    /** The pad at a vertex, or {@link Fabric#NOTHING}. */
    public int at(int vertex) {
        return padByVertex.get(vertex);
    }

    /** The longest name of a package pin; {@code ""} if no pin has one. */
    public String longestPin() {
        return longestPin;
    }

    /** Whether there is a pad at a vertex. */
    public boolean isPad(int vertex) {
        return padByVertex.containsKey(vertex);
    }

    /** Number of pads in a tile. */
    int countIn(int tile) {
        return countByTile.get(tile);
    }

    /** Position of a pad among those of its tile. */
    int ordinal(int pad) {
        return ordinals[pad];
    }

    /** Visits the pads in a part of the fabric. O(its rows × log pads + pads found). */
    public void forEachIn(TileRange range, IntConsumer pad) {
        for (int row = range.bottom(); row <= range.top(); row++) {
            int last = row * fabric.columns() + range.right();
            int i = firstFrom(row * fabric.columns() + range.left());
            for (; i < pads.length && tiles[i] <= last; i++) {
                pad.accept(pads[i]);
            }
        }
    }

    private int firstFrom(int tile) {
        int low = 0;
        int high = tiles.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (tiles[middle] < tile) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
