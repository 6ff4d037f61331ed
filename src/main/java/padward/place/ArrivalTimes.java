package padward.place;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import padward.design.Netlist;
import padward.design.Terminal;

/**
 * Arrival times along the paths of a netlist, from registers and input ports to registers and
 * output ports, at the slow corner. Nets are taken in topological order (Kahn, Comm. ACM 5(11),
 * 1962); loops without a register are cut and counted. The order is calculated once; delays may
 * change.
 */
final class ArrivalTimes {
    private final Netlist netlist;
    private final boolean[] holdsState;
    private final int[] cellDelayPs;
    private final IntArrayList order = new IntArrayList();
    private final List<IntArrayList> netsOutOfCell = new ArrayList<>();
    private int cut;
    private final double[] arrival;
    private final int[] latestNet;
    private final int[] latestSink;

    /** Delay of a net from its driver to one of its sinks, picoseconds. */
    interface NetDelay {
        double ps(int net, int sink);
    }

    /**
     * @param holdsState of each cell, whether signals end there
     * @param cellDelayPs of each cell, the greatest delay through it
     */
    ArrivalTimes(Netlist netlist, boolean[] holdsState, int[] cellDelayPs) {
        this.netlist = netlist;
        this.holdsState = holdsState;
        this.cellDelayPs = cellDelayPs;
        this.arrival = new double[netlist.nets().size()];
        this.latestNet = new int[netlist.cells().size()];
        this.latestSink = new int[netlist.cells().size()];
        sort();
    }

    private boolean passes(Terminal end) {
        return end instanceof Terminal.CellPin at && !holdsState[at.cell()];
    }

    private void sort() {
        int[] waits = new int[netlist.cells().size()];
        netlist.cells().forEach(c -> netsOutOfCell.add(new IntArrayList(1)));
        for (int n = 0; n < netlist.nets().size(); n++) {
            Netlist.LogicalNet net = netlist.nets().get(n);
            if (passes(net.driver())) {
                netsOutOfCell.get(((Terminal.CellPin) net.driver()).cell()).add(n);
            }
            for (Terminal sink : net.sinks()) {
                if (passes(sink)) {
                    waits[((Terminal.CellPin) sink).cell()]++;
                }
            }
        }
        boolean[] done = new boolean[netlist.nets().size()];
        for (int n = 0; n < done.length; n++) {
            Terminal driver = netlist.nets().get(n).driver();
            if (!passes(driver) || waits[((Terminal.CellPin) driver).cell()] == 0) {
                take(n, done);
            }
        }
        int next = 0;
        for (int candidate = 0; next < order.size() || candidate < done.length; ) {
            if (next == order.size()) {
                if (!done[candidate]) {
                    cut++;
                    take(candidate, done);
                }
                candidate++;
                continue;
            }
            for (Terminal sink : netlist.nets().get(order.getInt(next++)).sinks()) {
                if (passes(sink) && --waits[((Terminal.CellPin) sink).cell()] == 0) {
                    netsOutOfCell.get(((Terminal.CellPin) sink).cell()).forEach(n -> take(n, done));
                }
            }
        }
    }

    private void take(int net, boolean[] done) {
        if (!done[net]) {
            done[net] = true;
            order.add(net);
        }
    }

    /** Number of sinks of a net. */
    int sinks(int net) {
        return netlist.nets().get(net).sinks().size();
    }

    /** Number of loops that were cut. */
    int cut() {
        return cut;
    }

    /**
     * The latest arrival at any end of a path. O(connections).
     *
     * @param delay delays of nets
     */
    Path latest(NetDelay delay) {
        Arrays.fill(latestNet, -1);
        double[] atCell = new double[netlist.cells().size()];
        double worst = 0;
        int worstNet = -1;
        int worstSink = -1;
        for (int i = 0; i < order.size(); i++) {
            int n = order.getInt(i);
            Netlist.LogicalNet net = netlist.nets().get(n);
            arrival[n] = 0;
            if (passes(net.driver())) {
                int cell = ((Terminal.CellPin) net.driver()).cell();
                arrival[n] = atCell[cell] + cellDelayPs[cell];
            }
            for (int s = 0; s < net.sinks().size(); s++) {
                double at = arrival[n] + delay.ps(n, s);
                if (passes(net.sinks().get(s))) {
                    int cell = ((Terminal.CellPin) net.sinks().get(s)).cell();
                    if (at > atCell[cell]) {
                        atCell[cell] = at;
                        latestNet[cell] = n;
                        latestSink[cell] = s;
                    }
                } else if (at > worst && !net.clock()) {
                    worst = at;
                    worstNet = n;
                    worstSink = s;
                }
            }
        }
        return new Path(worst, steps(worstNet, worstSink));
    }

    private List<Step> steps(int net, int sink) {
        List<Step> steps = new ArrayList<>();
        int n = net;
        int s = sink;
        while (n >= 0 && steps.size() <= netlist.nets().size()) {
            steps.add(0, new Step(n, s));
            Terminal driver = netlist.nets().get(n).driver();
            int cell = passes(driver) ? ((Terminal.CellPin) driver).cell() : -1;
            n = cell < 0 ? -1 : latestNet[cell];
            s = cell < 0 ? -1 : latestSink[cell];
        }
        return steps;
    }

    /**
     * How critical each connection is: 1 on the longest path, 0 for one whose slack is the whole
     * longest path. Call {@link #latest} with the same delays first.
     */
    void criticality(NetDelay delay, double worst, float[][] into) {
        double[] after = new double[netlist.cells().size()];
        for (int i = order.size() - 1; i >= 0; i--) {
            int n = order.getInt(i);
            Netlist.LogicalNet net = netlist.nets().get(n);
            double most = 0;
            for (int s = 0; s < net.sinks().size(); s++) {
                Terminal sink = net.sinks().get(s);
                int cell = passes(sink) ? ((Terminal.CellPin) sink).cell() : -1;
                double rest = delay.ps(n, s) + (cell < 0 ? 0 : cellDelayPs[cell] + after[cell]);
                most = Math.max(most, rest);
                double share = worst == 0 ? 0 : (arrival[n] + rest) / worst;
                into[n][s] = (float) Math.min(1, Math.max(0, share));
            }
            if (passes(net.driver())) {
                int cell = ((Terminal.CellPin) net.driver()).cell();
                after[cell] = Math.max(after[cell], most);
            }
        }
    }

    /**
     * A path that arrives last.
     *
     * @param delayPs its delay
     * @param steps its nets, each with the sink by which the path continues
     */
    record Path(double delayPs, List<Step> steps) {}

    /**
     * A net of a path.
     *
     * @param net number of the net
     * @param sink number of the sink
     */
    record Step(int net, int sink) {}
}
