package padward.ui.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;

/**
 * The vertex before each vertex in a net's tree. A tree is turned into a table on first use and
 * kept: a frame needs some hundred nets, often the large tree of a clock among them. Thread-safe.
 */
public final class TreeParents {
    private final Map<Integer, Int2IntOpenHashMap> byNet = new ConcurrentHashMap<>();

    /** The vertex before another in a net's tree; {@link Fabric#NOTHING} before the first. O(1). */
    public int parent(Net net, int vertex) {
        return byNet.computeIfAbsent(net.id(), n -> parents(net.route())).get(vertex);
    }

    private static Int2IntOpenHashMap parents(RouteTree tree) {
        Int2IntOpenHashMap result = new Int2IntOpenHashMap(tree.size());
        result.defaultReturnValue(Fabric.NOTHING);
        for (int place = 1; place < tree.size(); place++) {
            result.put(tree.vertex(place), tree.vertex(tree.parent(place)));
        }
        return result;
    }
}
