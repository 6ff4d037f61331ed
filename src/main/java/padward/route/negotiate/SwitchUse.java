package padward.route.negotiate;

import it.unimi.dsi.fastutil.ints.Int2LongOpenHashMap;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import java.util.Collection;
import padward.design.RouteTree;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.route.cost.CostModel;
import padward.route.cost.SwitchRule;

/**
 * Which switches of groups the nets of a negotiation turn on. A group is shared like a vertex: nets
 * that turn on different switches of it overlap there, and pay for it round by round. Does nothing
 * where the fabric has no groups.
 */
final class SwitchUse {
    private final SwitchGroups groups;
    private final SwitchRule standing;
    private final Long2IntOpenHashMap usersOfSwitch = new Long2IntOpenHashMap();
    private final int[] usersOfGroup;
    private final int[] history;

    /**
     * @param standing what is excluded by nets that take no part
     */
    SwitchUse(Fabric fabric, SwitchRule standing) {
        this.groups = fabric.switchGroups();
        this.standing = standing;
        this.usersOfGroup = new int[groups.count()];
        this.history = new int[groups.count()];
    }

    /** Excludes what the switches of some trees exclude. O(their sizes), if there are groups. */
    static SwitchRule excludedBy(Fabric fabric, Collection<RouteTree> trees) {
        SwitchGroups groups = fabric.switchGroups();
        if (groups.isEmpty()) {
            return SwitchRule.NONE;
        }
        Int2LongOpenHashMap on = new Int2LongOpenHashMap();
        trees.forEach(t -> addTo(on, groups, t));
        return (from, to) -> isExcluded(on, groups, from, to) ? CostModel.CLOSED : 0;
    }

    private static void addTo(Int2LongOpenHashMap on, SwitchGroups groups, RouteTree tree) {
        for (int place = 1; place < tree.size(); place++) {
            int from = tree.vertex(tree.parent(place));
            int group = groups.groupOf(from, tree.vertex(place));
            if (group != Fabric.NOTHING) {
                on.put(group, EdgeKey.of(from, tree.vertex(place)));
            }
        }
    }

    private static boolean isExcluded(
            Int2LongOpenHashMap on, SwitchGroups groups, int from, int to) {
        int group = groups.groupOf(from, to);
        return group != Fabric.NOTHING
                && on.containsKey(group)
                && on.get(group) != EdgeKey.of(from, to);
    }

    boolean isNeeded() {
        return !groups.isEmpty();
    }

    /** Counts a tree in or out. */
    void use(RouteTree tree, int change) {
        for (int place = 1; isNeeded() && place < tree.size(); place++) {
            int from = tree.vertex(tree.parent(place));
            int group = groups.groupOf(from, tree.vertex(place));
            if (group != Fabric.NOTHING) {
                usersOfSwitch.addTo(EdgeKey.of(from, tree.vertex(place)), change);
                usersOfGroup[group] += change;
            }
        }
    }

    /** How many nets turn on other switches of a switch's group. */
    private int others(int group, int from, int to) {
        return usersOfGroup[group] - usersOfSwitch.get(EdgeKey.of(from, to));
    }

    /** Whether a tree that is counted in turns on a switch that another one excludes. */
    boolean overlaps(RouteTree tree) {
        for (int place = 1; isNeeded() && place < tree.size(); place++) {
            int from = tree.vertex(tree.parent(place));
            int group = groups.groupOf(from, tree.vertex(place));
            if (group != Fabric.NOTHING && others(group, from, tree.vertex(place)) > 0) {
                return true;
            }
        }
        return false;
    }

    /** Raises the history cost of each shared group; whether there was any. */
    boolean raiseHistory(int step) {
        boolean any = false;
        for (int group = 0; group < usersOfGroup.length; group++) {
            if (usersOfGroup[group] == 0) {
                continue;
            }
            long most = 0;
            for (long edge : groups.switches(group)) {
                most = Math.max(most, usersOfSwitch.get(edge));
            }
            if (usersOfGroup[group] > most) {
                history[group] += step;
                any = true;
            }
        }
        return any;
    }

    /**
     * What a net that is counted out pays for switches.
     *
     * @param tree its wires so far
     * @param step what one user adds to the history cost
     * @param presentFactor p for one other user, infinite when nothing may be shared
     */
    SwitchRule prices(RouteTree tree, int step, double presentFactor) {
        Int2LongOpenHashMap own = new Int2LongOpenHashMap();
        addTo(own, groups, tree);
        return (from, to) -> {
            int group = groups.groupOf(from, to);
            if (group == Fabric.NOTHING) {
                return 0;
            }
            boolean shut =
                    isExcluded(own, groups, from, to)
                            || standing.price(from, to) == CostModel.CLOSED;
            int others = others(group, from, to);
            if (shut || others > 0 && Double.isInfinite(presentFactor)) {
                return CostModel.CLOSED;
            }
            return others == 0
                    ? 0
                    : Math.round((history[group] + step) * (1 + others * presentFactor));
        };
    }
}
