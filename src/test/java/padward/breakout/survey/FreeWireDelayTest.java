package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.format.design.DesignReader;

/** The delay from tile to tile against JGraphT's search on a graph of the free vertices alone. */
class FreeWireDelayTest {
    private static final int FROM = -1;
    private static final int TO = -2;

    @ParameterizedTest
    @CsvSource({"only, x1y1, x6y5", "only, x4y4, x0y0", "around, x1y1, x3y2", "only, x2y2, x2y2"})
    void itIsTheShortestPathOverFreeVertices(String name, String from, String to) throws Exception {
        Design design =
                DesignReader.read(
                        Path.of("fixtures/small/" + name + ".design.json"), Progress.NONE);
        int start = tile(design.fabric(), from);
        int goal = tile(design.fabric(), to);
        Optional<Delay> found = FreeWireDelay.between(design, start, goal, Progress.NONE);
        for (Corner corner : Corner.values()) {
            assertThat(found.map(d -> d.at(corner)).orElse(-1))
                    .as(from + " to " + to + " " + corner)
                    .isEqualTo(plain(design, start, goal, corner));
        }
    }

    private static int tile(Fabric fabric, String name) {
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            if (fabric.tileName(tile).equals(name)) {
                return tile;
            }
        }
        throw new AssertionError("no tile " + name);
    }

    private static int plain(Design design, int from, int to, Corner corner) {
        Fabric fabric = design.fabric();
        SimpleDirectedWeightedGraph<Integer, DefaultWeightedEdge> graph =
                new SimpleDirectedWeightedGraph<>(DefaultWeightedEdge.class);
        List<Integer> free = new ArrayList<>();
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            if (!design.occupancy().isUsed(vertex) && !fabric.unusable().isVertex(vertex)) {
                free.add(vertex);
                graph.addVertex(vertex);
            }
        }
        graph.addVertex(FROM);
        graph.addVertex(TO);
        EdgeCursor edges = fabric.edgesOut();
        for (int vertex : free) {
            edges.reset(vertex);
            while (edges.next()) {
                if (graph.containsVertex(edges.other()) && edges.other() != vertex) {
                    DefaultWeightedEdge edge = graph.addEdge(vertex, edges.other());
                    int ps = edges.delayPs(corner);
                    if (edge != null) {
                        graph.setEdgeWeight(edge, ps);
                    }
                }
            }
            if (fabric.kind(vertex) == VertexKind.WIRE) {
                if (fabric.headTile(vertex) == from) {
                    graph.setEdgeWeight(graph.addEdge(FROM, vertex), 0);
                }
                if (fabric.headTile(vertex) == to) {
                    graph.setEdgeWeight(graph.addEdge(vertex, TO), 0);
                }
            }
        }
        var path = new DijkstraShortestPath<>(graph).getPath(FROM, TO);
        return path == null ? -1 : (int) path.getWeight();
    }
}
