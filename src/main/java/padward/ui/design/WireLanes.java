package padward.ui.design;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntArrays;
import java.util.Arrays;
import java.util.BitSet;
import java.util.stream.IntStream;
import padward.fabric.Fabric;

/**
 * The lane of its channel in which each wire is drawn, so that no two wires coincide. All wires
 * between boxes of one row share that row's channel, those of one column that column's. Within a
 * channel each wire, in the order of its lower end, takes the lowest lane that is free there: the
 * left-edge method of Hashimoto and Stevens ("Wire routing by optimizing channel assignment within
 * large apertures", Design Automation Workshop, 1971). A channel without wires that turn needs only
 * as many lanes as there are wires side by side at its fullest place. Two wires that meet at a box
 * may share a lane.
 *
 * <p>A wire that turns has a lane in each row and column that it follows ({@link BentLegs}), and
 * those of one bundle get lanes side by side, where there are any, in such an order that they do
 * not cross at the bend. For that they pass over lower lanes that are free, so that a channel may
 * need more lanes than at its fullest place.
 *
 * <p>Where a wire with taps runs is judged by these alone, wherever it begins ({@link TapLine}).
 * Wires that follow neither a row nor a column, and those that stay in their tile, get lanes by
 * their number.
 *
 * <p>O(vertices + taps) time, and for the n legs of each channel O(n log n) to sort them and O(n ×
 * lanes) at worst to find lanes side by side. 2 bytes a vertex are kept, {@link BentLegs} with 2
 * bytes a leg, and the number of each wire that runs beside the tile in which it begins.
 */
final class WireLanes {
    private static final int MOST = Short.MAX_VALUE;

    private final Fabric fabric;
    private final TileIndex index;
    private final short[] lanes;
    private final BentLegs bent;
    private final short[] bentLanes;

    /** Wires whose taps are all in one row or column in which they do not begin, by channel. */
    private final Int2ObjectOpenHashMap<IntArrayList> beside = new Int2ObjectOpenHashMap<>();

    private final int count;

    WireLanes(Fabric fabric, TileIndex index) {
        this.fabric = fabric;
        this.index = index;
        this.lanes = new short[fabric.vertexCount()];
        this.bent = new BentLegs(fabric, index);
        this.bentLanes = new short[bent.count()];
        listBeside();
        int rows =
                IntStream.range(0, fabric.rows()).parallel().map(this::assignRow).max().orElse(0);
        int columns =
                IntStream.range(0, fabric.columns())
                        .parallel()
                        .map(this::assignColumn)
                        .max()
                        .orElse(0);
        count = Math.max(1, Math.max(rows, columns));
    }

    /** The lane of a wire, from 0. */
    int of(int vertex) {
        return lanes[vertex];
    }

    /** The lane of a wire in the row, or the column, through a tile that it passes. */
    int of(int wire, int tile, boolean inRow) {
        int leg = bent.find(wire, bent.channel(tile, inRow));
        return leg == Fabric.NOTHING ? lanes[wire] : bentLanes[leg];
    }

    /** Number of lanes of the fullest channel. */
    int count() {
        return count;
    }

    private void listBeside() {
        for (int wire = 0; wire < fabric.vertexCount(); wire++) {
            TapLine line = index.isTapped(wire) ? line(wire) : TapLine.NONE;
            if (line.isStraight()) {
                boolean inRow = line == TapLine.ROW;
                int channel = bent.channel(fabric.tapTiles(wire)[0], inRow);
                if (channel != bent.channel(fabric.tile(wire), inRow)) {
                    beside.computeIfAbsent(channel, c -> new IntArrayList()).add(wire);
                }
            }
        }
    }

    private TapLine line(int wire) {
        return TapLine.of(fabric, fabric.tapTiles(wire));
    }

    /** Whether all taps of a wire are in one row or column, in several tiles of it. */
    private boolean isStraightIn(int channel, int wire) {
        boolean inRow = channel < fabric.rows();
        return line(wire) == (inRow ? TapLine.ROW : TapLine.COLUMN)
                && bent.channel(fabric.tapTiles(wire)[0], inRow) == channel;
    }

    private int assignRow(int row) {
        int columns = fabric.columns();
        Channel channel = new Channel(columns);
        for (int column = 0; column < columns; column++) {
            int tile = row * columns + column;
            for (int i = index.first(tile); i < index.first(tile + 1); i++) {
                int vertex = index.vertex(i);
                int head = index.head(vertex);
                if (head == Fabric.NOTHING) {
                    continue;
                }
                int to = fabric.column(head);
                if (index.isTapped(vertex)) {
                    if (isStraightIn(row, vertex)) {
                        channel.addTapped(vertex, true);
                    } else if (!line(vertex).isStraight()) {
                        lanes[vertex] = (short) ((i - index.first(tile)) % MOST);
                    }
                } else if (fabric.row(head) == row && to != column) {
                    channel.add(vertex, column, to);
                } else if (to != column || head == tile) {
                    lanes[vertex] = (short) ((i - index.first(tile)) % MOST);
                }
            }
        }
        return channel.assign(row);
    }

    private int assignColumn(int column) {
        int number = fabric.rows() + column;
        Channel channel = new Channel(fabric.rows());
        for (int row = 0; row < fabric.rows(); row++) {
            int tile = row * fabric.columns() + column;
            for (int i = index.first(tile); i < index.first(tile + 1); i++) {
                int vertex = index.vertex(i);
                int head = index.head(vertex);
                boolean along =
                        head != Fabric.NOTHING && head != tile && fabric.column(head) == column;
                if (head != Fabric.NOTHING && index.isTapped(vertex)) {
                    if (isStraightIn(number, vertex)) {
                        channel.addTapped(vertex, false);
                    }
                } else if (along) {
                    channel.add(vertex, row, fabric.row(head));
                }
            }
        }
        return channel.assign(number);
    }

