package padward.route.jgrapht;

/**
 * An edge as JGraphT sees it; equal when both ends are.
 *
 * @param from vertex that it leaves
 * @param to vertex that it enters
 */
public record FabricEdge(int from, int to) {}
