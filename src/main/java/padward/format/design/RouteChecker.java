package padward.format.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.BadInput;
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
    /** Up to here, looking at all vertices is as quick as a table. */
    private static final int SMALL = 64;

    private final Fabric fabric;
    private final List<String> netNames = new ArrayList<>();
    private final RouteReadingRules rules;

    /** The tree that is being made. */
    private final IntArrayList vertices = new IntArrayList();

    private final IntArrayList parents = new IntArrayList();

    /** By vertex its place in that tree, once it is larger than {@link #SMALL}. */
    private Int2IntOpenHashMap placeByVertex = new Int2IntOpenHashMap();

    RouteChecker(Fabric fabric, List<Cell> cells, List<Port> ports) {
        this.fabric = fabric;
        this.rules = new RouteReadingRules(fabric, cells, ports, netNames);
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
    RouteTree check(JsonIn in, String net, int root, Branches branches) throws BadInput {
        int id = netNames.size();
        netNames.add(net);
        vertices.clear();
        parents.clear();
        require(in, ".driver", rules.start(id, root));
        append(root, Fabric.NOTHING);
        for (int b = 0; b < branches.count(); b++) {
            checkStart(in, id, root, b, branches);
            int from = branches.vertex(b, 0);
            int parent = placeOf(from);
            for (int i = 1; i < branches.size(b); i++) {
                int to = branches.vertex(b, i);
                Optional<DesignFault> fault = rules.step(id, from, to);
                if (fault.isEmpty()) {
                    fault = take(id, to);
                }
                if (fault.isPresent()) {
                    require(in, ".route[" + b + "][" + i + "]", fault);
                }
                parent = append(to, parent);
                from = to;
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
        vertices.add(vertex);
        parents.add(parent);
        if (place == SMALL) {
            placeByVertex = new Int2IntOpenHashMap();
            for (int earlier = 0; earlier < SMALL; earlier++) {
                placeByVertex.put(vertices.getInt(earlier), earlier);
            }
        }
        if (place >= SMALL) {
            placeByVertex.put(vertex, place);
        }
        return place;
    }

    /** The place in the tree of a vertex that it has. */
    private int placeOf(int vertex) {
        return vertices.size() > SMALL ? placeByVertex.get(vertex) : vertices.indexOf(vertex);
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

    private void checkStart(JsonIn in, int net, int root, int number, Branches branches)
            throws BadInput {
        String fault = "";
        String found = "";
        boolean few = branches.size(number) < 2;
        int start = few ? Fabric.NOTHING : branches.vertex(number, 0);
        if (few) {
            fault = "a branch of at least two names";
            found = branches.size(number) + " of them";
        } else if (number == 0 && start != root) {
            fault = "the driver's " + quote(root);
            found = quote(start);
        } else if (!isOn(net, start)) {
            fault = "a start that an earlier branch has reached";
            found = quote(start) + ", which none has";
        }
        if (!fault.isEmpty()) {
            String at = in.place() + ".route[" + number + "]";
            throw in.faultAt(few ? at : at + "[0]", fault, found);
        }
    }
}
