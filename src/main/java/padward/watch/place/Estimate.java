package padward.watch.place;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;

/** Estimated length of a circuit's connections, in tiles, before they are routed. */
final class Estimate {
    private static final int UNKNOWN = -1;

    private final Connections connections;
    private final Distances distances;

    /** By tile, as far as it was asked: every element asks for the same tiles. */
    private final Int2IntOpenHashMap toAllFixed = new Int2IntOpenHashMap();

    /** Sources outside the circuit that each element reads, clocks apart. */
    private final List<IntArrayList> outside = new ArrayList<>();

    /** Outputs that each element drives. */
    private final List<IntArrayList> drives = new ArrayList<>();

    /** Elements whose outputs each element reads. */
    private final List<IntArrayList> reads = new ArrayList<>();

    /** Elements that read each element's output, those that it reads included. */
    private final List<IntArrayList> neighbours = new ArrayList<>();

    Estimate(Connections connections, Distances distances) {
        this.connections = connections;
        this.distances = distances;
        toAllFixed.defaultReturnValue(UNKNOWN);
        for (int e = 0; e < connections.elements(); e++) {
            outside.add(new IntArrayList());
            drives.add(new IntArrayList());
            reads.add(new IntArrayList());
            neighbours.add(new IntArrayList());
        }
        for (int e = 0; e < connections.elements(); e++) {
            for (int source : connections.inputs(e)) {
                if (connections.sources().get(source) instanceof Source.OfElement of) {
                    reads.get(e).add(of.element());
                    if (of.element() != e) {
                        neighbours.get(e).add(of.element());
                        neighbours.get(of.element()).add(e);
                    }
                } else {
                    outside.get(e).add(source);
                }
            }
        }
        for (int o = 0; o < connections.outputs().length; o++) {
            if (connections.sources().get(connections.outputs()[o])
                    instanceof Source.OfElement of) {
                drives.get(of.element()).add(o);
            }
        }
    }

    /** To what does not move: the nets and pads that an element reads, and the pad it drives. */
    int toFixed(int element, int tile) {
        int sum = 0;
        for (int source : outside.get(element)) {
            sum += distances.fromSource(source, tile);
        }
        for (int output : drives.get(element)) {
            sum += distances.toOutput(output, tile);
        }
        return sum;
    }

    /** To all that does not move and that any element has to do with. */
    int toAllFixed(int tile) {
        int known = toAllFixed.get(tile);
        if (known == UNKNOWN) {
            known = sumToFixed(tile);
            toAllFixed.put(tile, known);
        }
        return known;
    }

    private int sumToFixed(int tile) {
        int sum = 0;
        for (int e = 0; e < connections.elements(); e++) {
            sum += toFixed(e, tile);
        }
        return sum;
    }

    /** Elements that an element is connected with, once for each connection. */
    IntArrayList neighbours(int element) {
        return neighbours.get(element);
    }

    int between(int tile, int other) {
        return distances.between(tile, other);
    }
}
