package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.Int2LongOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.longs.LongOpenHashSet;
import it.unimi.dsi.fastutil.longs.LongSet;
import java.util.Optional;
import padward.design.Net;
import padward.design.Occupancy;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.route.cost.CostModel;
import padward.route.cost.SwitchRule;
import padward.route.cost.SwitchRuleCost;

/**
 * Which switches of groups are on while moves are tried, as differences from a design. O(1) where
 * the fabric has no groups.
 */
final class SwitchOverlay {
    /** What excludes a switch: nothing. */
    static final int NOBODY = -1;

    /** What excludes a switch: a new route, which is not to be moved again. */
    static final int NEW_ROUTE = -2;

    private final SwitchGroups groups;
    private final Occupancy occupancy;

    /** For each group of which a new route has a switch on: that switch. */
    private final Int2LongOpenHashMap on;

    /** Groups of which that route is not to be rerouted. */
    private final IntSet reserved;

    /** Switches that the design has on, and that were given back. */
    private final LongSet off;

    private SwitchOverlay(
            SwitchGroups groups,
            Occupancy occupancy,
            Int2LongOpenHashMap on,
            IntSet reserved,
            LongSet off) {
        this.groups = groups;
        this.occupancy = occupancy;
        this.on = on;
        this.reserved = reserved;
        this.off = off;
    }

    SwitchOverlay(SwitchGroups groups, Occupancy occupancy) {
        this(
                groups,
                occupancy,
                new Int2LongOpenHashMap(),
                new IntOpenHashSet(),
                new LongOpenHashSet());
    }

    SwitchOverlay copy() {
        return groups.isEmpty()
                ? this
                : new SwitchOverlay(
                        groups,
                        occupancy,
                        new Int2LongOpenHashMap(on),
                        new IntOpenHashSet(reserved),
                        new LongOpenHashSet(off));
    }

    /** Notes a step of a new route. */
    void turnOn(int from, int to) {
        int group = groups.groupOf(from, to);
        if (group != Fabric.NOTHING) {
            on.put(group, EdgeKey.of(from, to));
        }
    }

    /** Notes a step that others have to keep clear of. */
    void reserve(int from, int to) {
        turnOn(from, to);
        int group = groups.groupOf(from, to);
        if (group != Fabric.NOTHING) {
            reserved.add(group);
        }
    }

    /** Notes a step of the design that is given back. */
    void turnOff(int from, int to) {
        if (groups.groupOf(from, to) != Fabric.NOTHING) {
            off.add(EdgeKey.of(from, to));
        }
    }

    /** Whether a step is excluded by one that others have to keep clear of. */
    boolean isReservedAgainst(int from, int to) {
        int group = groups.groupOf(from, to);
        return group != Fabric.NOTHING
                && reserved.contains(group)
                && on.get(group) != EdgeKey.of(from, to);
    }

    /** What excludes a step: the number of a net of the design, or one of the two others. */
    int excluding(int from, int to) {
        int group = groups.groupOf(from, to);
        if (group == Fabric.NOTHING) {
            return NOBODY;
        }
        long edge = EdgeKey.of(from, to);
        if (on.containsKey(group)) {
            return on.get(group) == edge ? NOBODY : NEW_ROUTE;
        }
        for (long other : groups.switches(group)) {
            if (other != edge && !off.contains(other)) {
                Optional<Net> net = occupancy.findNetOver(EdgeKey.from(other), EdgeKey.to(other));
                if (net.isPresent()) {
                    return net.get().id();
                }
            }
        }
        return NOBODY;
    }

    /** The costs of a model over switches that nothing excludes. */
    CostModel obeying(CostModel model) {
        return obeying(model, (from, to) -> excluding(from, to) == NOBODY ? 0 : CostModel.CLOSED);
    }

    /** The costs of a model with what a rule adds. */
    CostModel obeying(CostModel model, SwitchRule rule) {
        return groups.isEmpty() ? model : new SwitchRuleCost(model, rule);
    }
}
