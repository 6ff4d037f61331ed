package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.IntIterable;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import padward.design.Occupancy;
import padward.fabric.SwitchGroups;
import padward.route.cost.BlockedVertices;
import padward.route.cost.BlockedVerticesDraft;

/**
 * Which vertices are taken while moves are tried, and which of them by what is new. Can be copied,
 * so that a move that fails leaves no traces.
 */
public final class OccupancyOverlay {
    private BlockedVerticesDraft taken;

    /** Vertices that the new route will take; nothing may be routed there. */
    private IntSet reserved;

    /** Vertices that moves have put something on. */
    private IntSet routed;

    /** Numbers of nets that have been rerouted, and are not to be moved again. */
    private IntSet moved;

    /** Pins at which ends of nets are now that were at pins like them. */
    private IntSet ends;

    private SwitchOverlay switches;

    private OccupancyOverlay(
            BlockedVerticesDraft taken,
            IntSet reserved,
            IntSet routed,
            IntSet moved,
            IntSet ends,
            SwitchOverlay switches) {
        this.taken = taken;
        this.reserved = reserved;
        this.routed = routed;
        this.moved = moved;
        this.ends = ends;
        this.switches = switches;
    }

    OccupancyOverlay(Occupancy occupancy, SwitchGroups groups) {
        this(
                BlockedVerticesDraft.of(occupancy),
                new IntOpenHashSet(),
                new IntOpenHashSet(),
                new IntOpenHashSet(),
                new IntOpenHashSet(),
                new SwitchOverlay(groups, occupancy));
    }

    /** Which switches of groups are on. */
    SwitchOverlay switches() {
        return switches;
    }

    OccupancyOverlay copy() {
        return new OccupancyOverlay(
                taken.copy(),
                new IntOpenHashSet(reserved),
                new IntOpenHashSet(routed),
                new IntOpenHashSet(moved),
                new IntOpenHashSet(ends),
                switches.copy());
    }

    boolean wasMoved(int net) {
        return moved.contains(net);
    }

    void noteMoved(int net) {
        moved.add(net);
    }

    /** Whether an end of a net went to a pin. */
    boolean isNewEnd(int pin) {
        return ends.contains(pin);
    }

    void noteNewEnd(int pin) {
        ends.add(pin);
    }

    /** Takes over the state of a copy on which all went well; the copy is not to be used again. */
    void become(OccupancyOverlay copy) {
        taken = copy.taken;
        reserved = copy.reserved;
        routed = copy.routed;
        moved = copy.moved;
        ends = copy.ends;
        switches = copy.switches;
    }

    boolean isTaken(int vertex) {
        return taken.isBlocked(vertex);
    }

    void take(int vertex) {
        taken.block(vertex);
    }

    void takeAll(IntIterable vertices) {
        taken.blockAll(vertices);
    }

    /** Puts something on a vertex. */
    void route(int vertex) {
        take(vertex);
        routed.add(vertex);
    }

    /** Makes a vertex free again, unless the new route needs it. */
    void release(int vertex) {
        routed.remove(vertex);
        if (!reserved.contains(vertex)) {
            taken.free(vertex);
        }
    }

    /** Reserves a vertex for the new route. */
    void reserve(int vertex) {
        take(vertex);
        reserved.add(vertex);
    }

    boolean isReserved(int vertex) {
        return reserved.contains(vertex);
    }

    /** Whether something new is there, which must not be moved again. */
    boolean isNew(int vertex) {
        return reserved.contains(vertex) || routed.contains(vertex);
    }

    /** Adds all vertices on which something new is. */
    void newVertices(IntSet result) {
        result.addAll(reserved);
        result.addAll(routed);
    }

    /** What is taken, except for one vertex, which a search must be able to enter. */
    BlockedVertices takenBut(int vertex) {
        BlockedVerticesDraft others = taken.copy();
        others.free(vertex);
        return others.toVertices();
    }
}
