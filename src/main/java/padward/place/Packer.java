package padward.place;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.design.Netlist;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * Joins output registers with their ports: a register that drives an output port and nothing else
 * goes into the pad's IO register site, so the signal leaves at the clock edge, without a wire in
 * between.
 */
final class Packer {
    static final String IN = "input ports";
    static final String CLOCK_IN = "clock inputs";
    static final String OUT = "output ports";
    static final String REGISTERED_OUT = "output ports with registers";

    private final Netlist netlist;
    private final Set<String> kindsAtPads;
    private final int[] registerOfPort;
    private final Optional<?>[] atPad;

    /**
     * @param kindsAtPads kinds of cell that the data sites of pads accept
     */
    Packer(Netlist netlist, Set<String> kindsAtPads) {
        this.netlist = netlist;
        this.kindsAtPads = kindsAtPads;
        this.registerOfPort = new int[netlist.ports().size()];
        this.atPad = new Optional<?>[netlist.cells().size()];
        Arrays.fill(registerOfPort, Fabric.NOTHING);
    }

    static Set<String> kindsAtPads(Fabric fabric) {
        return fabric.pads().stream()
                .filter(p -> p.dataSite() != Fabric.NOTHING)
                .map(Pad::dataSite)
                .flatMap(s -> fabric.site(s).accepts().stream())
                .collect(Collectors.toSet());
    }

    PackedNetlist pack() {
        findRegisters();
        List<String> groups = new ArrayList<>();
        Map<String, Integer> numbers = new HashMap<>();
        List<Integer> groupOfBlock = new ArrayList<>();
        int[] blockOfPort = new int[netlist.ports().size()];
        int[] blockOfCell = new int[netlist.cells().size()];
        Arrays.fill(blockOfCell, Fabric.NOTHING);
        Set<Integer> clocks = clockPorts();
        for (int p = 0; p < blockOfPort.length; p++) {
            boolean in = netlist.ports().get(p).direction() == PortDirection.IN;
            boolean used = registerOfPort[p] != Fabric.NOTHING;
            String group = in ? clocks.contains(p) ? CLOCK_IN : IN : used ? REGISTERED_OUT : OUT;
            blockOfPort[p] = groupOfBlock.size();
            groupOfBlock.add(number(groups, numbers, group));
            if (used) {
                blockOfCell[registerOfPort[p]] = blockOfPort[p];
            }
        }
        for (int c = 0; c < blockOfCell.length; c++) {
            if (blockOfCell[c] == Fabric.NOTHING) {
                blockOfCell[c] = groupOfBlock.size();
                groupOfBlock.add(number(groups, numbers, netlist.cells().get(c).kind()));
            }
        }
        return new PackedNetlist(
                renamed(),
                groups,
                groupOfBlock.stream().mapToInt(Integer::intValue).toArray(),
                blockOfCell,
                blockOfPort,
                registerOfPort);
    }

    private static int number(List<String> groups, Map<String, Integer> numbers, String group) {
        return numbers.computeIfAbsent(
                group,
                g -> {
                    groups.add(g);
                    return groups.size() - 1;
                });
    }

    private Set<Integer> clockPorts() {
        return netlist.nets().stream()
                .filter(n -> n.clock() && n.driver() instanceof Terminal.PortEnd)
                .map(n -> ((Terminal.PortEnd) n.driver()).port())
                .collect(Collectors.toSet());
    }

    private void findRegisters() {
        for (Netlist.LogicalNet net : netlist.nets()) {
            if (net.sinks().size() == 1
                    && net.sinks().get(0) instanceof Terminal.PortEnd port
                    && net.driver() instanceof Terminal.CellPin driver
                    && drivesOnly(driver)) {
                Netlist.LogicalCell cell = netlist.cells().get(driver.cell());
                Optional<Netlist.AtPad> there =
                        cell.atPad().filter(a -> kindsAtPads.contains(a.kind()));
                if (there.isPresent() || kindsAtPads.contains(cell.kind())) {
                    registerOfPort[port.port()] = driver.cell();
                    atPad[driver.cell()] = there;
                }
            }
        }
    }

    /** Whether the net of that pin is the only one that its cell drives. */
    private boolean drivesOnly(Terminal.CellPin driver) {
        if (drivenByCell == null) {
            drivenByCell = new HashMap<>();
            for (Netlist.LogicalNet net : netlist.nets()) {
                if (net.driver() instanceof Terminal.CellPin at && !net.sinks().isEmpty()) {
                    drivenByCell.merge(at.cell(), 1, Integer::sum);
                }
            }
        }
        return drivenByCell.get(driver.cell()) == 1;
    }

    private Map<Integer, Integer> drivenByCell;

    private Netlist renamed() {
        List<Netlist.LogicalCell> cells = new ArrayList<>();
        for (int c = 0; c < netlist.cells().size(); c++) {
            Netlist.LogicalCell cell = netlist.cells().get(c);
            cells.add(
                    there(c).isEmpty()
                            ? cell
                            : new Netlist.LogicalCell(
                                    cell.name(),
                                    there(c).get().kind(),
                                    cell.settings(),
                                    cell.atPad()));
        }
        List<Netlist.LogicalNet> nets =
                netlist.nets().stream()
                        .map(
                                n ->
                                        new Netlist.LogicalNet(
                                                n.name(),
                                                renamed(n.driver()),
                                                n.sinks().stream().map(this::renamed).toList(),
                                                n.clock()))
                        .toList();
        return new Netlist(netlist.name(), cells, netlist.ports(), nets);
    }

    private Optional<Netlist.AtPad> there(int cell) {
        return atPad[cell] == null ? Optional.empty() : atPad[cell].map(a -> (Netlist.AtPad) a);
    }

    private Terminal renamed(Terminal end) {
        if (end instanceof Terminal.CellPin at && there(at.cell()).isPresent()) {
            Map<String, String> pins = there(at.cell()).get().pins();
            return new Terminal.CellPin(at.cell(), pins.getOrDefault(at.pin(), at.pin()));
        }
        return end;
    }
}
