package padward.route.bound;

import it.unimi.dsi.fastutil.longs.Long2LongOpenHashMap;
import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.BitsetAdjacency;
import padward.fabric.pattern.PatternFabric;

/**
 * An abstraction of a fabric: vertices that are alike (wires of one kind and span, pins of one name
 * on one kind of site, pads) form a group, and between two groups there are steps, each a distance
 * in tiles and the least delay of all edges that make that step. Every edge of the fabric is one of
 * the steps, so the least delay over steps is never more than the least over edges.
 *
 * <p>For a pattern fabric one tile per template is looked at, for others every vertex.
 */
final class WireGroups {
    /** With more groups than this the fabric has too little order for them to be useful. */
    static final int MOST_GROUPS = 1024;

    /** A step between groups, in tiles, from where one begins to where the other begins. */
    record Step(int from, int to, int dx, int dy, int fastPs, int slowPs) {
        int delayPs(Corner corner) {
            return corner == Corner.FAST ? fastPs : slowPs;
        }
    }

    /**
     * Where a vertex's data stands in an array: at its row of the masked edges, which alike
     * vertices of a pattern share, or at the vertex itself.
     */
    @FunctionalInterface
    interface VertexPlaces {
        int placeOf(int tile, int vertex);
    }

    private static final int VERTICES_BETWEEN_CHECKS = 1 << 12;

    /** Bits of a step's key for a group, and for a distance, which may be negative. */
    private static final int GROUP_BITS = 10;

    private static final int DISTANCE_BITS = 16;

    private static final long UNKNOWN = -1;

    private final Object2IntOpenHashMap<String> numbers = new Object2IntOpenHashMap<>();
    private final List<Boolean> isWire = new ArrayList<>();
    private final List<Boolean> isPad = new ArrayList<>();
    private final List<int[]> span = new ArrayList<>();
    private final short[] groupOfPlace;
    private int longestPs;

    private final VertexPlaces places;

    private final List<Step> steps;

    /**
     * Finds the groups of a fabric.
     *
     * @throws CancellationException when {@code progress} says so
     */
    WireGroups(Fabric fabric, Progress progress) {
        numbers.defaultReturnValue(Fabric.NOTHING);
        progress.report(-1, "finding the kinds of wire");
        // By step the least delays, fast and slow.
        Long2LongOpenHashMap delays = new Long2LongOpenHashMap();
        delays.defaultReturnValue(UNKNOWN);
        EdgeCursor edges = fabric.edgesOut();
        if (fabric instanceof PatternFabric pattern) {
            BitsetAdjacency rows = pattern.maskedEdges();
            places = rows::row;
            groupOfPlace = new short[rows.rowCount()];
            for (int tile : rows.sampleTiles()) {
                progress.check();
                int end = rows.vertexBase[tile + 1];
                for (int v = rows.vertexBase[tile]; v < end; v++) {
                    groupOfPlace[rows.row(tile, v)] = (short) group(fabric, v);
                }
            }
            for (int tile : rows.sampleTiles()) {
                progress.check();
                int end = rows.vertexBase[tile + 1];
                for (int v = rows.vertexBase[tile]; v < end; v++) {
                    addSteps(fabric, edges, tile, v, delays);
                }
            }
        } else {
            places = (tile, vertex) -> vertex;
            groupOfPlace = new short[fabric.vertexCount()];
            for (int v = 0; v < groupOfPlace.length; v++) {
                if (v % VERTICES_BETWEEN_CHECKS == 0) {
                    progress.check();
                }
                groupOfPlace[v] = (short) group(fabric, v);
            }
            for (int v = 0; v < groupOfPlace.length; v++) {
                if (v % VERTICES_BETWEEN_CHECKS == 0) {
                    progress.check();
                }
                addSteps(fabric, edges, fabric.tile(v), v, delays);
            }
        }
        List<Step> found = new ArrayList<>(delays.size());
        delays.long2LongEntrySet()
                .fastForEach(e -> found.add(step(e.getLongKey(), e.getLongValue())));
        steps = List.copyOf(found);
    }

