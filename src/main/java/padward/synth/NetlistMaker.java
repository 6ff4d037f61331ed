package padward.synth;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import padward.design.Cell;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;

/**
 * Makes a netlist whose connections are as local as Rent's rule says (Landman and Russo, IEEE
 * Trans. Computers C-20(12), 1971): nodes are the leaves of a binary tree, and an input looks for
 * its driver among its own 2, 4, 8, … leaves, going up one level more with a fixed probability each
 * time. The leaves are placed along a space-filling curve, so neighbours in the tree are neighbours
 * on the chip.
 */
final class NetlistMaker {
    /** Probability of going up one level more; 0.5^(1 - r) for a Rent exponent r of about 0.6. */
    private static final double UP = 0.76;

    private static final double REGISTERS = 0.5;
    private static final int MOST_FAN_OUT = 10;
    private static final int TRIES = 12;

    private final DraftNetlist plan;
    private final Random random;
    private final List<List<DraftNetlist.PlannedNet>> netsOfNode = new ArrayList<>();
    private final List<Cell> nodes = new ArrayList<>();
    private final Set<Terminal> usedPins = new HashSet<>();

    NetlistMaker(DraftNetlist plan, Random random) {
        this.plan = plan;
        this.random = random;
    }

    /**
     * Fills the plan with cells on a share of the logic, memory and multiplier sites, and their
     * nets.
     */
    void make(double used) {
        placeCells(used);
        for (int i = 0; i < nodes.size(); i++) {
            netsOfNode.add(outputs(i));
        }
        for (int i = 0; i < nodes.size(); i++) {
            connectInputs(i);
        }
    }

    List<Cell> nodes() {
        return nodes;
    }

    /** The nets that a node drives. */
    List<DraftNetlist.PlannedNet> netsOf(int node) {
        return netsOfNode.get(node);
    }

    private void placeCells(double used) {
        Fabric fabric = plan.fabric;
        int[] sites = new int[fabric.siteCount()];
        int count = 0;
        for (int s = 0; s < fabric.siteCount(); s++) {
            if (!fabric.site(s).kind().equals("io-register") && random.nextDouble() < used) {
                sites[count++] = s;
            }
        }
        for (int site : HilbertOrder.sort(fabric, Arrays.copyOf(sites, count))) {
            String kind = fabric.site(site).kind();
            if (fabric.site(site).isPart()) {
                kind = fabric.site(site).accepts().get(0);
            } else if (kind.equals("logic")) {
                kind = random.nextDouble() < REGISTERS ? "register" : "lookup-table";
            }
            nodes.add(plan.addCell(InventedNames.node(nodes.size()), kind, site));
        }
    }

    private List<DraftNetlist.PlannedNet> outputs(int node) {
        Cell cell = nodes.get(node);
        SiteView site = plan.fabric.site(cell.site());
        List<DraftNetlist.PlannedNet> nets = new ArrayList<>();
        for (SitePin pin : site.pins()) {
            if (pin.direction() == PinDirection.OUT) {
                boolean only = site.kind().equals("logic");
                String name = only ? cell.name() : cell.name() + "." + pin.name();
                nets.add(plan.addNet(name, new Terminal.CellPin(cell.id(), pin.name())));
            }
        }
        return nets;
    }

    private void connectInputs(int node) {
        Cell cell = nodes.get(node);
        SiteView site = plan.fabric.site(cell.site());
        int wanted =
                switch (cell.kind()) {
                    case "register" -> 1;
                    case "lookup-table" -> 2 + random.nextInt(3);
                    default -> 6;
                };
        for (SitePin pin : site.pins()) {
            boolean isInput = pin.direction() == PinDirection.IN && !pin.name().equals("clk");
            if (isInput && wanted > 0) {
                wanted--;
                driverFor(node)
                        .ifPresent(n -> connect(n, new Terminal.CellPin(cell.id(), pin.name())));
            }
        }
    }

    private void connect(DraftNetlist.PlannedNet net, Terminal end) {
        net.sinks.add(end);
        usedPins.add(end);
    }

    /** Whether a pin has a net already. */
    boolean isUsed(Terminal pin) {
        return usedPins.contains(pin);
    }

    /**
     * A net from nearby in the tree; lookup tables take only earlier ones, so there are no loops.
     */
    private Optional<DraftNetlist.PlannedNet> driverFor(int node) {
        boolean combinational = nodes.get(node).kind().equals("lookup-table");
        for (int attempt = 0; attempt < TRIES; attempt++) {
            int level = 1;
            while (random.nextDouble() < UP && 1 << level < nodes.size()) {
                level++;
            }
            int size = 1 << level;
            int base = node / size * size;
            int other = base + random.nextInt(size);
            boolean inside = other < nodes.size() && other != node;
            if (!inside || (combinational && other > node && !holdsState(other))) {
                continue;
            }
            List<DraftNetlist.PlannedNet> nets = netsOfNode.get(other);
            DraftNetlist.PlannedNet net = nets.get(random.nextInt(nets.size()));
            if (net.sinks.size() < MOST_FAN_OUT) {
                return Optional.of(net);
            }
        }
        return Optional.empty();
    }

    private boolean holdsState(int node) {
        String kind = nodes.get(node).kind();
        return kind.equals("register") || kind.equals("memory");
    }
}
