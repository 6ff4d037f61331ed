package padward.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.fabric.Unusable;
import padward.fabric.review.ClockWires;
import padward.fabric.review.Finding;
import padward.fabric.review.Oddity;

/** Looks a design through for what is sound but seldom meant. O(ends + route steps). */
public final class DesignReview {
    private DesignReview() {}

    /** What is suspicious, in words. */
    public static List<String> of(Design design) {
        return findings(design).stream().map(Finding::text).toList();
    }

    /** What is suspicious. */
    public static List<Finding> findings(Design design) {
        List<String> unrouted = new ArrayList<>();
        List<String> unreached = new ArrayList<>();
        List<String> idle = new ArrayList<>();
        List<String> stubs = new ArrayList<>();
        Set<Integer> cells = new HashSet<>();
        Set<Integer> ports = new HashSet<>();
        boolean clock = false;
        for (Net net : design.nets()) {
            clock |= net.clock();
            if (net.sinks().isEmpty()) {
                idle.add(net.name());
            } else if (net.route().size() == 1) {
                unrouted.add(net.name());
            } else {
                addUnreached(design, net, unreached);
            }
            if (hasStub(design, net)) {
                stubs.add(net.name());
            }
            for (Terminal end : net.ends()) {
                if (end instanceof Terminal.CellPin at) {
                    cells.add(at.cell());
                } else if (end instanceof Terminal.PortEnd at
                        && at.role() == Terminal.PortEnd.Role.PAD) {
                    ports.add(at.port());
                }
            }
        }
        List<Finding> findings = new ArrayList<>();
        find(findings, DesignOddity.UNROUTED_NETS, unrouted);
        find(findings, DesignOddity.UNREACHED_SINKS, unreached);
        find(findings, DesignOddity.NETS_WITHOUT_SINKS, idle);
        find(findings, DesignOddity.STUBS, stubs);
        find(
                findings,
                DesignOddity.UNCONNECTED_CELLS,
                design.cells().stream()
                        .filter(c -> !cells.contains(c.id()))
                        .map(Cell::name)
                        .toList());
        find(
                findings,
                DesignOddity.UNCONNECTED_PORTS,
                design.ports().stream()
                        .filter(p -> !ports.contains(p.id()))
                        .map(Port::name)
                        .toList());
        find(
                findings,
                DesignOddity.PORTS_ON_OTHER_PADS,
                design.ports().stream()
                        .filter(p -> !padOf(design, p).use().isOffered())
                        .map(p -> p.name() + ", " + padOf(design, p).use().whyNotOffered())
                        .toList());
        find(
                findings,
                DesignOddity.FOREIGN_SETTINGS,
                design.ports().stream()
                        .filter(p -> !p.setting().isEmpty())
                        .filter(p -> !padOf(design, p).use().driving().allows(p.setting()))
                        .map(p -> p.name() + ", " + p.setting())
                        .toList());
        find(
                findings,
                DesignOddity.CELLS_ON_UNUSABLE,
                design.cells().stream()
                        .filter(c -> design.fabric().unusable().isSite(c.site()))
                        .map(c -> c.name() + " on " + design.fabric().site(c.site()).name())
                        .toList());
        find(findings, DesignOddity.PINS_ON_TWO_NETS, pinsOnTwoNets(design.board()));
        find(findings, DesignOddity.NETS_OVER_UNUSABLE, netsOverUnusable(design));
        find(findings, DesignOddity.SINKS_OFF_CLOCK_WIRES, sinksOffClockWires(design));
        if (!clock && !design.nets().isEmpty()) {
            findings.add(Finding.of(DesignOddity.NO_CLOCK, ""));
        }
        if (!design.board().isKnown()) {
            findings.add(Finding.of(DesignOddity.NO_BOARD, ""));
        }
        return findings;
    }

    /** Resistors and other parts between nets are on both; a pin of a header is on one. */
    private static List<String> pinsOnTwoNets(Board board) {
        List<String> result = new ArrayList<>();
        Map<String, String> netByPin = new HashMap<>();
        for (PadWiring wiring : board.wirings()) {
            for (Attachment at : wiring.attachments()) {
                if (at.kind() == AttachmentKind.HEADER) {
                    String other = netByPin.putIfAbsent(at.toShortText(), wiring.net());
                    if (other != null && !other.equals(wiring.net())) {
                        result.add(at.toShortText() + " on " + other + " and " + wiring.net());
                    }
                }
            }
        }
        return result;
    }

    private static List<String> netsOverUnusable(Design design) {
        Unusable unusable = design.fabric().unusable();
        List<String> result = new ArrayList<>();
        for (Net net : design.nets()) {
            Arrays.stream(net.route().toVertices())
                    .filter(unusable::isVertex)
                    .findFirst()
                    .ifPresent(
                            v -> result.add(net.name() + " over " + design.fabric().vertexName(v)));
        }
        return result;
    }

    private static Pad padOf(Design design, Port port) {
        return design.fabric().pads().get(port.pad());
    }

    /** Sinks that a clock reaches over other wires than those that clock pads alone lead to. */
    private static List<String> sinksOffClockWires(Design design) {
        Set<String> clockKinds = ClockWires.kinds(design.fabric());
        List<String> result = new ArrayList<>();
        for (Net net : design.nets()) {
            RouteTree tree = net.route();
            if (!net.clock() || clockKinds.isEmpty() || tree.size() == 1) {
                continue;
            }
            Map<Integer, Integer> before = new HashMap<>();
            for (int place = 1; place < tree.size(); place++) {
                before.put(tree.vertex(place), tree.vertex(tree.parent(place)));
            }
            for (Terminal sink : net.sinks()) {
                Integer wire = before.get(design.vertexOf(sink));
                boolean off =
                        wire != null
                                && sink instanceof Terminal.CellPin
                                && !clockKinds.contains(design.fabric().wireKind(wire));
                if (off) {
                    result.add(design.textOf(sink));
                }
            }
        }
        return result;
    }

    private static void addUnreached(Design design, Net net, List<String> unreached) {
        Set<Integer> on = new HashSet<>();
        for (int vertex : net.route().toVertices()) {
            on.add(vertex);
        }
        net.sinks().stream()
                .filter(s -> !on.contains(design.vertexOf(s)))
                .forEach(s -> unreached.add(design.textOf(s)));
    }

    private static boolean hasStub(Design design, Net net) {
        RouteTree tree = net.route();
        boolean[] goesOn = new boolean[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            goesOn[tree.parent(place)] = true;
        }
        Set<Integer> sinks = new HashSet<>();
        net.sinks().forEach(s -> sinks.add(design.vertexOf(s)));
        for (int place = 1; place < tree.size(); place++) {
            if (!goesOn[place] && !sinks.contains(tree.vertex(place))) {
                return true;
            }
        }
        return false;
    }

    private static void find(List<Finding> findings, Oddity kind, List<String> names) {
        if (!names.isEmpty()) {
            findings.add(Finding.of(kind, names));
        }
    }
}
