package padward.ui.design;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntRBTreeSet;
import it.unimi.dsi.fastutil.ints.IntSortedSet;
import java.util.BitSet;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import padward.fabric.Fabric;

/**
 * How a wire with taps runs over the grid: along rows and columns, from tap to tap in their order,
 * or where that is shorter, as a spine along one column or row with ribs across it, as wires that
 * spread over the whole chip are built. The places that it passes form a tree, with the first tap
 * as its root. O(taps) memory; made when needed.
 */
final class WirePath {
    private static final int NONE = -1;
    private static final int SEVERAL = -2;

    private final Fabric fabric;
    private final IntArrayList tiles = new IntArrayList();
    private final IntArrayList parents = new IntArrayList();
    private final BitSet alongRow = new BitSet();
    private final BitSet alongColumn = new BitSet();

    /** For each place the only one next to it, {@link #NONE} or {@link #SEVERAL}. */
    private final IntArrayList neighbour = new IntArrayList();

    private WirePath(Fabric fabric, int root) {
        this.fabric = fabric;
        tiles.add(root);
        parents.add(Fabric.NOTHING);
        neighbour.add(NONE);
    }

    /** The path over some taps, the shortest of the three kinds. */
    static WirePath of(Fabric fabric, int[] taps) {
        WirePath best = alongTaps(fabric, taps);
        if (taps.length > 2) {
            for (boolean upright : new boolean[] {true, false}) {
                WirePath other = withSpine(fabric, taps, upright);
                best = other.length() < best.length() ? other : best;
            }
        }
        return best;
    }

    private static WirePath alongTaps(Fabric fabric, int[] taps) {
        WirePath path = new WirePath(fabric, taps[0]);
        int last = 0;
        for (int tap : taps) {
            last = path.goTo(last, tap);
        }
        return path;
    }

    private static WirePath withSpine(Fabric fabric, int[] taps, boolean upright) {
        WirePath path = new WirePath(fabric, taps[0]);
        TreeMap<Integer, IntSortedSet> ribs = new TreeMap<>();
        for (int tap : taps) {
            int along = upright ? fabric.row(tap) : fabric.column(tap);
            int across = upright ? fabric.column(tap) : fabric.row(tap);
            ribs.computeIfAbsent(along, a -> new IntRBTreeSet()).add(across);
        }
        int spine = upright ? fabric.column(taps[0]) : fabric.row(taps[0]);
        int start = upright ? fabric.row(taps[0]) : fabric.column(taps[0]);
        for (SortedMap<Integer, IntSortedSet> half :
                List.of(ribs.tailMap(start, true), ribs.headMap(start, false).descendingMap())) {
            int last = 0;
            for (var rib : half.entrySet()) {
                last = path.goTo(last, path.tile(rib.getKey(), spine, upright));
                int onRib = last;
                for (int across : rib.getValue().tailSet(spine)) {
                    onRib = path.goTo(onRib, path.tile(rib.getKey(), across, upright));
                }
                onRib = last;
                IntSortedSet before = rib.getValue().headSet(spine);
                while (!before.isEmpty()) {
                    onRib = path.goTo(onRib, path.tile(rib.getKey(), before.lastInt(), upright));
                    before = before.headSet(before.lastInt());
                }
            }
        }
        return path;
    }

    private int tile(int along, int across, boolean upright) {
        int row = upright ? along : across;
        int column = upright ? across : along;
        return row * fabric.columns() + column;
    }

    /** Adds legs from a place to a tile, along its row first; the place of that tile. */
    private int goTo(int place, int tile) {
        int known = tiles.indexOf(tile);
        if (known >= 0) {
            return known;
        }
        int from = tiles.getInt(place);
        boolean bends =
                fabric.row(from) != fabric.row(tile) && fabric.column(from) != fabric.column(tile);
        int before =
                bends
                        ? goTo(place, fabric.row(from) * fabric.columns() + fabric.column(tile))
                        : place;
        tiles.add(tile);
        parents.add(before);
        int added = tiles.size() - 1;
        neighbour.add(before);
        neighbour.set(before, neighbour.getInt(before) == NONE ? added : SEVERAL);
        BitSet runs = fabric.row(tile) == fabric.row(tile(before)) ? alongRow : alongColumn;
        runs.set(added);
        runs.set(before);
        return added;
    }

    private long length() {
        long result = 0;
        for (int place = 1; place < size(); place++) {
            int from = tile(parent(place));
            result +=
                    Math.abs(fabric.column(tile(place)) - fabric.column(from))
                            + Math.abs(fabric.row(tile(place)) - fabric.row(from));
        }
        return result;
    }

    /** Number of places; each but the first is joined to its parent by a straight leg. */
    int size() {
        return tiles.size();
    }

    /** The tile of a place. */
    int tile(int place) {
        return tiles.getInt(place);
    }

    /** The place before another, seen from the first tap. */
    int parent(int place) {
        return parents.getInt(place);
    }

    /** The place in a tile, or {@link Fabric#NOTHING}. */
    int placeIn(int tile) {
        return tiles.indexOf(tile);
    }

    /** Whether some leg at a place runs along its row. */
    boolean runsAlongRow(int place) {
        return alongRow.get(place);
    }

    /** Whether some leg at a place runs along its column. */
    boolean runsAlongColumn(int place) {
        return alongColumn.get(place);
    }

    /** The place next to one at which the wire ends, else {@link Fabric#NOTHING}. */
    int onlyNeighbour(int place) {
        int found = neighbour.getInt(place);
        return found < 0 ? Fabric.NOTHING : found;
    }

    /** The places from one to another along the wire, both included. */
    int[] between(int from, int to) {
        IntArrayList up = new IntArrayList();
        for (int at = from; at != Fabric.NOTHING; at = parent(at)) {
            up.add(at);
        }
        IntArrayList down = new IntArrayList();
        int meet = to;
        while (up.indexOf(meet) < 0) {
            down.add(meet);
            meet = parent(meet);
        }
        up.size(up.indexOf(meet) + 1);
        for (int i = down.size() - 1; i >= 0; i--) {
            up.add(down.getInt(i));
        }
        return up.toIntArray();
    }
}
