package padward.fabric.explicit;

import padward.fabric.EdgeKind;

/**
 * Two vertices between which more than one edge was stated.
 *
 * @param from full name of the vertex where they begin
 * @param to full name of the one where they end
 * @param kept what the edge is that was stated first
 */
public record ParallelEdges(String from, String to, EdgeKind kept) {}
