package padward.watch.logic;

import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Sets of at most k nodes, none of which contains another. Each has a signature of 64 bits, a bit
 * for some of the nodes, which tells most sets apart at once.
 */
final class CutSet {
    private final int most;
    private final List<int[]> cuts = new ArrayList<>();
    private final LongArrayList signatures = new LongArrayList();
    private final int[] union;

    CutSet(int most) {
        this.most = most;
        this.union = new int[most];
    }

    /** The sets, each sorted. */
    List<int[]> cuts() {
        return cuts;
    }

    /** Adds the nodes of two sorted sets, unless they are too many or contain a set. */
    void addUnion(int[] one, int[] other) {
        int size = unite(one, other);
        if (size > most) {
            return;
        }
        long signature = 0;
        for (int i = 0; i < size; i++) {
            signature |= 1L << union[i];
        }
        for (int i = 0; i < cuts.size(); i++) {
            long known = signatures.getLong(i);
            if ((known & ~signature) == 0 && isPart(cuts.get(i), cuts.get(i).length, union, size)) {
                return;
            }
        }
        for (int i = cuts.size() - 1; i >= 0; i--) {
            long known = signatures.getLong(i);
            if ((signature & ~known) == 0 && isPart(union, size, cuts.get(i), cuts.get(i).length)) {
                cuts.remove(i);
                signatures.removeLong(i);
            }
        }
        cuts.add(Arrays.copyOf(union, size));
        signatures.add(signature);
    }

    /** How many nodes two sets have; more than may be, as soon as that is clear. */
    private int unite(int[] one, int[] other) {
        int size = 0;
        int i = 0;
        int j = 0;
        while (i < one.length || j < other.length) {
            if (size == most) {
                return most + 1;
            }
            if (j == other.length || i < one.length && one[i] < other[j]) {
                union[size++] = one[i++];
            } else {
                i += i < one.length && one[i] == other[j] ? 1 : 0;
                union[size++] = other[j++];
            }
        }
        return size;
    }

    private static boolean isPart(int[] part, int partSize, int[] all, int size) {
        int at = 0;
        for (int i = 0; i < partSize; i++) {
            while (at < size && all[at] < part[i]) {
                at++;
            }
            if (at == size || all[at] != part[i]) {
                return false;
            }
        }
        return true;
    }
}
