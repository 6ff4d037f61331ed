package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.IntArrays;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.objects.Object2IntOpenCustomHashMap;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.Fabric;

/** Sets of occupants, each with a number; equal sets have equal numbers. Set 0 is empty. */
public final class OccupantSets {
    private final List<int[]> sets = new ArrayList<>();
    private final Object2IntOpenCustomHashMap<int[]> numbers =
            new Object2IntOpenCustomHashMap<>(IntArrays.HASH_STRATEGY);
    private final Long2IntOpenHashMap enlarged = new Long2IntOpenHashMap();

    public OccupantSets() {
        numbers.defaultReturnValue(Fabric.NOTHING);
        enlarged.defaultReturnValue(Fabric.NOTHING);
        sets.add(new int[0]);
        numbers.put(sets.get(0), 0);
    }

    /** The members, sorted; not to be changed. */
    public int[] members(int set) {
        return sets.get(set);
    }

    public int size(int set) {
        return sets.get(set).length;
    }

    /** The set with one more member. */
    public int with(int set, int occupant) {
        long key = (long) set << Integer.SIZE | occupant;
        int known = enlarged.get(key);
        if (known != Fabric.NOTHING) {
            return known;
        }
        int[] old = sets.get(set);
        int at = 0;
        while (at < old.length && old[at] < occupant) {
            at++;
        }
        int result = set;
        if (at == old.length || old[at] != occupant) {
            int[] larger = new int[old.length + 1];
            System.arraycopy(old, 0, larger, 0, at);
            larger[at] = occupant;
            System.arraycopy(old, at, larger, at + 1, old.length - at);
            result = numbers.getInt(larger);
            if (result == Fabric.NOTHING) {
                result = sets.size();
                sets.add(larger);
                numbers.put(larger, result);
            }
        }
        enlarged.put(key, result);
        return result;
    }

    /** Whether all members of one set are in another. */
    public boolean isWithin(int small, int large) {
        if (small == large || small == 0) {
            return true;
        }
        int[] few = sets.get(small);
        int[] many = sets.get(large);
        if (few.length >= many.length) {
            return false;
        }
        int at = 0;
        for (int member : few) {
            while (at < many.length && many[at] < member) {
                at++;
            }
            if (at == many.length || many[at] != member) {
                return false;
            }
        }
        return true;
    }

    public int count() {
        return sets.size();
    }
}
