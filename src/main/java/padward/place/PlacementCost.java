package padward.place;

import java.util.ArrayList;
import java.util.List;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.fabric.Fabric;

/**
 * What a placement costs, in picoseconds: for each net the half perimeter of its bounding box times
 * the delay of a tile, and for each connection its delay, weighted by its criticality. Clock nets
 * run on their own wires and cost nothing.
 */
final class PlacementCost {
    private static final float[] NONE = {};

    private final Fabric fabric;
    private final DistanceDelayModel fit;
    private final double timingWeight;
    private final int[][] blocksOfNet;
    private final int[][] netsOfBlock;
    private final float[][] weight;
    private final int[] tileOfBlock;
    private final int[] columns;
    private final int[] rows;

    /**
     * @param timingWeight what a picosecond on the longest path costs, compared with one of wire
     */
    PlacementCost(
            Fabric fabric, PackedNetlist packed, DistanceDelayModel fit, double timingWeight) {
        this.fabric = fabric;
        this.fit = fit;
        this.timingWeight = timingWeight;
        List<Netlist.LogicalNet> nets = packed.netlist().nets();
        this.blocksOfNet = new int[nets.size()][];
        this.weight = new float[nets.size()][];
        this.tileOfBlock = new int[packed.blockCount()];
        this.columns = new int[packed.blockCount()];
        this.rows = new int[packed.blockCount()];
        List<List<Integer>> byBlock = new ArrayList<>();
        for (int b = 0; b < packed.blockCount(); b++) {
            byBlock.add(new ArrayList<>(4));
        }
        for (int n = 0; n < nets.size(); n++) {
            Netlist.LogicalNet net = nets.get(n);
            boolean counts = !net.clock() && !net.sinks().isEmpty();
            blocksOfNet[n] = counts ? blocks(packed, net) : new int[0];
            weight[n] = counts ? new float[net.sinks().size()] : NONE;
            for (int block : blocksOfNet[n]) {
                List<Integer> known = byBlock.get(block);
                if (known.isEmpty() || known.get(known.size() - 1) != n) {
                    known.add(n);
                }
            }
        }
        this.netsOfBlock = new int[packed.blockCount()][];
        for (int b = 0; b < netsOfBlock.length; b++) {
            netsOfBlock[b] = byBlock.get(b).stream().mapToInt(Integer::intValue).toArray();
        }
    }

    /** The driver's block first, then those of the sinks in order. */
    private static int[] blocks(PackedNetlist packed, Netlist.LogicalNet net) {
        int[] blocks = new int[net.sinks().size() + 1];
        blocks[0] = block(packed, net.driver());
        for (int s = 0; s < net.sinks().size(); s++) {
            blocks[s + 1] = block(packed, net.sinks().get(s));
        }
        return blocks;
    }

    static int block(PackedNetlist packed, Terminal end) {
        return end instanceof Terminal.CellPin at
                ? packed.blockOfCell()[at.cell()]
                : packed.blockOfPort()[((Terminal.PortEnd) end).port()];
    }

    void put(int block, int tile) {
        tileOfBlock[block] = tile;
        columns[block] = fabric.column(tile);
        rows[block] = fabric.row(tile);
    }

    int[] netsOf(int block) {
        return netsOfBlock[block];
    }

    int netCount() {
        return blocksOfNet.length;
    }

    /** Half perimeter of a net's bounding box, tiles. */
    int halfPerimeter(int net) {
        int[] blocks = blocksOfNet[net];
        if (blocks.length == 0) {
            return 0;
        }
        int left = Integer.MAX_VALUE;
        int right = 0;
        int low = Integer.MAX_VALUE;
        int high = 0;
        for (int block : blocks) {
            left = Math.min(left, columns[block]);
            right = Math.max(right, columns[block]);
            low = Math.min(low, rows[block]);
            high = Math.max(high, rows[block]);
        }
        return right - left + high - low;
    }

    /** Cost of a net whose bounding box has a half perimeter of so many tiles, without delays. */
    double across(int tiles) {
        return Math.max(1, fit.perTilePs()) * tiles;
    }

    /** Cost of a net with its blocks where they are. O(ends). */
    double of(int net) {
        double cost = fit.perTilePs() * halfPerimeter(net);
        if (timingWeight > 0) {
            for (int s = 0; s < weight[net].length; s++) {
                cost += timingWeight * weight[net][s] * delayPs(net, s);
            }
        }
        return cost;
    }

    /** Estimated delay of a connection with its blocks where they are. */
    double delayPs(int net, int sink) {
        int[] blocks = blocksOfNet[net];
        if (blocks.length == 0) {
            return 0;
        }
        int from = blocks[0];
        int to = blocks[sink + 1];
        return fit.at(Math.abs(columns[from] - columns[to]) + Math.abs(rows[from] - rows[to]));
    }

    /** Weights connections by their criticality. */
    void weigh(ArrivalTimes times) {
        float[][] critical = new float[weight.length][];
        for (int n = 0; n < weight.length; n++) {
            critical[n] = new float[times.sinks(n)];
        }
        ArrivalTimes.NetDelay delay = this::delayPs;
        ArrivalTimes.Path latest = times.latest(delay);
        times.criticality(delay, latest.delayPs(), critical);
        for (int n = 0; n < weight.length; n++) {
            for (int s = 0; s < weight[n].length; s++) {
                float c = critical[n][s];
                weight[n][s] = c * c * c * c;
            }
        }
    }
}