    /**
     * The wires of one channel: first collected, then given lanes in the order of their lower ends.
     */
    private final class Channel {
        private final int length;
        private int[] wires = new int[64];
        private int[] spans = new int[128];
        private final int[] begins;
        private int size;

        Channel(int length) {
            this.length = length;
            this.begins = new int[length + 1];
        }

        void add(int vertex, int from, int to) {
            if (size == wires.length) {
                wires = Arrays.copyOf(wires, size * 2);
                spans = Arrays.copyOf(spans, size * 4);
            }
            wires[size] = vertex;
            spans[2 * size] = Math.min(from, to);
            spans[2 * size + 1] = Math.max(from, to);
            begins[Math.min(from, to) + 1]++;
            size++;
        }

        /** Adds a wire with taps that are all in this channel. */
        void addTapped(int wire, boolean inRow) {
            int least = length - 1;
            int most = 0;
            for (int tap : fabric.tapTiles(wire)) {
                int along = inRow ? fabric.column(tap) : fabric.row(tap);
                least = Math.min(least, along);
                most = Math.max(most, along);
            }
            add(wire, least, most);
        }

        /**
         * Assigns the lanes, also to what is known to run here of wires that turn or begin
         * elsewhere, and returns how many were needed.
         *
         * @param number that of this channel
         */
        int assign(int number) {
            beside.getOrDefault(number, IntArrayList.of())
                    .forEach(wire -> addTapped(wire, number < fabric.rows()));
            int[] turning = bent.in(number).toIntArray();
            IntArrays.quickSort(turning, this::compare);
            int nextTurning = 0;
            for (int at = 0; at < length; at++) {
                begins[at + 1] += begins[at];
            }
            int[] order = new int[size];
            int[] next = Arrays.copyOf(begins, begins.length);
            for (int i = 0; i < size; i++) {
                order[next[spans[2 * i]]++] = i;
            }
            FreeLanes free = new FreeLanes(length);
            for (int at = 0; at < length; at++) {
                free.release(at);
                for (int k = begins[at]; k < begins[at + 1]; k++) {
                    int wire = order[k];
                    lanes[wires[wire]] = (short) free.take(spans[2 * wire + 1]);
                }
                while (nextTurning < turning.length && bent.least(turning[nextTurning]) == at) {
                    int end = nextTurning + 1;
                    while (end < turning.length && isBeside(turning[nextTurning], turning[end])) {
                        end++;
                    }
                    int until = bent.most(turning[nextTurning]);
                    int lane = free.together(end - nextTurning);
                    for (; nextTurning < end; nextTurning++) {
                        lane = free.take(until, lane);
                        bentLanes[turning[nextTurning]] = (short) lane;
                    }
                }
            }
            return free.taken;
        }

        /** By place, then bundle by bundle, each in the order of its sense. */
        private int compare(int one, int other) {
            int byPlace = Integer.compare(bent.least(one), bent.least(other));
            int byEnd = Integer.compare(bent.most(one), bent.most(other));
            int bySense = Integer.compare(bent.sense(one), bent.sense(other));
            int byWire = bent.sense(one) * Integer.compare(bent.wire(one), bent.wire(other));
            return byPlace != 0 ? byPlace : byEnd != 0 ? byEnd : bySense != 0 ? bySense : byWire;
        }

        /** Whether two legs that begin at one place are of one bundle, as far as it shows here. */
        private boolean isBeside(int one, int other) {
            return bent.least(one) == bent.least(other)
                    && bent.most(one) == bent.most(other)
                    && bent.sense(one) == bent.sense(other)
                    && fabric.tile(bent.wire(one)) == fabric.tile(bent.wire(other))
                    && fabric.wireKind(bent.wire(one)).equals(fabric.wireKind(bent.wire(other)));
        }
    }

    /** The lanes that are free at the present place, and where the others become free. */
    private static final class FreeLanes {
        private final BitSet free = new BitSet();

        /** The lanes that become free at each place, as linked lists. */
        private final int[] head;

        private int[] next = new int[64];
        private int taken;

        FreeLanes(int length) {
            head = new int[length];
            Arrays.fill(head, -1);
        }

        void release(int at) {
            for (int lane = head[at]; lane >= 0; lane = next[lane]) {
                free.set(lane);
            }
        }

        /** The lowest of so many free lanes side by side; the lowest of all if there are none. */
        int together(int count) {
            int from = free.nextSetBit(0);
            while (from >= 0 && free.nextClearBit(from) - from < count) {
                from = free.nextSetBit(free.nextClearBit(from));
            }
            return Math.max(from, 0);
        }

        /** Takes the lowest free lane up to a place. */
        int take(int until) {
            return take(until, 0);
        }

        /** Takes the lowest free lane that is at least another one, up to a place. */
        int take(int until, int least) {
            int lane = free.nextSetBit(least);
            if (lane < 0) {
                lane = Math.min(taken, MOST);
                taken = lane + 1;
            }
            free.clear(lane);
            if (lane >= next.length) {
                next = Arrays.copyOf(next, lane * 2);
            }
            next[lane] = head[until];
            head[until] = lane;
            return lane;
        }
    }
}
