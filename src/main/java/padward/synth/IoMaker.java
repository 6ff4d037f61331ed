package padward.synth;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import padward.design.Cell;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.pad.PadDirections;

/**
 * Puts ports on pads. Most outputs are registered in their IO register sites, as is usual; others
 * pass through. Inputs pass through their IO register sites. One pad brings in the clock.
 */
final class IoMaker {
    private static final double OUTPUTS = 0.45;
    private static final double INPUTS = 0.2;
    private static final double REGISTERED = 0.8;
    private static final double SWITCHED = 0.15;
    private static final int SAMPLES = 24;

    private final DraftNetlist plan;
    private final NetlistMaker netlist;
    private final Random random;
    private final List<Cell> clocked = new ArrayList<>();
    private final Set<Integer> usedPins = new HashSet<>();

    IoMaker(DraftNetlist plan, NetlistMaker netlist, Random random) {
        this.plan = plan;
        this.netlist = netlist;
        this.random = random;
    }

    /** Adds ports, IO registers and, last, the clock net. */
    void make() {
        Fabric fabric = plan.fabric;
        int clockPad = clockPad();
        for (int i = 0; i < fabric.pads().size(); i++) {
            Pad pad = fabric.pads().get(i);
            double draw = random.nextDouble();
            if (i == clockPad || netlist.nodes().isEmpty() || !pad.use().isOffered()) {
                continue;
            }
            boolean inputOnly = pad.directions() == PadDirections.IN;
            if (!inputOnly && draw < OUTPUTS) {
                addOutput(i, pad);
            } else if (draw < OUTPUTS + INPUTS) {
                addInput(i, pad);
            }
        }
        addClock(clockPad);
    }

    private int clockPad() {
        Fabric fabric = plan.fabric;
        for (int i = 0; i < fabric.pads().size(); i++) {
            if (fabric.tileType(fabric.pads().get(i).tile()).equals("rim-clock")) {
                return i;
            }
        }
        throw new IllegalStateException("the fabric has no pad for the clock");
    }

    private void addOutput(int index, Pad pad) {
        DraftNetlist.PlannedNet source = netNear(pad.tile());
        Port port = plan.addPort("out_" + pad.packagePin(), PortDirection.OUT, index);
        Terminal end = new Terminal.PortEnd(port.id());
        if (random.nextDouble() < REGISTERED) {
            Cell register = plan.addCell(port.name() + "/reg", "io-register", pad.dataSite());
            clocked.add(register);
            source.sinks.add(new Terminal.CellPin(register.id(), "d"));
            plan.addNet(port.name() + "/q", new Terminal.CellPin(register.id(), "q"))
                    .sinks
                    .add(end);
        } else {
            source.sinks.add(end);
        }
        if (pad.enableSite() != Fabric.NOTHING && random.nextDouble() < SWITCHED) {
            Cell enable = plan.addCell(port.name() + "/enable", "io-register", pad.enableSite());
            clocked.add(enable);
            netNear(pad.tile()).sinks.add(new Terminal.CellPin(enable.id(), "d"));
        }
    }

    /** Adds an input port, but none where the chosen cell's last input pin has a net already. */
    private void addInput(int index, Pad pad) {
        Cell reader = nodes().get(near(pad.tile()));
        // The netlist connects inputs from the first on, so the last is the likeliest to be unused.
        String pinName = lastInput(plan.fabric.site(reader.site()));
        if (!usedPins.add(reader.id())) {
            return;
        }
        Terminal pin = new Terminal.CellPin(reader.id(), pinName);
        if (netlist.isUsed(pin)) {
            return;
        }
        Port port = plan.addPort("in_" + pad.packagePin(), PortDirection.IN, index);
        plan.addNet(port.name(), new Terminal.PortEnd(port.id())).sinks.add(pin);
    }

    /** The last input but for the clock. */
    private static String lastInput(SiteView site) {
        return site.pins().stream()
                .filter(pin -> pin.direction() == PinDirection.IN && !pin.name().equals("clk"))
                .reduce((one, next) -> next)
                .orElseThrow()
                .name();
    }

    private List<Cell> nodes() {
        return netlist.nodes();
    }

    private DraftNetlist.PlannedNet netNear(int tile) {
        List<DraftNetlist.PlannedNet> nets = netlist.netsOf(near(tile));
        return nets.get(random.nextInt(nets.size()));
    }

    /** The nearest of some randomly drawn nodes. */
    private int near(int tile) {
        int best = 0;
        int least = Integer.MAX_VALUE;
        for (int i = 0; i < SAMPLES; i++) {
            int node = random.nextInt(nodes().size());
            int at = plan.fabric.site(nodes().get(node).site()).tile();
            int distance =
                    Math.abs(plan.fabric.column(at) - plan.fabric.column(tile))
                            + Math.abs(plan.fabric.row(at) - plan.fabric.row(tile));
            if (distance < least) {
                least = distance;
                best = node;
            }
        }
        return best;
    }

    private void addClock(int pad) {
        Port port = plan.addPort("clk", PortDirection.IN, pad);
        DraftNetlist.PlannedNet clock = plan.addNet("clk", new Terminal.PortEnd(port.id()));
        nodes().stream()
                .filter(c -> c.kind().equals("register") || c.kind().equals("memory"))
                .forEach(c -> clock.sinks.add(new Terminal.CellPin(c.id(), "clk")));
        clocked.forEach(c -> clock.sinks.add(new Terminal.CellPin(c.id(), "clk")));
    }
}
