package padward.unblock;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;
import padward.route.search.SearchSources;
import padward.unblock.weigh.Removal;
import padward.unblock.why.Chokepoint;
import padward.unblock.why.Chokepoints;
import padward.unblock.why.SearchLimits;

/** Explanations against published examples. */
class TextbookTest {
    /**
     * Lengauer and Tarjan, "A fast algorithm for finding dominators in a flowgraph", TOPLAS 1(1),
     * 1979, 121-141, figures 1 and 2 (graph and tree as transcribed by third parties, recomputed by
     * deleting vertices): immediate dominators A, B, C, D, E, H, I, K: R; F, G: C; J: G; L: D.
     */
    @ParameterizedTest
    @CsvSource({
        "A, ''", "B, ''", "C, ''", "D, ''", "E, ''", "H, ''", "I, ''", "K, ''", "F, C", "G, C",
        "J, C G", "L, D"
    })
    void dominatorsOfLengauerAndTarjan(String goal, String before) {
        UsedGraph graph =
                UsedGraph.of(
                        "R>A R>B R>C A>D B>A B>D B>E C>F C>G D>L E>H F>I G>I G>J H>E H>K I>K J>I"
                                + " K>I K>R L>H");
        Fabric fabric = graph.fabric();
        SearchSources starts = SearchSources.at(fabric.findVertex("R"));
        IntList route =
                SomeRoute.find(fabric, starts, fabric.findVertex(goal), CostModel.EMPTY_FABRIC);
        IntList found =
                Chokepoints.along(fabric, starts, route, CostModel.EMPTY_FABRIC, Progress.NONE);
        List<String> names = found.intStream().mapToObj(fabric::vertexName).toList();
        String expected = before.isEmpty() ? goal : before + " " + goal;
        assertThat(String.join(" ", names)).isEqualTo(expected);
    }

    /**
     * Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, 3rd edition, figure 26.1 (as
     * transcribed by third parties, recomputed): with one unit through each vertex two ways without
     * a common vertex lead from s to t, and v3 and v4 are a smallest set that cuts them.
     */
    @Test
    void vertexCutOfTheTextbookNetwork() {
        UsedGraph graph =
                UsedGraph.of("s>v1 s>v2 v1>v3 v2>v1 v2>v4 v3>v2 v3>t v4>v3 v4>t")
                        .used("n1", "v1")
                        .used("n2", "v2")
                        .used("n3", "v3")
                        .used("n4", "v4");
        UnblockExplanation explanation = graph.explain("s", "t");
        assertThat(explanation.oneOfThese()).hasSize(2);
        // v1 and v2 cut as narrowly as v3 and v4; the textbook's is the one nearer to t.
        Set<String> cut = names(explanation.oneOfThese());
        assertThat(cut).isIn(Set.of("n3", "n4"), Set.of("n1", "n2"));
        assertThat(explanation.chokepoints()).extracting(Chokepoint::resource).containsExactly("t");
        assertThat(explanation.provenFewest()).isTrue();
        assertThat(explanation.best().removals()).hasSize(2);
    }

    /**
     * Fewest colours on a ladder that stands for a set cover: sets S1 = {1, 2, 4, 6, 8, 10, 12,
     * 14}, S2 = {3, 5, 9, 11}, S3 = {7, 13}, S4 = {1 .. 7}, S5 = {8 .. 14} (data: S. Skiena's
     * collection of set cover examples; the ladder is the usual reduction). Each rung can be passed
     * over any set that holds it. S4 and S5 are enough; the greedy choice takes S1, S2 and S3.
     */
    @Test
    void fewestColoursWhereGreedFails() {
        List<Set<Integer>> sets =
                List.of(
                        Set.of(1, 2, 4, 6, 8, 10, 12, 14),
                        Set.of(3, 5, 9, 11),
                        Set.of(7, 13),
                        Set.of(1, 2, 3, 4, 5, 6, 7),
                        Set.of(8, 9, 10, 11, 12, 13, 14));
        StringBuilder edges = new StringBuilder();
        for (int rung = 1; rung <= 14; rung++) {
            String from = rung == 1 ? "s" : "r" + (rung - 1);
            String to = rung == 14 ? "t" : "r" + rung;
            for (int i = 0; i < sets.size(); i++) {
                if (sets.get(i).contains(rung)) {
                    String wire = "w" + rung + "_" + (i + 1);
                    edges.append(from + ">" + wire + " " + wire + ">" + to + " ");
                }
            }
        }
        UsedGraph graph = UsedGraph.of(edges.toString().strip());
        for (int i = 0; i < sets.size(); i++) {
            int number = i + 1;
            graph.used(
                    "S" + number,
                    sets.get(i).stream()
                            .map(rung -> "w" + rung + "_" + number)
                            .toArray(String[]::new));
        }
        UnblockExplanation explanation = graph.explain("s", "t");
        assertThat(explanation.provenFewest()).isTrue();
        assertThat(explanation.atLeast()).isEqualTo(2);
        assertThat(names(explanation.best().removals().stream().map(Removal::occupant).toList()))
                .containsExactly("S4", "S5");
    }

    @Test
    void aLimitIsTold() {
        UsedGraph graph =
                UsedGraph.of("s>a a>b b>c c>t s>d d>e e>f f>t")
                        .used("n1", "a", "c")
                        .used("n2", "b")
                        .used("n3", "d")
                        .used("n4", "e", "f");
        UnblockExplanation explanation = graph.explain("s", "t", new SearchLimits(0, 0, 3, 0));
        assertThat(explanation.atLeast()).isLessThanOrEqualTo(2);
        assertThat(explanation.best().removals().size())
                .isGreaterThanOrEqualTo(explanation.atLeast());
    }

    private static Set<String> names(List<Occupant> occupants) {
        return occupants.stream()
                .map(Occupant::name)
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
