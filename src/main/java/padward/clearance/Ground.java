package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntIterable;
import it.unimi.dsi.fastutil.ints.IntIterator;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import padward.design.Occupancy;
import padward.route.Barrier;

/**
 * Which vertices are taken while moves are tried, as differences from the design's occupancy. Can
 * be copied, so that a move that fails leaves no traces.
 */
final class Ground {
    private final Occupancy occupancy;
    private IntSet different;

    /** Vertices that the new way will take; nothing may be laid there. */
    private IntSet reserved;

    /** Vertices that moves have laid something on. */
    private IntSet laid;

    /** Numbers of nets that have been laid anew, and are not to be moved again. */
    private IntSet moved;

    private Ground(
            Occupancy occupancy, IntSet different, IntSet reserved, IntSet laid, IntSet moved) {
        this.occupancy = occupancy;
        this.different = different;
        this.reserved = reserved;
        this.laid = laid;
        this.moved = moved;
    }

    Ground(Occupancy occupancy) {
        this(
                occupancy,
                new IntOpenHashSet(),
                new IntOpenHashSet(),
                new IntOpenHashSet(),
                new IntOpenHashSet());
    }

    Ground copy() {
        return new Ground(
                occupancy,
                new IntOpenHashSet(different),
                new IntOpenHashSet(reserved),
                new IntOpenHashSet(laid),
                new IntOpenHashSet(moved));
    }

    boolean wasMoved(int net) {
        return moved.contains(net);
    }

    void noteMoved(int net) {
        moved.add(net);
    }

    /** Takes over the state of a copy on which all went well; the copy is not to be used again. */
    void become(Ground copy) {
        different = copy.different;
        reserved = copy.reserved;
        laid = copy.laid;
        moved = copy.moved;
    }

    boolean isTaken(int vertex) {
        return occupancy.isOccupied(vertex) != different.contains(vertex);
    }

    void take(int vertex) {
        if (!isTaken(vertex)) {
            flip(vertex);
        }
    }

    void takeAll(IntIterable vertices) {
        for (IntIterator i = vertices.iterator(); i.hasNext(); ) {
            take(i.nextInt());
        }
    }

    /** Lays something on a vertex. */
    void lay(int vertex) {
        take(vertex);
        laid.add(vertex);
    }

    /** Gives a vertex back, unless the new way needs it. */
    void release(int vertex) {
        laid.remove(vertex);
        if (isTaken(vertex) && !reserved.contains(vertex)) {
            flip(vertex);
        }
    }

    /** Takes a vertex for the new way. */
    void reserve(int vertex) {
        take(vertex);
        reserved.add(vertex);
    }

    boolean isReserved(int vertex) {
        return reserved.contains(vertex);
    }

    /** Whether something new is there, which must not be moved again. */
    boolean isNew(int vertex) {
        return reserved.contains(vertex) || laid.contains(vertex);
    }

    /** Adds all vertices on which something new is. */
    void newVertices(IntSet result) {
        result.addAll(reserved);
        result.addAll(laid);
    }

    private void flip(int vertex) {
        if (!different.remove(vertex)) {
            different.add(vertex);
        }
    }

    /** What is taken, except for one vertex, which a search shall be able to enter. */
    Barrier takenBut(int vertex) {
        IntSet all = new IntOpenHashSet(different);
        if (isTaken(vertex) && !all.remove(vertex)) {
            all.add(vertex);
        }
        return new Barrier(occupancy.bits(), all);
    }
}
