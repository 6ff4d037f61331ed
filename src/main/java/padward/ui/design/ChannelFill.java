package padward.ui.design;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import padward.design.Occupancy;
import padward.fabric.Fabric;

/**
 * How full each tile is, and each of the two channels through it: the share of their wires that
 * nets use. A wire counts in every tile that it passes, including those of its two ends.
 */
public final class ChannelFill {
    private final Fabric fabric;
    private final TileIndex index;
    private final Counts counts;
    private final float[] whole;
    private final float[] across;
    private final float[] along;

    private ChannelFill(Fabric fabric, TileIndex index, Counts counts) {
        this.fabric = fabric;
        this.index = index;
        this.counts = counts;
        int columns = fabric.columns();
        int rows = fabric.tileCount() / columns;
        whole = new float[fabric.tileCount()];
        for (int tile = 0; tile < whole.length; tile++) {
            int wires = counts.wires[tile];
            whole[tile] = wires == 0 ? 0 : (float) counts.used[tile] / wires;
        }
        across = counts.rows.shares(columns, rows);
        along = counts.columns.shares(rows, columns);
    }

    /** That of the design that was read. O(vertices + tiles). */
    static ChannelFill of(Fabric fabric, TileIndex index, Occupancy occupancy) {
        Counts counts = new Counts(fabric);
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            for (int i = index.first(tile); i < index.first(tile + 1); i++) {
                counts.add(index, index.vertex(i), occupancy.isUsed(index.vertex(i)));
            }
        }
        return new ChannelFill(fabric, index, counts);
    }

    /**
     * That of the same design after some edits. O(tiles + vertices that they occupy or free).
     *
     * @param then what the design uses that this is about
     */
    ChannelFill with(Occupancy then, Occupancy now) {
        Counts changed = counts.copy();
        IntOpenHashSet differing = new IntOpenHashSet(then.differing());
        differing.addAll(now.differing());
        differing.forEach(
                (int vertex) -> {
                    int more = (now.isUsed(vertex) ? 1 : 0) - (then.isUsed(vertex) ? 1 : 0);
                    changed.use(index, vertex, more);
                });
        return new ChannelFill(fabric, index, changed);
    }

    /** Share of the wires starting in a tile that are used, 0 to 1. */
    public float of(int tile) {
        return whole[tile];
    }

    /** Share of the wires along the row through a tile that are used, 0 to 1. */
    public float across(int tile) {
        return across[tile];
    }

    /** Share of the wires along the column through a tile that are used, 0 to 1. */
    public float along(int tile) {
        return along[tile];
    }

    /** Numbers of wires and of used wires, by tile. */
    private static final class Counts {
        private final Fabric fabric;
        private final int[] wires;
        private final int[] used;
        private final Passing rows;
        private final Passing columns;

        private Counts(Fabric fabric) {
            this(
                    fabric,
                    new int[fabric.tileCount()],
                    new int[fabric.tileCount()],
                    new Passing(fabric.tileCount(), 1),
                    new Passing(fabric.tileCount(), fabric.columns()));
        }

        private Counts(Fabric fabric, int[] wires, int[] used, Passing rows, Passing columns) {
            this.fabric = fabric;
            this.wires = wires;
            this.used = used;
            this.rows = rows;
            this.columns = columns;
        }

        /** With counts of used wires of its own; those of all wires are shared. */
        Counts copy() {
            return new Counts(fabric, wires, used.clone(), rows.copy(), columns.copy());
        }

        void add(TileIndex index, int vertex, boolean isUsed) {
            int head = index.head(vertex);
            if (head == Fabric.NOTHING) {
                return;
            }
            int tile = fabric.tile(vertex);
            wires[tile]++;
            if (isRow(tile, head)) {
                rows.add(tile, head);
            } else if (isColumn(tile, head)) {
                columns.add(tile, head);
            }
            use(index, vertex, isUsed ? 1 : 0);
        }

        /** Counts a vertex as used so many times more. */
        void use(TileIndex index, int vertex, int more) {
            int head = index.head(vertex);
            if (head == Fabric.NOTHING || more == 0) {
                return;
            }
            int tile = fabric.tile(vertex);
            used[tile] += more;
            if (isRow(tile, head)) {
                rows.use(tile, head, more);
            } else if (isColumn(tile, head)) {
                columns.use(tile, head, more);
            }
        }

        private boolean isRow(int tile, int head) {
            return head != tile && fabric.row(head) == fabric.row(tile);
        }

        private boolean isColumn(int tile, int head) {
            return head != tile && fabric.column(head) == fabric.column(tile);
        }
    }

    /** Counts wires at both of their ends and adds the counts up along the channel afterwards. */
    private static final class Passing {
        private final int step;
        private final int[] begin;
        private final int[] end;
        private final int[] usedBegin;
        private final int[] usedEnd;

        /**
         * @param step from one tile to the next of the same channel, as a difference of tile
         *     numbers
         */
        Passing(int tiles, int step) {
            this(step, new int[tiles], new int[tiles], new int[tiles], new int[tiles]);
        }

        private Passing(int step, int[] begin, int[] end, int[] usedBegin, int[] usedEnd) {
            this.step = step;
            this.begin = begin;
            this.end = end;
            this.usedBegin = usedBegin;
            this.usedEnd = usedEnd;
        }

        Passing copy() {
            return new Passing(step, begin, end, usedBegin.clone(), usedEnd.clone());
        }

        void add(int from, int to) {
            begin[Math.min(from, to)]++;
            end[Math.max(from, to)]++;
        }

        void use(int from, int to, int more) {
            usedBegin[Math.min(from, to)] += more;
            usedEnd[Math.max(from, to)] += more;
        }

        float[] shares(int length, int channels) {
            float[] result = new float[length * channels];
            for (int channel = 0; channel < channels; channel++) {
                int passing = 0;
                int used = 0;
                int tile = step == 1 ? channel * length : channel;
                for (int at = 0; at < length; at++, tile += step) {
                    passing += begin[tile];
                    used += usedBegin[tile];
                    result[tile] = passing == 0 ? 0 : (float) used / passing;
                    passing -= end[tile];
                    used -= usedEnd[tile];
                }
            }
            return result;
        }
    }
}
