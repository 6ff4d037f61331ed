package padward.ui.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import padward.fabric.Fabric;

/**
 * The channels in which wires run that turn at a tap: each row or column that such a wire follows,
 * from where to where, and in which sense. Wires of one bundle keep their order around a bend, the
 * outer ones outside, if they are taken in their order in channels of one sense and in the reverse
 * order in those of the other. O(taps of these wires) time and memory.
 */
final class BentLegs {
    private final Fabric fabric;

    /** The first leg of each wire; its others follow, in the order of their channels. */
    private final Int2IntOpenHashMap first = new Int2IntOpenHashMap();

    private final IntArrayList wires = new IntArrayList();
    private final IntArrayList channels = new IntArrayList();
    private final IntArrayList least = new IntArrayList();
    private final IntArrayList most = new IntArrayList();
    private final IntArrayList senses = new IntArrayList();
    private final List<IntArrayList> byChannel = new ArrayList<>();

    /** Those of all wires with taps that are neither in one row nor in one column. */
    BentLegs(Fabric fabric, TileIndex index) {
        this.fabric = fabric;
        first.defaultReturnValue(Fabric.NOTHING);
        for (int channel = 0; channel < fabric.rows() + fabric.columns(); channel++) {
            byChannel.add(new IntArrayList());
        }
        for (int wire = 0; wire < fabric.vertexCount(); wire++) {
            if (index.isTapped(wire)) {
                int[] taps = fabric.tapTiles(wire);
                if (TapLine.of(fabric, taps) == TapLine.NONE) {
                    add(wire, WirePath.of(fabric, taps));
                }
            }
        }
    }

    /** A leg while it is being found. */
    private static final class Span {
        private int least;
        private int most;
        private final int sense;

        Span(int at, int sense) {
            this.least = at;
            this.most = at;
            this.sense = sense;
        }

        /** A bend is inside its box, and takes the lane on both sides of it. */
        void reach(int at, boolean isEnd) {
            least = Math.min(least, isEnd ? at : at - 1);
            most = Math.max(most, isEnd ? at : at + 1);
        }
    }

    private static boolean isEnd(WirePath path, int place) {
        return path.onlyNeighbour(place) != Fabric.NOTHING;
    }

    private void add(int wire, WirePath path) {
        Map<Integer, Span> spans = new TreeMap<>();
        for (int place = 1; place < path.size(); place++) {
            int from = path.tile(path.parent(place));
            int to = path.tile(place);
            boolean lies = fabric.row(from) == fabric.row(to);
            int sense = sense(path, place, spans);
            Span span =
                    spans.computeIfAbsent(
                            channel(from, lies), c -> new Span(along(from, lies), sense));
            span.reach(along(from, lies), isEnd(path, path.parent(place)));
            span.reach(along(to, lies), isEnd(path, place));
        }
        first.put(wire, wires.size());
        spans.forEach(
                (channel, span) -> {
                    byChannel.get(channel).add(wires.size());
                    int end = channel < fabric.rows() ? fabric.columns() : fabric.rows();
                    wires.add(wire);
                    channels.add((int) channel);
                    least.add(Math.max(0, span.least));
                    most.add(Math.min(end - 1, span.most));
                    senses.add(span.sense);
                });
    }

    /**
     * The sense of the leg that leads to a place. At a corner whose legs lead right and up, or left
     * and down, what is higher before it is farther right behind it, and the sense stays; at the
     * two other kinds of corner it turns.
     */
    private int sense(WirePath path, int place, Map<Integer, Span> spans) {
        int corner = path.parent(place);
        int before = path.parent(corner);
        if (before == Fabric.NOTHING) {
            return 1;
        }
        int at = path.tile(corner);
        int came = path.tile(before);
        int goes = path.tile(place);
        boolean lay = fabric.row(came) == fabric.row(at);
        boolean lies = fabric.row(goes) == fabric.row(at);
        int sense = spans.get(channel(at, lay)).sense;
        if (lay == lies) {
            return sense;
        }
        int lying = lies ? goes : came;
        int standing = lies ? came : goes;
        return sense
                * Integer.signum(fabric.column(lying) - fabric.column(at))
                * Integer.signum(fabric.row(standing) - fabric.row(at));
    }

    /** The number of the channel through a tile: rows, then columns. */
    int channel(int tile, boolean lies) {
        return lies ? fabric.row(tile) : fabric.rows() + fabric.column(tile);
    }

    private int along(int tile, boolean lies) {
        return lies ? fabric.column(tile) : fabric.row(tile);
    }

    /** Number of all legs. */
    int count() {
        return wires.size();
    }

    /** The legs in a channel. */
    IntArrayList in(int channel) {
        return byChannel.get(channel);
    }

    int wire(int leg) {
        return wires.getInt(leg);
    }

    /** The lowest place of a channel that a leg takes. */
    int least(int leg) {
        return least.getInt(leg);
    }

    /** The highest place of a channel that a leg takes. */
    int most(int leg) {
        return most.getInt(leg);
    }

    /** 1 where its bundle is in the order of its wires, -1 where that is reversed. */
    int sense(int leg) {
        return senses.getInt(leg);
    }

    /** The leg of a wire in a channel, or {@link Fabric#NOTHING}. */
    int find(int wire, int channel) {
        int leg = first.get(wire);
        while (leg != Fabric.NOTHING && leg < count() && wires.getInt(leg) == wire) {
            if (channels.getInt(leg) == channel) {
                return leg;
            }
            leg++;
        }
        return Fabric.NOTHING;
    }
}
