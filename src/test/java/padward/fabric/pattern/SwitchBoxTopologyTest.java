package padward.fabric.pattern;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.jgrapht.Graph;
import org.jgrapht.alg.connectivity.ConnectivityInspector;
import org.jgrapht.graph.DefaultEdge;
import org.jgrapht.graph.SimpleGraph;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The topologies against what is published of them. Formulas: Wilton, PhD thesis, Toronto 1997,
 * Fig. 6.3, and Chang, Wong, Wong, ACM TODAES 1(1), 1996, both from memory; numbers of switches and
 * of connected parts recomputed independently.
 */
class SwitchBoxTopologyTest {
    @Test
    void wiltonMapsAsPublished() {
        int width = 5;
        for (int t = 0; t < width; t++) {
            assertThat(SwitchBoxTopology.WILTON.map(Side.LEFT, Side.TOP, t, width))
                    .isEqualTo(Math.floorMod(-t, width));
            assertThat(SwitchBoxTopology.WILTON.map(Side.TOP, Side.RIGHT, t, width))
                    .isEqualTo(Math.floorMod(t + 1, width));
            assertThat(SwitchBoxTopology.WILTON.map(Side.RIGHT, Side.BOTTOM, t, width))
                    .isEqualTo(Math.floorMod(-t - 2, width));
            assertThat(SwitchBoxTopology.WILTON.map(Side.BOTTOM, Side.LEFT, t, width))
                    .isEqualTo(Math.floorMod(t - 1, width));
        }
    }

    @Test
    void universalMapsAsPublished() {
        assertThat(SwitchBoxTopology.UNIVERSAL.map(Side.LEFT, Side.TOP, 1, 6)).isEqualTo(4);
        assertThat(SwitchBoxTopology.UNIVERSAL.map(Side.RIGHT, Side.BOTTOM, 1, 6)).isEqualTo(4);
        assertThat(SwitchBoxTopology.UNIVERSAL.map(Side.TOP, Side.RIGHT, 1, 6)).isEqualTo(1);
        assertThat(SwitchBoxTopology.UNIVERSAL.map(Side.BOTTOM, Side.LEFT, 1, 6)).isEqualTo(1);
    }

    @ParameterizedTest
    @EnumSource(SwitchBoxTopology.class)
    void straightThroughKeepsTheTrack(SwitchBoxTopology topology) {
        assertThat(topology.map(Side.LEFT, Side.RIGHT, 3, 7)).isEqualTo(3);
        assertThat(topology.map(Side.BOTTOM, Side.TOP, 3, 7)).isEqualTo(3);
    }

    @ParameterizedTest
    @EnumSource(SwitchBoxTopology.class)
    void switchesLeadBackWhereTheyCameFrom(SwitchBoxTopology topology) {
        for (int width = 1; width <= 8; width++) {
            for (Side from : Side.values()) {
                for (Side to : Side.values()) {
                    for (int t = 0; t < width && from != to; t++) {
                        int there = topology.map(from, to, t, width);
                        assertThat(topology.map(to, from, there, width)).isEqualTo(t);
                    }
                }
            }
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 8})
    void switchesAndConnectedPartsAreAsPublished(int width) {
        assertThat(box(SwitchBoxTopology.DISJOINT, width).edgeSet()).hasSize(6 * width);
        assertThat(box(SwitchBoxTopology.UNIVERSAL, width).edgeSet()).hasSize(6 * width);
        assertThat(box(SwitchBoxTopology.WILTON, width).edgeSet()).hasSize(6 * width);
        assertThat(parts(SwitchBoxTopology.DISJOINT, width)).isEqualTo(width);
        assertThat(parts(SwitchBoxTopology.UNIVERSAL, width)).isEqualTo((width + 1) / 2);
        assertThat(parts(SwitchBoxTopology.WILTON, width)).isEqualTo(1);
    }

    @Test
    void refusesASideToItself() {
        assertThatThrownBy(() -> SwitchBoxTopology.WILTON.map(Side.TOP, Side.TOP, 0, 4))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static int parts(SwitchBoxTopology topology, int width) {
        return new ConnectivityInspector<>(box(topology, width)).connectedSets().size();
    }

    private static Graph<String, DefaultEdge> box(SwitchBoxTopology topology, int width) {
        Graph<String, DefaultEdge> graph = new SimpleGraph<>(DefaultEdge.class);
        for (Side side : Side.values()) {
            for (int t = 0; t < width; t++) {
                graph.addVertex(side + " " + t);
            }
        }
        for (Side from : Side.values()) {
            for (Side to : Side.values()) {
                for (int t = 0; t < width && from != to; t++) {
                    graph.addEdge(from + " " + t, to + " " + topology.map(from, to, t, width));
                }
            }
        }
        return graph;
    }
}
