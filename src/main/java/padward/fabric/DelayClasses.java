package padward.fabric;

import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.Arrays;

/**
 * The distinct (kind, delay) pairs of a fabric's edges, numbered, so that an edge stores a number.
 */
final class DelayClasses {
    private record Key(EdgeKind kind, Delay delay) {}

    private static final EdgeKind[] KINDS = EdgeKind.values();

    private final Object2IntOpenHashMap<Key> known = new Object2IntOpenHashMap<>();
    private int[] fast = new int[16];
    private int[] slow = new int[16];
    private byte[] kinds = new byte[16];

    /** The number of a pair. */
    int intern(EdgeKind kind, Delay delay) {
        Key key = new Key(kind, delay);
        int found = known.getOrDefault(key, Fabric.NOTHING);
        if (found != Fabric.NOTHING) {
            return found;
        }
        int number = known.size();
        if (number == fast.length) {
            fast = Arrays.copyOf(fast, number * 2);
            slow = Arrays.copyOf(slow, number * 2);
            kinds = Arrays.copyOf(kinds, number * 2);
        }
        fast[number] = delay.fastPs();
        slow[number] = delay.slowPs();
        kinds[number] = (byte) kind.ordinal();
        known.put(key, number);
        return number;
    }

    EdgeKind kind(int number) {
        return KINDS[kinds[number]];
    }

    int delayPs(int number, Corner corner) {
        return corner == Corner.FAST ? fast[number] : slow[number];
    }
}
