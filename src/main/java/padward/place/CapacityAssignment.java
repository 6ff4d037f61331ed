package padward.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jgrapht.alg.flow.EdmondsKarpMFImpl;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;

/**
 * How many blocks of each group go to each class of spots: a maximum flow from groups to classes
 * (Ford and Fulkerson, Canad. J. Math. 8, 1956; by JGraphT's Edmonds-Karp). If it is too small, the
 * minimum cut names the groups that need more spots than there are.
 */
final class CapacityAssignment {
    private static final String SOURCE = "source";
    private static final String SINK = "sink";

    private final int[][] counts;
    private final List<Integer> tooMany;
    private final int shortBy;
    private final int shortSpots;

    /**
     * @param demand blocks of each group
     * @param supply free spots of each class
     */
    CapacityAssignment(int[] demand, int[] supply, PlacementSites sites) {
        SimpleDirectedWeightedGraph<String, DefaultWeightedEdge> graph =
                new SimpleDirectedWeightedGraph<>(DefaultWeightedEdge.class);
        graph.addVertex(SOURCE);
        graph.addVertex(SINK);
        for (int c = 0; c < supply.length; c++) {
            graph.addVertex("c" + c);
            graph.setEdgeWeight(graph.addEdge("c" + c, SINK), supply[c]);
        }
        int wanted = 0;
        for (int g = 0; g < demand.length; g++) {
            wanted += demand[g];
            graph.addVertex("g" + g);
            graph.setEdgeWeight(graph.addEdge(SOURCE, "g" + g), demand[g]);
            for (int c = 0; c < supply.length; c++) {
                if (sites.classAccepts(c, g)) {
                    graph.setEdgeWeight(graph.addEdge("g" + g, "c" + c), demand[g]);
                }
            }
        }
        EdmondsKarpMFImpl<String, DefaultWeightedEdge> flow = new EdmondsKarpMFImpl<>(graph);
        shortBy = wanted - (int) Math.round(flow.calculateMaximumFlow(SOURCE, SINK));
        Set<String> cut = flow.getSourcePartition();
        tooMany = new ArrayList<>();
        counts = new int[demand.length][supply.length];
        int few = 0;
        for (int g = 0; g < demand.length; g++) {
            if (cut.contains("g" + g)) {
                tooMany.add(g);
            }
            for (int c = 0; c < supply.length; c++) {
                DefaultWeightedEdge edge = graph.getEdge("g" + g, "c" + c);
                counts[g][c] = edge == null ? 0 : (int) Math.round(flow.getFlowMap().get(edge));
            }
        }
        for (int c = 0; c < supply.length; c++) {
            few += cut.contains("c" + c) ? supply[c] : 0;
        }
        shortSpots = few;
    }

    /** How many blocks have no spot. */
    int shortBy() {
        return shortBy;
    }

    /** The groups that together need more spots than they can use. */
    List<Integer> tooMany() {
        return tooMany;
    }

    /** How many spots these groups can use. */
    int tooManySpots() {
        return shortSpots;
    }

    /** How many blocks of a group go to spots of a class. */
    int count(int group, int spotClass) {
        return counts[group][spotClass];
    }
}
