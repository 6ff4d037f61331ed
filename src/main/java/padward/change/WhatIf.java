package padward.change;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.IntPredicate;
import java.util.function.ToIntFunction;
import padward.design.Branches;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;

/**
 * What a design would be after some edits: a what-if, which leaves the design alone. Cells, nets
 * and ports keep their order and their names, not their numbers.
 */
public final class WhatIf {
    private final Design design;
    private final Cell[] cells;
    private final Net[] nets;
    private final List<Port> ports;

    private WhatIf(Design design) {
        this.design = design;
        this.cells = design.cells().toArray(new Cell[0]);
        this.nets = design.nets().toArray(new Net[0]);
        this.ports = new ArrayList<>(design.ports());
    }

    /**
     * The design after the edits, in their order. O(size of the design).
     *
     * @throws IllegalArgumentException when an edit names what is not there (any more), or lays
     *     wires where others lie
     */
    public static Design of(Design design, List<Edit> edits) {
        if (edits.isEmpty()) {
            return design;
        }
        WhatIf whatIf = new WhatIf(design);
        edits.forEach(whatIf::apply);
        return whatIf.build();
    }

    private void apply(Edit edit) {
        if (edit instanceof Edit.DisconnectPort go) {
            disconnected(index(ports.toArray(new Port[0]), Port::name, go.port(), "port"));
        } else if (edit instanceof Edit.RemoveNet free) {
            nets[index(nets, Net::name, free.net(), "net")] = null;
        } else if (edit instanceof Edit.RemoveCell free) {
            freeCell(index(cells, Cell::name, free.cell(), "cell"));
        } else if (edit instanceof Edit.RouteNet route) {
            route(route);
        } else if (edit instanceof Edit.RelocateCell move) {
            moveCell(move);
        } else if (edit instanceof Edit.SetCell set) {
            setCell(set);
        } else if (edit instanceof Edit.BreakOut out) {
            breakOut(out);
        }
    }

    private static <T> int index(T[] all, Function<T, String> name, String wanted, String kind) {
        for (int i = 0; i < all.length; i++) {
            if (all[i] != null && name.apply(all[i]).equals(wanted)) {
                return i;
            }
        }
        throw new IllegalArgumentException("there is no " + kind + " " + wanted);
    }

    private void disconnected(int port) {
        dropEnds(new Terminal.PortEnd(port)::equals);
        ports.set(port, null);
    }

    private void freeCell(int cell) {
        dropEnds(t -> t instanceof Terminal.CellPin at && at.cell() == cell);
        cells[cell] = null;
    }

    /** Takes ends away from all nets; nets without their driver go altogether. */
    private void dropEnds(Function<Terminal, Boolean> gone) {
        for (int i = 0; i < nets.length; i++) {
            Net net = nets[i];
            if (net == null) {
                continue;
            }
            if (gone.apply(net.driver())) {
                nets[i] = null;
            } else if (net.sinks().stream().anyMatch(gone::apply)) {
                nets[i] = withoutEnds(net, gone);
            }
        }
    }

    private Net withoutEnds(Net net, Function<Terminal, Boolean> gone) {
        IntSet given = new IntOpenHashSet();
        IntSet kept = new IntOpenHashSet();
        List<Terminal> sinks = new ArrayList<>();
        for (Terminal sink : net.sinks()) {
            if (gone.apply(sink)) {
                given.add(vertexOf(sink));
            } else {
                kept.add(vertexOf(sink));
                sinks.add(sink);
            }
        }
        boolean[] places = Branches.servingOnly(net.route(), given, kept);
        return net.withSinks(sinks).withRoute(Branches.without(net.route(), places));
    }

