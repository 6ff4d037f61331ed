package padward.format;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.RouteTree;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;

/**
 * Makes trees of the routes of a design's nets, and sees that they share nothing and use only
 * switches, joints and through-paths that are there and free.
 */
final class RouteChecker {
    private final Fabric fabric;
    private final EdgeCursor edges;
    private final List<Cell> cells;
    private final List<String> netNames = new ArrayList<>();
    private final Int2IntOpenHashMap netByVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap netThroughSite = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap cellBySite = new Int2IntOpenHashMap();

    RouteChecker(Fabric fabric, List<Cell> cells) {
        this.fabric = fabric;
        this.edges = fabric.edgesOut();
        this.cells = cells;
        netByVertex.defaultReturnValue(Fabric.NOTHING);
        netThroughSite.defaultReturnValue(Fabric.NOTHING);
        cellBySite.defaultReturnValue(Fabric.NOTHING);
        for (Cell cell : cells) {
            cellBySite.put(cell.site(), cell.id());
        }
    }

    /** Reads the name of a vertex. */
    int readVertex(JsonIn in) throws BadInput {
        String name = in.name();
        int vertex = fabric.findVertex(name);
        if (vertex == Fabric.NOTHING) {
            throw Names.unknown(
                    in,
                    "wire, pin (site.pin) or pad",
                    name,
                    () -> IntStream.range(0, fabric.vertexCount()).mapToObj(fabric::vertexName));
        }
        return vertex;
    }

    /** The tree of the next net; nets come in the order of their numbers. */
    RouteTree check(JsonIn in, String place, String net, int root, List<IntArrayList> branches)
            throws BadInput {
        int id = netNames.size();
        netNames.add(net);
        RouteTree.Builder tree = new RouteTree.Builder(root);
        take(in, place + ".driver", id, root);
        for (int b = 0; b < branches.size(); b++) {
            String at = place + ".route[" + b + "]";
            IntArrayList branch = branches.get(b);
            checkStart(in, at, tree, root, b, branch);
            for (int i = 1; i < branch.size(); i++) {
                int from = branch.getInt(i - 1);
                int to = branch.getInt(i);
                checkEdge(in, at, i, id, from, to);
                if (tree.contains(to)) {
                    throw in.faultAt(
                            at + "[" + i + "]",
                            "a wire, pin or pad that is driven once",
                            quote(to) + ", which net " + Text.quote(net) + " drives already");
                }
                take(in, at + "[" + i + "]", id, to);
                tree.add(from, to);
            }
        }
        return tree.build();
    }

    private String quote(int vertex) {
        return Text.quote(fabric.vertexName(vertex));
    }

    private void take(JsonIn in, String place, int net, int vertex) throws BadInput {
        int before = netByVertex.putIfAbsent(vertex, net);
        if (before != Fabric.NOTHING) {
            throw in.faultAt(
                    place,
                    "a wire, pin or pad that only one net has",
                    quote(vertex)
                            + ", which nets "
                            + Text.quote(netNames.get(before))
                            + " and "
                            + Text.quote(netNames.get(net))
                            + " both have");
        }
    }

    private void checkStart(
            JsonIn in, String at, RouteTree.Builder tree, int root, int number, IntArrayList branch)
            throws BadInput {
        if (branch.size() < 2) {
            throw in.faultAt(at, "a branch of two names at least", branch.size() + " of them");
        }
        int start = branch.getInt(0);
        if (number == 0 && start != root) {
            throw in.faultAt(at + "[0]", "the driver's " + quote(root), quote(start));
        }
        if (!tree.contains(start)) {
            throw in.faultAt(
                    at + "[0]",
                    "a start that an earlier branch has reached",
                    quote(start) + ", which none has");
        }
    }

    private void checkEdge(JsonIn in, String at, int index, int net, int from, int to)
            throws BadInput {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                if (edges.kind() == EdgeKind.THROUGH) {
                    checkThrough(in, at + "[" + index + "]", net, fabric.siteOf(to));
                }
                return;
            }
        }
        throw in.faultAt(
                at + "[" + index + "]",
                "a switch, joint or through-path from " + quote(from) + " to it",
                quote(to) + ", to which there is none");
    }

    private void checkThrough(JsonIn in, String place, int net, int site) throws BadInput {
        int cell = cellBySite.get(site);
        if (cell != Fabric.NOTHING && !cells.get(cell).letsThrough()) {
            throw in.faultAt(
                    place,
                    "a way through a site that is free, or whose cell has the setting through ="
                            + " open",
                    "site "
                            + fabric.site(site).name()
                            + ", which cell "
                            + Text.quote(cells.get(cell).name())
                            + " holds");
        }
        int before = netThroughSite.put(site, net);
        if (before != Fabric.NOTHING && before != net) {
            throw in.faultAt(
                    place,
                    "a site that one net goes through",
                    "site "
                            + fabric.site(site).name()
                            + ", through which net "
                            + Text.quote(netNames.get(before))
                            + " goes already");
        }
    }
}