    private static long key(int from, int to, int dx, int dy) {
        long groups = (long) from << GROUP_BITS | to;
        long withColumns = groups << DISTANCE_BITS | dx & 0xffff;
        return withColumns << DISTANCE_BITS | dy & 0xffff;
    }

    private static Step step(long key, long delays) {
        int groups = (int) (key >>> 2 * DISTANCE_BITS);
        return new Step(
                groups >>> GROUP_BITS,
                groups & (1 << GROUP_BITS) - 1,
                (short) (key >>> DISTANCE_BITS),
                (short) key,
                (int) (delays >>> Integer.SIZE),
                (int) delays);
    }

    /** Adds the steps of a vertex's edges. The groups of all vertices are known. */
    private void addSteps(
            Fabric fabric, EdgeCursor edges, int tile, int vertex, Long2LongOpenHashMap delays) {
        int group = groupOfPlace[places.placeOf(tile, vertex)];
        edges.reset(vertex);
        while (edges.next()) {
            int other = fabric.tile(edges.other());
            long key =
                    key(
                            group,
                            groupOfPlace[places.placeOf(other, edges.other())],
                            fabric.column(other) - fabric.column(tile),
                            fabric.row(other) - fabric.row(tile));
            int fast = edges.delayPs(Corner.FAST);
            int slow = edges.delayPs(Corner.SLOW);
            longestPs = Math.max(longestPs, slow);
            long known = delays.get(key);
            if (known != UNKNOWN) {
                fast = Math.min(fast, (int) (known >>> Integer.SIZE));
                slow = Math.min(slow, (int) known);
            }
            delays.put(key, (long) fast << Integer.SIZE | slow);
        }
    }

    private int group(Fabric fabric, int vertex) {
        VertexKind kind = fabric.kind(vertex);
        int tile = fabric.tile(vertex);
        int head = fabric.headTile(vertex);
        int dx = fabric.column(head) - fabric.column(tile);
        int dy = fabric.row(head) - fabric.row(tile);
        String name =
                switch (kind) {
                    case WIRE -> "w " + fabric.wireKind(vertex) + " " + dx + " " + dy;
                    case PIN -> "p " + pinName(fabric, vertex);
                    case PAD -> "pad";
                };
        int number = numbers.getInt(name);
        if (number == Fabric.NOTHING) {
            if (numbers.size() == MOST_GROUPS) {
                return MOST_GROUPS - 1;
            }
            number = numbers.size();
            numbers.put(name, number);
            isWire.add(kind == VertexKind.WIRE);
            isPad.add(kind == VertexKind.PAD);
            span.add(new int[] {dx, dy});
        }
        return number;
    }

    private static String pinName(Fabric fabric, int vertex) {
        SiteView site = fabric.site(fabric.siteOf(vertex));
        String pin = site.pins().get(vertex - site.firstPin()).name();
        int bracket = pin.indexOf('[');
        return site.kind() + " " + (bracket < 0 ? pin : pin.substring(0, bracket));
    }

    /** Number of groups; {@link #MOST_GROUPS} when there may be more, and none of them is sound. */
    int count() {
        return numbers.size();
    }

    /** Whether the groups distinguish vertices by what they are. */
    boolean areSound() {
        return count() < MOST_GROUPS;
    }

    boolean isWire(int group) {
        return isWire.get(group);
    }

    boolean isPad(int group) {
        return isPad.get(group);
    }

    /** Tiles from where a group's members begin to where they end, x then y. */
    int[] span(int group) {
        return span.get(group);
    }

    List<Step> steps() {
        return steps;
    }

    /** How vertices are numbered for {@link #groupAt}. */
    VertexPlaces places() {
        return places;
    }

    int groupAt(int place) {
        return groupOfPlace[place];
    }

    int placeCount() {
        return groupOfPlace.length;
    }

    /** The longest delay of any edge, picoseconds. */
    int longestPs() {
        return longestPs;
    }
}