    private int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return design.fabric().site(cells[at.cell()].site()).findPin(at.pin());
        }
        int pad = ports.get(((Terminal.PortEnd) terminal).port()).pad();
        return design.fabric().pads().get(pad).vertex();
    }

    private void route(Edit.RouteNet route) {
        int net = index(nets, Net::name, route.net(), "net");
        nets[net] = nets[net].withRoute(route.route());
    }

    private void moveCell(Edit.RelocateCell move) {
        int cell = index(cells, Cell::name, move.cell(), "cell");
        int site = design.fabric().findSite(move.site());
        if (site < 0) {
            throw new IllegalArgumentException("there is no site " + move.site());
        }
        Cell old = cells[cell];
        cells[cell] = new Cell(old.id(), old.name(), old.kind(), site, old.settings());
        move.nets().forEach(this::route);
    }

    private void breakOut(Edit.BreakOut out) {
        int net = index(nets, Net::name, out.net(), "net");
        int pad =
                PadNames.findExact(design.fabric(), out.pad())
                        .orElseThrow(
                                () -> new IllegalArgumentException("there is no pad " + out.pad()));
        for (Port port : ports) {
            if (port != null && port.pad() == pad) {
                throw new IllegalArgumentException(
                        "port " + port.name() + " is already on pad " + out.pad());
            }
            if (port != null && port.name().equals(out.port())) {
                throw new IllegalArgumentException("port " + out.port() + " already exists");
            }
        }
        RouteTree.Builder tree = RouteTree.Builder.from(nets[net].route());
        for (int i = 1; i < out.route().size(); i++) {
            tree.add(out.route().get(i - 1), out.route().get(i));
        }
        int port = ports.size();
        ports.add(new Port(port, out.port(), PortDirection.OUT, pad, out.setting()));
        List<Terminal> sinks = new ArrayList<>(nets[net].sinks());
        sinks.add(new Terminal.PortEnd(port));
        nets[net] = nets[net].withSinks(sinks).withRoute(tree.build());
    }

    private void setCell(Edit.SetCell set) {
        int cell = index(cells, Cell::name, set.cell(), "cell");
        Cell old = cells[cell];
        Map<String, String> settings = new HashMap<>(old.settings());
        settings.put(set.setting(), set.value());
        cells[cell] = new Cell(old.id(), old.name(), old.kind(), old.site(), settings);
    }

    private Design build() {
        int[] newCell = renumbering(cells.length, i -> cells[i] != null);
        int[] newPort = renumbering(ports.size(), i -> ports.get(i) != null);
        List<Cell> keptCells = new ArrayList<>();
        for (Cell c : cells) {
            if (c != null) {
                keptCells.add(
                        new Cell(newCell[c.id()], c.name(), c.kind(), c.site(), c.settings()));
            }
        }
        List<Port> keptPorts = new ArrayList<>();
        for (Port p : ports) {
            if (p != null) {
                keptPorts.add(
                        new Port(newPort[p.id()], p.name(), p.direction(), p.pad(), p.setting()));
            }
        }
        ToIntFunction<Terminal> number =
                t ->
                        t instanceof Terminal.CellPin at
                                ? newCell[at.cell()]
                                : newPort[((Terminal.PortEnd) t).port()];
        Function<Terminal, Terminal> renumbered =
                t ->
                        t instanceof Terminal.CellPin at
                                ? new Terminal.CellPin(number.applyAsInt(t), at.pin())
                                : new Terminal.PortEnd(number.applyAsInt(t));
        List<Net> keptNets = new ArrayList<>();
        for (Net n : nets) {
            if (n != null) {
                keptNets.add(
                        new Net(
                                keptNets.size(),
                                n.name(),
                                renumbered.apply(n.driver()),
                                n.sinks().stream().map(renumbered).toList(),
                                n.route(),
                                n.clock(),
                                n.requiredPs(),
                                renumbered(n.requiredAtPs(), renumbered)));
            }
        }
        return new Design(
                design.name(),
                design.note(),
                design.fabric(),
                design.board(),
                keptCells,
                keptNets,
                keptPorts);
    }

    private static Map<Terminal, Integer> renumbered(
            Map<Terminal, Integer> required, Function<Terminal, Terminal> renumbered) {
        Map<Terminal, Integer> result = new HashMap<>();
        required.forEach((sink, ps) -> result.put(renumbered.apply(sink), ps));
        return result;
    }

    private static int[] renumbering(int size, IntPredicate kept) {
        int[] result = new int[size];
        int next = 0;
        for (int i = 0; i < size; i++) {
            result[i] = kept.test(i) ? next++ : -1;
        }
        return result;
    }
}
