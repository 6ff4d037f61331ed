package padward.route.flow;

import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jgrapht.alg.flow.PushRelabelMFImpl;
import org.jgrapht.alg.flow.mincost.CapacityScalingMinimumCostFlow;
import org.jgrapht.alg.flow.mincost.MinimumCostFlowProblem;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/** The greatest number of disjoint routes and their least cost, by two of JGraphT's flows. */
public final class FlowReferee {
    /** How many, and what they cost. */
    record Judgement(int most, long cost) {}

    private final SimpleDirectedWeightedGraph<String, DefaultWeightedEdge> graph =
            new SimpleDirectedWeightedGraph<>(DefaultWeightedEdge.class);

    private FlowReferee() {}

    /**
     * @param blocked vertices that no route may enter, apart from goals
     * @param trees by net where its route may start
     * @param starts what is spent until there
     */
    static Judgement judge(
            Fabric fabric,
            Corner corner,
            BitSet blocked,
            List<int[]> trees,
            List<int[]> starts,
            List<FlowGoal> goals) {
        FlowReferee referee = new FlowReferee();
        referee.build(fabric, corner, blocked, trees, starts, goals);
        Map<DefaultWeightedEdge, Double> costs = new HashMap<>();
        referee.graph.edgeSet().forEach(e -> costs.put(e, referee.graph.getEdgeWeight(e)));
        int most = referee.most();
        costs.forEach(referee.graph::setEdgeWeight);
        return new Judgement(most, referee.leastCost(most));
    }

    /** The greatest number alone, from vertices of trees to vertices of goals. */
    public static int most(
            Fabric fabric, BitSet blocked, List<int[]> trees, List<Integer> goalVertices) {
        FlowReferee referee = new FlowReferee();
        referee.build(
                fabric,
                Corner.SLOW,
                blocked,
                trees,
                trees.stream().map(t -> new int[t.length]).toList(),
                goalVertices.stream().map(v -> new FlowGoal(v, 0)).toList());
        return referee.most();
    }

    private void build(
            Fabric fabric,
            Corner corner,
            BitSet blocked,
            List<int[]> trees,
            List<int[]> starts,
            List<FlowGoal> goals) {
        graph.addVertex("S");
        graph.addVertex("T");
        BitSet closed = (BitSet) blocked.clone();
        BitSet from = (BitSet) blocked.clone();
        from.flip(0, fabric.vertexCount());
        for (int n = 0; n < trees.size(); n++) {
            arc("S", "n" + n, 0);
            for (int i = 0; i < trees.get(n).length; i++) {
                arc("n" + n, "o" + trees.get(n)[i], starts.get(n)[i]);
                closed.set(trees.get(n)[i]);
                from.set(trees.get(n)[i]);
            }
        }
        for (FlowGoal goal : goals) {
            arc("o" + goal.vertex(), "T", goal.cost());
            closed.clear(goal.vertex());
            from.clear(goal.vertex());
        }
        for (int v = closed.nextClearBit(0);
                v < fabric.vertexCount();
                v = closed.nextClearBit(v + 1)) {
            arc("i" + v, "o" + v, 0);
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                if (from.get(v) && !closed.get(edges.other()) && edges.other() != v) {
                    arc("o" + v, "i" + edges.other(), edges.delayPs(corner));
                }
            }
        }
    }

    private int most() {
        graph.edgeSet().forEach(e -> graph.setEdgeWeight(e, 1));
        return (int) Math.round(new PushRelabelMFImpl<>(graph).calculateMaximumFlow("S", "T"));
    }

    private long leastCost(int most) {
        double least =
                new CapacityScalingMinimumCostFlow<String, DefaultWeightedEdge>()
                        .getMinimumCostFlow(
                                new MinimumCostFlowProblem.MinimumCostFlowProblemImpl<>(
                                        graph,
                                        v -> v.equals("S") ? most : v.equals("T") ? -most : 0,
                                        e -> 1))
                        .getCost();
        return Math.round(least);
    }

    /** Of several edges between two vertices the fastest. */
    private void arc(String from, String to, int cost) {
        graph.addVertex(from);
        graph.addVertex(to);
        DefaultWeightedEdge edge = graph.addEdge(from, to);
        if (edge == null) {
            edge = graph.getEdge(from, to);
            graph.setEdgeWeight(edge, Math.min(cost, graph.getEdgeWeight(edge)));
        } else {
            graph.setEdgeWeight(edge, cost);
        }
    }
}
