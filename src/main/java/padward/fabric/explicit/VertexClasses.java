package padward.fabric.explicit;

import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.io.IOException;
import java.util.List;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.array.ArrayGrowth;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.InternedRuns;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * What each vertex is, of which kind, and how far its end lies from its start. Tiles that agree in
 * all this share one run. 4 bytes a tile, 4 for each vertex of each different tile.
 */
final class VertexClasses {
    /**
     * What vertices of one sort have in common.
     *
     * @param kind what they are
     * @param wireKind their kind of wire, or an empty text
     * @param taps where they can be entered and left, relative to where they begin; empty for those
     *     of which only begin and end are known
     */
    record Sort(VertexKind kind, String wireKind, List<TapStep> taps) {
        Sort {
            taps = List.copyOf(taps);
        }

        Sort(VertexKind kind, String wireKind) {
            this(kind, wireKind, List.of());
        }
    }

    private final TileOffsets bases;
    private final List<Sort> sorts;
    private final int[] runOfTile;
    private final int[] pairOfPlace;

    /** For each pair of a sort and a step from start to end: the step, and the sort. */
    private final long[] pairs;

    /**
     * @param sorts all sorts
     * @param sortOf for each vertex as it was added the number of its sort
     * @param headOf for each the tile where it ends
     * @param order those vertices in the order in which they are numbered now
     */
    VertexClasses(List<Sort> sorts, int[] sortOf, int[] headOf, int[] order, TileOffsets bases) {
        this.bases = bases;
        this.sorts = sorts;
        Long2IntOpenHashMap known = new Long2IntOpenHashMap();
        known.defaultReturnValue(Fabric.NOTHING);
        LongArrayList all = new LongArrayList();
        InternedRuns runs = new InternedRuns();
        runOfTile = new int[bases.tiles()];
        int[] own = new int[16];
        for (int tile = 0; tile < runOfTile.length; tile++) {
            int size = bases.size(tile);
            own = ArrayGrowth.room(own, 0, size);
            for (int i = 0; i < size; i++) {
                int number = order[bases.first(tile) + i];
                long pair = (long) (headOf[number] - tile) << Integer.SIZE | sortOf[number];
                own[i] = known.get(pair);
                if (own[i] == Fabric.NOTHING) {
                    own[i] = all.size();
                    known.put(pair, own[i]);
                    all.add(pair);
                }
            }
            runOfTile[tile] = runs.intern(own, 0, size);
        }
        pairOfPlace = runs.toArray();
        pairs = all.toLongArray();
    }

    private VertexClasses(
            TileOffsets bases, List<Sort> sorts, int[] runOfTile, int[] pairOfPlace, long[] pairs) {
        this.bases = bases;
        this.sorts = sorts;
        this.runOfTile = runOfTile;
        this.pairOfPlace = pairOfPlace;
        this.pairs = pairs;
    }

    void write(CompactOut out) throws IOException {
        out.list(
                sorts,
                sort -> {
                    out.constant(sort.kind());
                    out.text(sort.wireKind());
                    out.list(
                            sort.taps(),
                            tap -> {
                                out.number(tap.tileStep());
                                out.number(tap.nameStep());
                                out.number(tap.rest());
                            });
                });
        out.longNumbers(pairs);
        out.numbers(pairOfPlace);
        out.numbers(runOfTile);
    }

    static VertexClasses read(CompactIn in, TileOffsets bases, InternedBytes pool)
            throws IOException {
        List<Sort> sorts =
                in.list(
                        () ->
                                new Sort(
                                        in.constant(VertexKind.class),
                                        in.text(),
                                        in.list(
                                                () ->
                                                        new TapStep(
                                                                in.number(),
                                                                in.number(),
                                                                in.number(
                                                                        Fabric.NOTHING,
                                                                        pool.size() - 1)))));
        long[] pairs = in.longNumbers();
        for (long pair : pairs) {
            Damaged.unless((int) pair >= 0 && (int) pair < sorts.size(), "a sort of vertex");
        }
        int[] pairOfPlace = in.numbers(0, pairs.length - 1);
        int[] runOfTile = in.numbers();
        bases.requireRuns(runOfTile, 1, pairOfPlace.length);
        VertexClasses result =
                new VertexClasses(bases, List.copyOf(sorts), runOfTile, pairOfPlace, pairs);
        result.requireTiles();
        return result;
    }

    /** Requires that each vertex ends, and can be entered, in tiles that there are. */
    private void requireTiles() throws Damaged {
        int[] least = new int[pairs.length];
        int[] most = new int[pairs.length];
        for (int pair = 0; pair < least.length; pair++) {
            int head = (int) (pairs[pair] >> Integer.SIZE);
            least[pair] = Math.min(0, head);
            most[pair] = Math.max(0, head);
            for (TapStep tap : sorts.get((int) pairs[pair]).taps()) {
                least[pair] = Math.min(least[pair], Math.min(tap.tileStep(), tap.nameStep()));
                most[pair] = Math.max(most[pair], Math.max(tap.tileStep(), tap.nameStep()));
            }
        }
        int[] tileByRun = bases.tilesByRun(runOfTile, pairOfPlace.length);
        int[] leastOfTile = new int[tileByRun.length];
        int[] mostOfTile = new int[tileByRun.length];
        for (int tile = 0; tile < tileByRun.length; tile++) {
            int known = tileByRun[tile];
            for (int i = 0; known == tile && i < bases.size(tile); i++) {
                int pair = pairOfPlace[runOfTile[tile] + i];
                leastOfTile[tile] = Math.min(leastOfTile[tile], least[pair]);
                mostOfTile[tile] = Math.max(mostOfTile[tile], most[pair]);
            }
            Damaged.unless(
                    (long) tile + leastOfTile[known] >= 0
                            && (long) tile + mostOfTile[known] < tileByRun.length,
                    "a tile of a wire");
        }
    }

    private long pair(int tile, int vertex) {
        return pairs[pairOfPlace[runOfTile[tile] + vertex - bases.first(tile)]];
    }

    VertexKind kind(int vertex) {
        return sorts.get((int) pair(bases.tileOf(vertex), vertex)).kind();
    }

    String wireKind(int vertex) {
        return sorts.get((int) pair(bases.tileOf(vertex), vertex)).wireKind();
    }

    /** The listed taps of a vertex, empty when none are. */
    List<TapStep> taps(int vertex) {
        return sorts.get((int) pair(bases.tileOf(vertex), vertex)).taps();
    }

    int headTile(int vertex) {
        int tile = bases.tileOf(vertex);
        return tile + (int) (pair(tile, vertex) >> Integer.SIZE);
    }

    /** Bytes of the arrays, without the bases. */
    long memory() {
        return 4L * (runOfTile.length + pairOfPlace.length) + 8L * pairs.length;
    }
}
