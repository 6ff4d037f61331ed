package padward.format.design;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Port;
import padward.design.RouteTree;
import padward.fabric.Fabric;
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
    RouteTree check(JsonIn in, String place, String net, int root, List<IntArrayList> branches)
            throws BadInput {
        int id = netNames.size();
        netNames.add(net);
        RouteTree.Builder tree = new RouteTree.Builder(root);
        in.require(place + ".driver", rules.start(id, root));
        for (int b = 0; b < branches.size(); b++) {
            String at = place + ".route[" + b + "]";
            IntArrayList branch = branches.get(b);
            checkStart(in, at, tree, root, b, branch);
            for (int i = 1; i < branch.size(); i++) {
                int from = branch.getInt(i - 1);
                int to = branch.getInt(i);
                String step = at + "[" + i + "]";
                in.require(step, rules.step(id, from, to));
                if (tree.contains(to)) {
                    throw in.faultAt(
                            step,
                            "a wire, pin or pad that is driven once",
                            quote(to) + ", which net " + Text.quote(net) + " drives already");
                }
                in.require(step, rules.take(id, to));
                tree.add(from, to);
            }
        }
        return tree.build();
    }

    private String quote(int vertex) {
        return Text.quote(fabric.vertexName(vertex));
    }

    private void checkStart(
            JsonIn in, String at, RouteTree.Builder tree, int root, int number, IntArrayList branch)
            throws BadInput {
        if (branch.size() < 2) {
            throw in.faultAt(at, "a branch of at least two names", branch.size() + " of them");
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
}
