package padward.change;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.PadNames;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * Says exactly what stands against some edits, before they are applied together. What is
 * disconnected, freed and set goes first; then everything that is laid is looked at, not minding
 * nets and cells that are moved by the same edits.
 */
final class EditCheck {
    private final Design design;
    private final Fabric fabric;
    private final Set<String> movedNets = new HashSet<>();
    private final Set<String> movedCells = new HashSet<>();
    private final List<String> reasons = new ArrayList<>();

    private EditCheck(Design design) {
        this.design = design;
        this.fabric = design.fabric();
    }

    /** What stands against some edits; nothing when they can be applied. */
    static List<String> against(Design design, List<Edit> edits) {
        Design freed = design;
        List<Edit> others = new ArrayList<>();
        for (Edit edit : edits) {
            boolean frees =
                    edit instanceof Edit.DisconnectPort
                            || edit instanceof Edit.RemoveNet
                            || edit instanceof Edit.RemoveCell
                            || edit instanceof Edit.SetCell;
            if (!frees) {
                others.add(edit);
                continue;
            }
            EditCheck check = new EditCheck(freed);
            check.check(edit);
            if (!check.reasons.isEmpty()) {
                return check.reasons;
            }
            freed = WhatIf.of(freed, List.of(edit));
        }
        EditCheck check = new EditCheck(freed);
        others.forEach(check::noteMoved);
        others.forEach(check::check);
        if (check.reasons.isEmpty()) {
            try {
                WhatIf.of(design, edits);
            } catch (IllegalArgumentException fault) {
                check.reasons.add(fault.getMessage());
            }
        }
        return check.reasons;
    }

    private void noteMoved(Edit edit) {
        if (edit instanceof Edit.RouteNet route) {
            movedNets.add(route.net());
        } else if (edit instanceof Edit.RelocateCell move) {
            movedCells.add(move.cell());
            move.nets().forEach(n -> movedNets.add(n.net()));
        }
    }

    private void check(Edit edit) {
        if (edit instanceof Edit.DisconnectPort go) {
            if (design.ports().stream().noneMatch(p -> p.name().equals(go.port()))) {
                reasons.add("there is no port " + go.port());
            }
        } else if (edit instanceof Edit.RemoveNet free) {
            net(free.net());
        } else if (edit instanceof Edit.RemoveCell free) {
            cell(free.cell());
        } else if (edit instanceof Edit.SetCell set) {
            cell(set.cell());
        } else if (edit instanceof Edit.RouteNet route) {
            net(route.net()).ifPresent(n -> route(n, route.route(), Optional.empty()));
        } else if (edit instanceof Edit.RelocateCell move) {
            move(move);
        } else if (edit instanceof Edit.BreakOut out) {
            net(out.net()).ifPresent(n -> breakOut(n, out));
        }
    }

    private Optional<Net> net(String name) {
        Optional<Net> net = design.findNet(name);
        if (net.isEmpty()) {
            reasons.add("there is no net " + name);
        }
        return net;
    }

    private Optional<Cell> cell(String name) {
        Optional<Cell> cell = design.findCell(name);
        if (cell.isEmpty()) {
            reasons.add("there is no cell " + name);
        }
        return cell;
    }

    private void move(Edit.RelocateCell move) {
        Optional<Cell> cell = cell(move.cell());
        int site = fabric.findSite(move.site());
        if (site == Fabric.NOTHING) {
            reasons.add("there is no site " + move.site());
        }
        if (cell.isEmpty() || site == Fabric.NOTHING) {
            return;
        }
        SiteView view = fabric.site(site);
        if (!view.accepts().contains(cell.get().kind())) {
            reasons.add(
                    "site " + move.site() + " does not accept cells of kind " + cell.get().kind());
        }
        for (int pin = 0; pin < view.pins().size(); pin++) {
            free(view.firstPin() + pin, cell.get().id());
        }
        move.nets()
                .forEach(route -> net(route.net()).ifPresent(n -> route(n, route.route(), cell)));
    }

