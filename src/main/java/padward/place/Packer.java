package padward.place;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.design.Netlist;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * Joins what belongs together. A register that drives an output port and nothing else goes into the
 * pad's IO register site, so the signal leaves at the clock edge, without a wire in between. A cell
 * goes with one that it can drive directly inside a site, as a lookup table does with its register.
 */
final class Packer {
    static final String IN = "input ports";
    static final String CLOCK_IN = "clock inputs";
    static final String BOTH = "ports of both directions";
    static final String OUT = "output ports";
    static final String REGISTERED_OUT = "output ports with registers";

    private final Netlist netlist;
    private final Set<String> kindsAtPads;
    private final CellPlaces places;
    private final int[] registerOfPort;
    private final int[] firstOfCell;
    private final boolean dense;
    private final Optional<?>[] atPad;

    /**
     * @param kindsAtPads kinds of cell that the data sites of pads accept
     * @param dense whether cells go together, too, of which none drives the other
     */
    Packer(Netlist netlist, Set<String> kindsAtPads, CellPlaces places, boolean dense) {
        this.dense = dense;
        this.netlist = netlist;
        this.kindsAtPads = kindsAtPads;
        this.registerOfPort = new int[netlist.ports().size()];
        this.places = places;
        this.firstOfCell = new int[netlist.cells().size()];
        this.atPad = new Optional<?>[netlist.cells().size()];
        Arrays.fill(firstOfCell, Fabric.NOTHING);
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
        int[] secondOfCell = findPairs();
        List<String> groups = new ArrayList<>();
        List<List<String>> kindsOfGroup = new ArrayList<>();
        Map<String, Integer> numbers = new HashMap<>();
        List<Integer> groupOfBlock = new ArrayList<>();
        int[] blockOfPort = new int[netlist.ports().size()];
        int[] blockOfCell = new int[netlist.cells().size()];
        Arrays.fill(blockOfCell, Fabric.NOTHING);
        Set<Integer> clocks = clockPorts();
        for (int p = 0; p < blockOfPort.length; p++) {
            boolean in = netlist.ports().get(p).direction() == PortDirection.IN;
            boolean used = registerOfPort[p] != Fabric.NOTHING;
            boolean both = netlist.ports().get(p).direction() == PortDirection.BOTH;
            String group =
                    both
                            ? BOTH
                            : in ? clocks.contains(p) ? CLOCK_IN : IN : used ? REGISTERED_OUT : OUT;
            blockOfPort[p] = groupOfBlock.size();
            groupOfBlock.add(number(groups, numbers, group));
            addKinds(kindsOfGroup, groups, List.of());
            if (used) {
                blockOfCell[registerOfPort[p]] = blockOfPort[p];
            }
        }
        for (int c = 0; c < blockOfCell.length; c++) {
            if (blockOfCell[c] == Fabric.NOTHING && firstOfCell[c] == Fabric.NOTHING) {
                List<String> kinds = new ArrayList<>(List.of(kindOf(c)));
                blockOfCell[c] = groupOfBlock.size();
                if (secondOfCell[c] != Fabric.NOTHING) {
                    kinds.add(kindOf(secondOfCell[c]));
                    blockOfCell[secondOfCell[c]] = blockOfCell[c];
                }
                groupOfBlock.add(number(groups, numbers, String.join(" with ", kinds)));
                addKinds(kindsOfGroup, groups, kinds);
            }
        }
        return new PackedNetlist(
                renamed(),
                groups,
                kindsOfGroup,
                groupOfBlock.stream().mapToInt(Integer::intValue).toArray(),
                blockOfCell,
                blockOfPort,
                registerOfPort,
                firstOfCell);
    }

    private String kindOf(int cell) {
        return netlist.cells().get(cell).kind();
    }

    /** States the kinds of a group that is new. */
    private static void addKinds(
            List<List<String>> kindsOfGroup, List<String> groups, List<String> kinds) {
        if (kindsOfGroup.size() < groups.size()) {
            kindsOfGroup.add(List.copyOf(kinds));
        }
    }

    /**
     * Pairs cells of which one can drive the other directly, in the order of the nets.
     *
     * @return for each first cell of a pair the second, or {@link Fabric#NOTHING}
     */
    private int[] findPairs() {
        int[] second = new int[netlist.cells().size()];
        Arrays.fill(second, Fabric.NOTHING);
        Set<Integer> taken = new HashSet<>();
        for (int register : registerOfPort) {
            taken.add(register);
        }
        for (Netlist.LogicalNet net : netlist.nets()) {
            if (net.driver() instanceof Terminal.CellPin from && !taken.contains(from.cell())) {
                for (Terminal sink : net.sinks()) {
                    if (sink instanceof Terminal.CellPin to && canPair(from, to, taken)) {
                        pair(from.cell(), to.cell(), second, taken);
                        break;
                    }
                }
            }
        }
        if (dense) {
            pairTheRest(second, taken);
        }
        return second;
    }

    private void pair(int first, int second, int[] secondOf, Set<Integer> taken) {
        firstOfCell[second] = first;
        secondOf[first] = second;
        taken.add(first);
        taken.add(second);
    }

    /** Pairs cells that can be in one place, each with the one that has waited longest. */
    private void pairTheRest(int[] second, Set<Integer> taken) {
        Map<String, Deque<Integer>> waiting = new LinkedHashMap<>();
        for (int c = 0; c < second.length; c++) {
            if (taken.contains(c)) {
                continue;
            }
            int cell = c;
            Optional<Integer> other =
                    waiting.entrySet().stream()
                            .filter(
                                    e ->
                                            places.canShare(e.getKey(), kindOf(cell))
                                                    || places.canShare(kindOf(cell), e.getKey()))
                            .map(e -> e.getValue().peek())
                            .filter(Objects::nonNull)
                            .findFirst();
            if (other.isEmpty()) {
                waiting.computeIfAbsent(kindOf(c), k -> new ArrayDeque<>()).add(c);
            } else {
                waiting.get(kindOf(other.get())).remove();
                boolean first = places.canShare(kindOf(c), kindOf(other.get()));
                pair(first ? c : other.get(), first ? other.get() : c, second, taken);
            }
        }
    }

    private boolean canPair(Terminal.CellPin from, Terminal.CellPin to, Set<Integer> taken) {
        return from.cell() != to.cell()
                && !taken.contains(to.cell())
                && places.canDrive(kindOf(from.cell()), from.pin(), kindOf(to.cell()), to.pin());
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
                    && netlist.ports().get(port.port()).direction() == PortDirection.OUT
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
