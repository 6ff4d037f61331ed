package padward.fabric;

import it.unimi.dsi.fastutil.ints.IntAVLTreeSet;
import it.unimi.dsi.fastutil.ints.IntSortedSet;
import it.unimi.dsi.fastutil.ints.IntSortedSets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Which pads of a fabric form differential pairs. Immutable. */
public final class PadPairs {
    private final Map<Integer, IntSortedSet> others = new HashMap<>();

    private PadPairs(List<Pad> pads) {
        Map<String, Integer> numbers = new HashMap<>();
        for (int pad = 0; pad < pads.size(); pad++) {
            numbers.put(pads.get(pad).name(), pad);
        }
        for (int pad = 0; pad < pads.size(); pad++) {
            Integer partner = numbers.get(pads.get(pad).use().driving().partner());
            if (partner != null) {
                pair(pad, partner);
                pair(partner, pad);
            }
        }
    }

    private void pair(int pad, int other) {
        others.computeIfAbsent(pad, p -> new IntAVLTreeSet()).add(other);
    }

    /** The pairs of a fabric; worked out once, in O(pads). */
    public static PadPairs of(Fabric fabric) {
        return fabric.derived().get(PadPairs.class, () -> new PadPairs(fabric.pads()));
    }

    /** The numbers of the pads that a pad names as its partner, or that name it; mostly one. */
    public IntSortedSet others(int pad) {
        return others.getOrDefault(pad, IntSortedSets.EMPTY_SET);
    }
}
