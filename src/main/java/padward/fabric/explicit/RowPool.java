package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.IntArrays;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.Arrays;
import padward.fabric.DelayClasses;
import padward.fabric.Fabric;
import padward.fabric.array.ArrayGrowth;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.InternedRuns;
import padward.fabric.array.PagedBytes;
import padward.fabric.array.RowNumbers;

/**
 * Makes rows of edges. An edge in a row is where it leads, relative to where it begins: the step in
 * tiles with the delay class, of which there are few pairs (a <em>lane</em>), and the step in the
 * vertices' places in their tiles; two or three bytes for most. Lanes that are used most have short
 * numbers. Where a fabric has many lanes, those beyond some thousands are written out, behind the
 * number 0. Rows of repeated tiles are the same bytes, kept once.
 */
final class RowPool {
    /** Of an edge: four numbers of up to five bytes. */
    private static final int MOST_BYTES = 20;

    /** Lanes with numbers of their own, so that these take two bytes at most. */
    private static final int MOST_LANES = 1 << 14;

    private static final int LOW_BITS = 7;
    private static final int MORE = 1 << LOW_BITS;

    private final TileOffsets bases;
    private final InternedBytes rows = new InternedBytes();
    private final Long2IntOpenHashMap laneByKey = new Long2IntOpenHashMap();
    private final LongArrayList lanes = new LongArrayList();
    private final int[] rowOfVertex;
    private byte[] row = new byte[256];

    RowPool(TileOffsets bases) {
        this.bases = bases;
        this.rowOfVertex = new int[bases.count()];
        laneByKey.defaultReturnValue(Fabric.NOTHING);
        lanes.add(0); // lane 0: written out
        rows.intern(row, 0); // row 0: of vertices without edges
    }

    /**
     * Gives a vertex its edges.
     *
     * @param ends for each edge the vertex at its other end
     * @param classes their delay classes
     */
    void set(int vertex, int[] ends, int[] classes, int start, int end) {
        int own = bases.tileOf(vertex);
        int ownPlace = vertex - bases.first(own);
        row = ArrayGrowth.room(row, 0, Math.multiplyExact(end - start, MOST_BYTES));
        int length = 0;
        int tile = own;
        for (int i = start; i < end; i++) {
            int other = ends[i];
            if (other < bases.first(tile) || other >= bases.first(tile + 1)) {
                tile = bases.tileOf(other);
            }
            int lane = lane(tile - own, classes[i]);
            length = put(length, lane);
            if (lane == 0) {
                length = put(length, PagedBytes.fold(tile - own));
                length = put(length, classes[i]);
            }
            length = put(length, PagedBytes.fold(other - bases.first(tile) - ownPlace));
        }
        rowOfVertex[vertex] = rows.intern(row, length);
    }

    private int put(int at, int number) {
        int length = at;
        int rest = number;
        while ((rest & -MORE) != 0) {
            row[length++] = (byte) (rest | MORE);
            rest >>>= LOW_BITS;
        }
        row[length++] = (byte) rest;
        return length;
    }

    private int lane(int step, int edgeClass) {
        long key = (long) step << Integer.SIZE | edgeClass;
        int lane = laneByKey.get(key);
        if (lane == Fabric.NOTHING) {
            if (lanes.size() == MOST_LANES) {
                return 0;
            }
            lane = lanes.size();
            laneByKey.put(key, lane);
            lanes.add(key);
        }
        return lane;
    }

    /** The same rows under the same numbers, with short numbers for the lanes of most edges. */
    private InternedBytes withShortLanes() {
        if (lanes.size() <= MORE) {
            return rows;
        }
        int[] uses = new int[lanes.size()];
        for (int row = 0; row < rows.size(); row++) {
            for (Edges edges = new Edges(row); edges.next(); ) {
                uses[edges.lane]++;
            }
        }
        int[] byUse = new int[uses.length];
        Arrays.setAll(byUse, lane -> lane);
        IntArrays.mergeSort(byUse, 1, byUse.length, (a, b) -> Integer.compare(uses[b], uses[a]));
        int[] number = new int[uses.length];
        long[] keys = lanes.toLongArray();
        for (int lane = 1; lane < number.length; lane++) {
            number[byUse[lane]] = lane;
            lanes.set(lane, keys[byUse[lane]]);
        }
        InternedBytes result = new InternedBytes();
        for (int own = 0; own < rows.size(); own++) {
            // an edge has two bytes at least, and a lane two at most
            row = ArrayGrowth.room(row, 0, Math.multiplyExact(2, rows.end(own) - rows.start(own)));
            int length = 0;
            for (Edges edges = new Edges(own); edges.next(); ) {
                length = put(length, number[edges.lane]);
                System.arraycopy(rows.bytes(), edges.rest, row, length, edges.at - edges.rest);
                length += edges.at - edges.rest;
            }
            result.intern(row, length);
        }
        return result;
    }

    /** Walks over the edges of a row. */
    private final class Edges {
        private final byte[] bytes = rows.bytes();
        private final int end;
        private int lane;

        /** Behind the lane. */
        private int rest;

        /** Behind the edge. */
        private int at;

        Edges(int row) {
            at = rows.start(row);
            end = rows.end(row);
        }

        boolean next() {
            if (at == end) {
                return false;
            }
            rest = behind(at);
            lane = PagedBytes.number(bytes, at, rest);
            at = behind(lane == 0 ? behind(behind(rest)) : rest);
            return true;
        }

        private int behind(int start) {
            int last = start;
            while (bytes[last] < 0) {
                last++;
            }
            return last + 1;
        }
    }

    /** The rows of all vertices, finished. */
    EdgeRows freeze(DelayClasses classes) {
        InternedBytes kept = withShortLanes();
        kept.trim(false);
        int[] runOfTile = new int[bases.tiles()];
        InternedRuns runs = new InternedRuns();
        for (int tile = 0; tile < runOfTile.length; tile++) {
            runOfTile[tile] = runs.intern(rowOfVertex, bases.first(tile), bases.size(tile));
        }
        int[] steps = lanes.longStream().mapToInt(k -> (int) (k >> Integer.SIZE)).toArray();
        int[] kinds = lanes.longStream().mapToInt(k -> (int) k).toArray();
        RowNumbers numbers = new RowNumbers(runs.toArray(), kept.size());
        return new EdgeRows(bases, classes, runOfTile, numbers, kept, steps, kinds);
    }
}
