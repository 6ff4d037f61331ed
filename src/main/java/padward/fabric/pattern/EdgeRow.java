package padward.fabric.pattern;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import padward.fabric.DelayClasses;
import padward.fabric.delay.Corner;

/** The edges of one vertex of a template while they are collected, each far end once. */
final class EdgeRow {
    /** An edge is three numbers: its step, its far end in that tile, its delay class. */
    static final int EDGE = 3;

    /** Up to so many numbers are searched through; most rows are shorter. */
    private static final int SHORT = 64 * EDGE;

    private final DelayClasses classes;
    private final IntArrayList all = new IntArrayList();
    private final Long2IntOpenHashMap placeOf = new Long2IntOpenHashMap(0);

    EdgeRow(DelayClasses classes) {
        this.classes = classes;
    }

    /** Two rules may name the same pair; the one with less delay is kept. */
    void add(int step, int local, int delayClass) {
        int at = find(step, local);
        if (at < 0) {
            if (all.size() >= SHORT) {
                placeOf.put(key(step, local), all.size());
            }
            all.add(step);
            all.add(local);
            all.add(delayClass);
        } else if (classes.delayPs(delayClass, Corner.SLOW)
                < classes.delayPs(all.getInt(at + 2), Corner.SLOW)) {
            all.set(at + 2, delayClass);
        }
    }

    private int find(int step, int local) {
        for (int i = 0; i < Math.min(SHORT, all.size()); i += EDGE) {
            if (all.getInt(i) == step && all.getInt(i + 1) == local) {
                return i;
            }
        }
        return placeOf.getOrDefault(key(step, local), -1);
    }

    private static long key(int step, int local) {
        return (long) step << Integer.SIZE | local;
    }

    IntArrayList all() {
        return all;
    }
}
