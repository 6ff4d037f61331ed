package padward.route.flow;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchSources;

/**
 * Flows of textbooks as fabrics. Written down from memory of the books; each value is also plain to
 * see, as said with it. An edge of capacity c becomes c wires, and a node joins each wire that
 * leads to it to each that leads away, so that vertices of capacity one say the same.
 */
class TextbookFlowTest {
    /** The factory that ships by truck: edges as from, to, capacity. */
    private static final String[][] SHIPPING = {
        {"s", "1", "16"},
        {"s", "2", "13"},
        {"1", "3", "12"},
        {"2", "1", "4"},
        {"3", "2", "9"},
        {"2", "4", "14"},
        {"4", "3", "7"},
        {"3", "t", "20"},
        {"4", "t", "4"}
    };

    /**
     * Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, third edition, figure 26.1:
     * 23, which the edges 1 to 3, 4 to 3 and 4 to t cut (12 + 7 + 4).
     */
    @Test
    void theShippingNetworkCarries23() {
        HandMade made = new HandMade();
        List<String> wires = new ArrayList<>();
        for (String[] edge : SHIPPING) {
            for (int i = 0; i < Integer.parseInt(edge[2]); i++) {
                String name = edge[0] + "x" + edge[1] + "x" + i;
                if (edge[1].equals("t")) {
                    made.pad(name);
                } else {
                    wires.add(name);
                }
            }
        }
        made.wires(String.join(" ", wires));
        for (String[] in : SHIPPING) {
            for (String[] out : SHIPPING) {
                if (in[1].equals(out[0])) {
                    joinAll(made, in, out);
                }
            }
        }
        for (int net = 0; net < 29; net++) {
            made.site("net" + net, "", "q");
            for (String[] edge : SHIPPING) {
                if (edge[0].equals("s")) {
                    for (int i = 0; i < Integer.parseInt(edge[2]); i++) {
                        made.chain("net" + net + ".q s" + "x" + edge[1] + "x" + i);
                    }
                }
            }
        }
        Fabric fabric = made.fabric();
        DisjointRoutes found = find(fabric, 29);
        assertThat(found.served()).isEqualTo(23);
        FlowCut cut = found.cut().orElseThrow();
        assertThat(cut.nets()).hasSize(29);
        assertThat(cut.vertices()).hasSize(23);
        assertThat(cut.vertices())
                .allMatch(
                        v -> {
                            String name = fabric.vertexName(v);
                            return name.contains("1x3x")
                                    || name.contains("4x3x")
                                    || name.contains("4xtx");
                        });
    }

    private static void joinAll(HandMade made, String[] in, String[] out) {
        for (int i = 0; i < Integer.parseInt(in[2]); i++) {
            for (int j = 0; j < Integer.parseInt(out[2]); j++) {
                made.chain(in[0] + "x" + in[1] + "x" + i + " " + out[0] + "x" + out[1] + "x" + j);
            }
        }
    }

    /**
     * The same book, figure 26.8, a bipartite graph of five and four: a matching of three, as 1 and
     * 2 alone have an edge to the first, and 2, 4 and 5 to the third.
     */
    @Test
    void theBipartiteGraphHasAMatchingOfThree() {
        HandMade made = new HandMade();
        String[] edges = {"1 1", "2 1", "2 3", "3 2", "3 3", "3 4", "4 3", "5 3"};
        for (int i = 1; i <= 5; i++) {
            made.site("net" + (i - 1), "", "q");
        }
        for (int i = 1; i <= 4; i++) {
            made.pad("p" + i);
        }
        for (String edge : edges) {
            String[] ends = edge.split(" ");
            made.chain("net" + (Integer.parseInt(ends[0]) - 1) + ".q p" + ends[1]);
        }
        DisjointRoutes found = find(made.fabric(), 5);
        assertThat(found.served()).isEqualTo(3);
        assertThat(found.cut().orElseThrow().nets()).contains(3, 4);
    }

    /**
     * The same book, problem 26-1, the escape problem: starting points in a grid escape to its rim
     * over paths that share no point. Of a block of three times three the middle cannot.
     */
    @Test
    void ofABlockInAGridTheMiddleCannotEscape() {
        int side = 9;
        HandMade made = new HandMade();
        List<String> wires = new ArrayList<>();
        int nets = 0;
        String[][] names = new String[side][side];
        for (int x = 0; x < side; x++) {
            for (int y = 0; y < side; y++) {
                boolean start = Math.abs(x - 4) <= 1 && Math.abs(y - 4) <= 1;
                boolean rim = x % (side - 1) == 0 || y % (side - 1) == 0;
                names[x][y] = start ? "net" + nets + ".q" : "g" + x + "y" + y;
                if (start) {
                    made.site("net" + nets++, "", "q");
                } else if (rim) {
                    made.pad(names[x][y]);
                } else {
                    wires.add(names[x][y]);
                }
            }
        }
        made.wires(String.join(" ", wires));
        for (int x = 1; x < side - 1; x++) {
            for (int y = 1; y < side - 1; y++) {
                for (String to :
                        List.of(
                                names[x - 1][y],
                                names[x + 1][y],
                                names[x][y - 1],
                                names[x][y + 1])) {
                    if (!to.startsWith("net")) {
                        made.chain(names[x][y] + " " + to);
                    }
                }
            }
        }
        DisjointRoutes found = find(made.fabric(), 9);
        assertThat(found.served()).isEqualTo(8);
        FlowCut cut = found.cut().orElseThrow();
        assertThat(cut.nets()).containsExactly(4);
        assertThat(cut.vertices()).isEmpty();
    }

    private static DisjointRoutes find(Fabric fabric, int nets) {
        List<FlowGoal> goals =
                IntStream.range(0, fabric.vertexCount())
                        .filter(v -> fabric.kind(v) == VertexKind.PAD)
                        .mapToObj(v -> new FlowGoal(v, 0))
                        .toList();
        List<SearchSources> sources =
                IntStream.range(0, nets)
                        .mapToObj(n -> SearchSources.at(vertex(fabric, "net" + n + ".q")))
                        .toList();
        DisjointRoutes found =
                DisjointRouteFinder.find(
                        fabric,
                        Corner.SLOW,
                        BlockedVertices.of(new BitSet()),
                        sources,
                        goals,
                        Progress.NONE);
        assertThat(found.proven()).isTrue();
        return found;
    }

    private static int vertex(Fabric fabric, String name) {
        return IntStream.range(0, fabric.vertexCount())
                .filter(
                        v ->
                                fabric.vertexName(v).equals(name)
                                        || fabric.vertexName(v).endsWith("/" + name))
                .findFirst()
                .orElseThrow();
    }
}
