package padward.watch.simulate;

import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.watch.circuit.CellSpelling;
import padward.watch.circuit.TruthTable;

/**
 * Two-valued simulation of a design as it is written: what a pin sees is the net whose route comes
 * to it, a lookup table does what its setting states, and registers change at clock edges. Only
 * what is asked for is calculated. Levels that are given for a net stand for whatever drives it;
 * nets that are driven by ports, or by cells whose function is not known, need them. One object is
 * one run, for one thread.
 */
public final class DesignSimulation {
    private static final String SOURCE = "simulation";

    private final Design design;

    /** By the number of a cell that is a register. */
    private final BitSet state = new BitSet();

    private final Map<Integer, TruthTable> contents = new HashMap<>();
    private final Map<Integer, Boolean> levels = new HashMap<>();
    private final Set<Integer> open = new HashSet<>();
    private Levels given = net -> Optional.empty();

    /** Levels from outside. */
    public interface Levels {
        /** The level of a net, by its name, if it is given. */
        Optional<Boolean> of(String net);
    }

    /** A run that begins with all registers low but those whose initial value is stated as high. */
    public DesignSimulation(Design design) {
        this.design = design;
        for (Cell cell : design.cells()) {
            register(cell)
                    .filter(register -> startsHigh(cell, register))
                    .ifPresent(register -> state.set(cell.id()));
        }
    }

    private static boolean startsHigh(Cell cell, CellFunction.Register register) {
        return register.initialSetting()
                .map(name -> cell.settings().get(name))
                .map("1"::equals)
                .orElse(register.initial() == CellFunction.Initial.HIGH);
    }

    private Optional<CellKind> kind(Cell cell) {
        return design.fabric().info().findCellKind(cell.kind());
    }

    private Optional<CellFunction.Register> register(Cell cell) {
        return kind(cell).flatMap(CellKind::register);
    }

    /** Gives a register another level, before the next cycle. */
    public void set(String cell, boolean level) {
        state.set(design.findCell(cell).orElseThrow().id(), level);
        levels.clear();
    }

    /** Begins a cycle in which some nets have these levels. */
    public void begin(Levels netLevels) {
        given = netLevels;
        levels.clear();
    }

    /**
     * The level at a pad that the design drives.
     *
     * @param pad its index in {@code fabric.pads()}
     * @throws BadInput when it depends on what is not known
     */
    public boolean pad(int pad) throws BadInput {
        return at(design.fabric().pads().get(pad).vertex(), design.fabric().pads().get(pad).name());
    }

    /**
     * The level of a net.
     *
     * @throws BadInput when it depends on what is not known
     */
    public boolean net(String name) throws BadInput {
        return level(
                design.findNet(name)
                        .orElseThrow(() -> fault(name, "the name of a net", "no such net")));
    }

    /**
     * Whether the design and its fabric say what drives a net does, so that its level need not be
     * given.
     */
    public boolean knows(String net) {
        if (!(design.findNet(net).map(Net::driver).orElse(null) instanceof Terminal.CellPin at)) {
            return false;
        }
        Cell cell = design.cells().get(at.cell());
        Optional<CellFunction> function = kind(cell).flatMap(CellKind::function);
        return function.isPresent()
                && function.get().output().equals(at.pin())
                && (!(function.get() instanceof CellFunction.LookupTable table)
                        || CellSpelling.contents(cell.settings(), table).isPresent());
    }

    /** What comes to a vertex by the routes of nets. */
    private boolean at(int vertex, String what) throws BadInput {
        Optional<Net> net = design.occupancy().findNetOn(vertex);
        if (net.isEmpty()) {
            throw fault(what, "a net that comes to it", "none");
        }
        return level(net.get());
    }

    private boolean level(Net net) throws BadInput {
        Boolean known = levels.get(net.id());
        if (known != null) {
            return known;
        }
        Optional<Boolean> outside = given.of(net.name());
        boolean level = outside.isPresent() ? outside.get() : driven(net);
        levels.put(net.id(), level);
        return level;
    }

