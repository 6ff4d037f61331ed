package padward.place;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.fabric.Fabric;

/**
 * Where blocks can be placed. Spots are numbered: sites first, then pads. Spots that the same
 * groups of blocks can use form a class. Immutable once built.
 */
final class PlacementSites {
    private final Fabric fabric;
    private final int siteCount;
    private final int[] classOfSpot;
    private final List<BitSet> groupsOfClass = new ArrayList<>();

    /** Whether blocks of a group can use a spot. */
    interface Accepts {
        boolean test(int group, int spot);
    }

    /**
     * @param groups number of groups of blocks
     * @param accepts which spots each can use
     */
    PlacementSites(Fabric fabric, int groups, Accepts accepts) {
        this.fabric = fabric;
        this.siteCount = fabric.siteCount();
        this.classOfSpot = new int[siteCount + fabric.pads().size()];
        Map<BitSet, Integer> known = new HashMap<>();
        for (int spot = 0; spot < classOfSpot.length; spot++) {
            BitSet own = new BitSet(groups);
            for (int g = 0; g < groups; g++) {
                own.set(g, accepts.test(g, spot));
            }
            Integer number = known.get(own);
            if (number == null) {
                number = groupsOfClass.size();
                known.put(own, number);
                groupsOfClass.add(own);
            }
            classOfSpot[spot] = number;
        }
    }

    int count() {
        return classOfSpot.length;
    }

    boolean isPad(int spot) {
        return spot >= siteCount;
    }

    /** The index of a spot's pad. */
    int pad(int spot) {
        return spot - siteCount;
    }

    int spotOfPad(int pad) {
        return siteCount + pad;
    }

    int tile(int spot) {
        return isPad(spot) ? fabric.pads().get(pad(spot)).tile() : fabric.site(spot).tile();
    }

    int classCount() {
        return groupsOfClass.size();
    }

    int classOf(int spot) {
        return classOfSpot[spot];
    }

    /** Whether blocks of a group can use the spots of a class. */
    boolean classAccepts(int spotClass, int group) {
        return groupsOfClass.get(spotClass).get(group);
    }

    boolean accepts(int spot, int group) {
        return classAccepts(classOfSpot[spot], group);
    }
}
