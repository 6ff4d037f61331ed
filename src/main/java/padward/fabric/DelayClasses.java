package padward.fabric;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * The distinct (kind, delay) pairs of a fabric's edges, numbered, so that an edge stores a number.
 */
public final class DelayClasses {
    /** Compared by code of this class: it is called for every edge while a program starts. */
    private record Key(EdgeKind kind, int fastPs, int slowPs) {
        @Override
        public boolean equals(Object other) {
            return other instanceof Key key
                    && key.kind == kind
                    && key.fastPs == fastPs
                    && key.slowPs == slowPs;
        }

        @Override
        public int hashCode() {
            return (31 * fastPs + slowPs) * 3 + kind.ordinal();
        }
    }

    /** A switch with the wire that it leads to, each as long as a file may state it. */
    private static final int LONGEST_PS = 2 * FabricLimits.EDGE_DELAY_PS;

    private static final EdgeKind[] KINDS = EdgeKind.values();

    private final Map<Key, Integer> known = new HashMap<>();
    private int[] fast = new int[16];
    private int[] slow = new int[16];
    private byte[] kinds = new byte[16];

    /**
     * The number of a pair.
     *
     * @throws IllegalArgumentException when the delay is longer than a switch and a wire can be:
     *     the searches would take the step for a closed one, or their sums would wrap round
     */
    public int intern(EdgeKind kind, Delay delay) {
        if (delay.slowPs() > LONGEST_PS) {
            throw new IllegalArgumentException(
                    "an edge of at most " + LONGEST_PS + " ps expected, got " + delay.slowPs());
        }
        Key key = new Key(kind, delay.fastPs(), delay.slowPs());
        Integer found = known.get(key);
        if (found != null) {
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

    public EdgeKind kind(int number) {
        return KINDS[kinds[number]];
    }

    public int delayPs(int number, Corner corner) {
        return corner == Corner.FAST ? fast[number] : slow[number];
    }

    /** How many there are. */
    public int count() {
        return known.size();
    }
}