    private boolean driven(Net net) throws BadInput {
        if (!(net.driver() instanceof Terminal.CellPin at)) {
            throw fault(net.name(), "a given level, as a port drives it", "none");
        }
        Cell cell = design.cells().get(at.cell());
        Optional<CellFunction> function = kind(cell).flatMap(CellKind::function);
        if (function.isEmpty() || !function.get().output().equals(at.pin())) {
            throw fault(
                    net.name(),
                    "a given level, as the fabric does not say what its driver "
                            + cell.name()
                            + " does",
                    "none");
        }
        if (register(cell).isPresent()) {
            return state.get(cell.id());
        }
        if (!open.add(cell.id())) {
            throw fault(cell.name(), "no loop of lookup tables", "one through this cell");
        }
        try {
            return table(cell, (CellFunction.LookupTable) function.get());
        } finally {
            open.remove(cell.id());
        }
    }

    private boolean table(Cell cell, CellFunction.LookupTable table) throws BadInput {
        TruthTable function = contents.get(cell.id());
        if (function == null) {
            function =
                    CellSpelling.contents(cell.settings(), table)
                            .orElseThrow(
                                    () ->
                                            fault(
                                                    cell.name(),
                                                    "its contents in its setting "
                                                            + table.setting(),
                                                    "none"));
            contents.put(cell.id(), function);
        }
        SiteView site = design.fabric().site(cell.site());
        int row = 0;
        for (int i = 0; i < table.inputs().size(); i++) {
            // what nothing is connected to makes no difference, so that its level need not be known
            if (function.dependsOn(i)) {
                String pin = cell.name() + "." + table.inputs().get(i);
                row |= at(site.findPin(table.inputs().get(i)), pin) ? 1 << i : 0;
            }
        }
        return function.value(row);
    }

    /**
     * The rising edge of a clock at the end of a cycle, for some registers; those whose clock pin
     * another net comes to stay as they are.
     *
     * @param clock name of the clock's net
     * @param cells names of the registers' cells
     * @throws BadInput when what a register takes is not known
     */
    public void edge(String clock, Set<String> cells) throws BadInput {
        edges(cells, comes -> comes.equals(clock));
    }

    /**
     * The rising edges of all clocks together, for some registers; those to whose clock pin no net
     * comes stay as they are.
     *
     * @param cells names of the registers' cells; others are left alone
     * @throws BadInput when what a register takes is not known
     */
    public void edges(Set<String> cells) throws BadInput {
        edges(cells, comes -> true);
    }

    private void edges(Set<String> cells, Predicate<String> clocked) throws BadInput {
        Map<Integer, Boolean> next = new HashMap<>();
        for (String name : cells) {
            Cell cell = design.findCell(name).orElseThrow();
            Optional<CellFunction.Register> register = register(cell);
            if (register.isPresent() && clockOf(cell, register.get()).filter(clocked).isPresent()) {
                next.put(cell.id(), taken(cell, register.get()));
            }
        }
        next.forEach(state::set);
        levels.clear();
    }

    private Optional<String> clockOf(Cell cell, CellFunction.Register register) {
        return comingTo(cell, register.clock()).map(Net::name);
    }

    private Optional<Net> comingTo(Cell cell, String pin) {
        int vertex = design.fabric().site(cell.site()).findPin(pin);
        return vertex == Fabric.NOTHING ? Optional.empty() : design.occupancy().findNetOn(vertex);
    }

    private boolean taken(Cell cell, CellFunction.Register register) throws BadInput {
        Optional<Net> reset = register.reset().flatMap(pin -> comingTo(cell, pin));
        if (reset.isPresent() && level(reset.get())) {
            return false;
        }
        Optional<Net> enable = register.enable().flatMap(pin -> comingTo(cell, pin));
        if (enable.isPresent() && !level(enable.get())) {
            return state.get(cell.id());
        }
        int data = design.fabric().site(cell.site()).findPin(register.data());
        return at(data, cell.name() + "." + register.data());
    }

    private static BadInput fault(String place, String expected, String found) {
        return new BadInput(SOURCE, place, expected, found);
    }
}