    /** Whether a route's vertices are the net's own, or free, or the moved cell's. */
    private void route(Net net, RouteTree route, Optional<Cell> moved) {
        for (int place = 0; place < route.size(); place++) {
            if (place > 0) {
                edge(route.vertex(route.parent(place)), route.vertex(place));
            }
            boolean pin = fabric.siteOf(route.vertex(place)) != Fabric.NOTHING;
            boolean ofCell = pin && (moved.isPresent() || isEnd(net, route.vertex(place)));
            if (!ofCell) {
                free(route.vertex(place), net);
            }
        }
        if (moved.isEmpty()) {
            if (route.root() != net.route().root()) {
                reasons.add("the new route of net " + net.name() + " does not start at its driver");
            }
            IntSet reached = new IntOpenHashSet(route.toVertices());
            for (Terminal sink : net.sinks()) {
                int vertex = design.vertexOf(sink);
                boolean before = net.route().placeOf(vertex) != Fabric.NOTHING;
                if (before && !reached.contains(vertex)) {
                    reasons.add(
                            "the new route of net "
                                    + net.name()
                                    + " does not reach "
                                    + design.textOf(sink));
                }
            }
        }
    }

    private boolean isEnd(Net net, int vertex) {
        return net.ends().stream().anyMatch(t -> design.vertexOf(t) == vertex);
    }

    private void breakOut(Net net, Edit.BreakOut out) {
        boolean routed = movedNets.contains(net.name());
        boolean begins =
                !out.route().isEmpty()
                        && (routed || net.route().placeOf(out.route().get(0)) != Fabric.NOTHING);
        if (!begins) {
            reasons.add("the route does not start on net " + net.name());
            return;
        }
        for (int i = 1; i < out.route().size(); i++) {
            edge(out.route().get(i - 1), out.route().get(i));
            if (design.occupancy().isOccupied(out.route().get(i))) {
                free(out.route().get(i), net);
            }
        }
        OptionalInt pad = PadNames.findExact(fabric, out.pad());
        design.ports().stream()
                .filter(p -> pad.isPresent() && p.pad() == pad.getAsInt())
                .forEach(p -> reasons.add("port " + p.name() + " is already on pad " + out.pad()));
        if (design.ports().stream().anyMatch(p -> p.name().equals(out.port()))) {
            reasons.add("port " + out.port() + " already exists");
        }
        if (pad.isEmpty()) {
            reasons.add("there is no pad " + out.pad());
        } else if (!fabric.pads().get(pad.getAsInt()).directions().canDrive()) {
            reasons.add("pad " + out.pad() + " is input-only");
        }
        if (!out.setting().isEmpty() && fabric.info().findSetting(out.setting()).isEmpty()) {
            reasons.add("there is no driver setting " + out.setting());
        }
    }

    private void edge(int from, int to) {
        EdgeCursor edges = fabric.edgesOut();
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return;
            }
        }
        reasons.add(
                "no switch leads from " + fabric.vertexName(from) + " to " + fabric.vertexName(to));
    }

    private void free(int vertex, Net forNet) {
        design.occupancy()
                .findOccupant(vertex)
                .filter(o -> !(o instanceof Occupant.ByNet by && by.net().id() == forNet.id()))
                .ifPresent(o -> used(vertex, o));
    }

    private void free(int vertex, int forCell) {
        design.occupancy()
                .findOccupant(vertex)
                .filter(o -> !(o instanceof Occupant.ByCell by && by.cell().id() == forCell))
                .ifPresent(o -> used(vertex, o));
    }

    private void used(int vertex, Occupant by) {
        boolean moved =
                (by instanceof Occupant.ByCell ? movedCells : movedNets).contains(by.name());
        if (moved) {
            return;
        }
        String who = by instanceof Occupant.ByCell ? "cell " : "net ";
        reasons.add(fabric.vertexName(vertex) + " is used by " + who + by.name());
    }
}
