package padward.format.design;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.PagedInts;
import padward.design.Cell;
import padward.design.Port;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.format.json.DesignFault;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.Text;

/**
 * Makes trees of the routes of a design's nets, and sees that they share nothing and use only
 * switches, fixed connections and pass-throughs that are there and free.
 */
final class RouteChecker {
    private final Fabric fabric;
    private final List<String> netNames = new ArrayList<>();
    private final RouteReadingRules rules;

    /** By vertex its place in the tree of the net that has it. */
    private final PagedInts placeByVertex;

    /** The tree that is being made. */
    private final IntArrayList vertices = new IntArrayList();

    private final IntArrayList parents = new IntArrayList();

    RouteChecker(Fabric fabric, List<Cell> cells, List<Port> ports) {
        this.fabric = fabric;
        this.rules = new RouteReadingRules(fabric, cells, ports, netNames);
        this.placeByVertex = new PagedInts(fabric.vertexCount());
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
    RouteTree check(JsonIn in, String net, int root, List<IntArrayList> branches) throws BadInput {
        int id = netNames.size();
        netNames.add(net);
        vertices.clear();
        parents.clear();
        require(in, ".driver", rules.start(id, root));
        append(root, Fabric.NOTHING);
        for (int b = 0; b < branches.size(); b++) {
            IntArrayList branch = branches.get(b);
            checkStart(in, id, root, b, branch);
            int parent = placeByVertex.get(branch.getInt(0));
            for (int i = 1; i < branch.size(); i++) {
                int to = branch.getInt(i);
                Optional<DesignFault> fault = rules.step(id, branch.getInt(i - 1), to);
                if (fault.isEmpty()) {
                    fault = take(id, to);
                }
                if (fault.isPresent()) {
                    require(in, ".route[" + b + "][" + i + "]", fault);
                }
                parent = append(to, parent);
            }
        }
        return RouteTree.ofPlaces(vertices.toIntArray(), parents.toIntArray());
    }

    /** Whether the tree of a net has a vertex. */
    boolean isOn(int net, int vertex) {
        return rules.isOn(net, vertex);
    }

    private int append(int vertex, int parent) {
        int place = vertices.size();
        placeByVertex.put(vertex, place);
        vertices.add(vertex);
        parents.add(parent);
        return place;
    }

    private Optional<DesignFault> take(int net, int vertex) {
        if (!isOn(net, vertex)) {
            return rules.take(net, vertex);
        }
        return DesignFileRules.trouble(
                "a wire, pin or pad that is driven once",
                quote(vertex) + ", which net " + Text.quote(netNames.get(net)) + " drives already");
    }

    private static void require(JsonIn in, String where, Optional<DesignFault> fault)
            throws BadInput {
        if (fault.isPresent()) {
            in.require(in.place() + where, fault);
        }
    }

    private String quote(int vertex) {
        return Text.quote(fabric.vertexName(vertex));
    }

    private void checkStart(JsonIn in, int net, int root, int number, IntArrayList branch)
            throws BadInput {
        String fault = "";
        String found = "";
        boolean few = branch.size() < 2;
        if (few) {
            fault = "a branch of at least two names";
            found = branch.size() + " of them";
        } else if (number == 0 && branch.getInt(0) != root) {
            fault = "the driver's " + quote(root);
            found = quote(branch.getInt(0));
        } else if (!isOn(net, branch.getInt(0))) {
            fault = "a start that an earlier branch has reached";
            found = quote(branch.getInt(0)) + ", which none has";
        }
        if (!fault.isEmpty()) {
            String at = in.place() + ".route[" + number + "]";
            throw in.faultAt(few ? at : at + "[0]", fault, found);
        }
    }
}
