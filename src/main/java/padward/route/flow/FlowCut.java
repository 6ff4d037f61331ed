package padward.route.flow;

import java.util.List;

/**
 * A bottleneck: all routes of some nets to any goal pass one of fewer vertices (Menger 1927). Hence
 * no more of these nets can have a route than there are such vertices.
 *
 * @param nets positions of these nets, ascending
 * @param vertices the vertices, ascending; fewer than nets
 * @param near what lies on the nets' side of it
 */
public record FlowCut(List<Integer> nets, List<Integer> vertices, NearSide near) {
    /** Copies the lists. */
    public FlowCut {
        nets = List.copyOf(nets);
        vertices = List.copyOf(vertices);
    }
}
