package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;

/** Our searches on the worked examples of textbooks. */
class TextbookSearchTest {
    /**
     * Cormen, Leiserson, Rivest, Stein, "Introduction to Algorithms", 3rd ed., Fig. 24.6 (through a
     * transcription, recomputed): distances 0, 5, 7, 8, 9 from s to s, y, z, t, x.
     */
    @Test
    void clrsDijkstraExample() {
        Fabric fabric = TextbookGraphs.of(TextbookGraphs.CLRS_24_6);
        assertThat(cost(fabric, "s", "y")).isEqualTo(5);
        assertThat(cost(fabric, "s", "z")).isEqualTo(7);
        assertThat(cost(fabric, "s", "t")).isEqualTo(8);
        assertThat(cost(fabric, "s", "x")).isEqualTo(9);
        assertThat(names(fabric, found(fabric, "s", "x", LowerBound.NONE))).isEqualTo("s y t x");
    }

    /**
     * Sedgewick and Wayne, "Algorithms", 4th ed., section 4.4, tinyEWD (through a transcription,
     * recomputed); weights in hundredths.
     */
    @Test
    void sedgewickTinyGraph() {
        Fabric fabric =
                TextbookGraphs.of(
                        "4>5 35, 5>4 35, 4>7 37, 5>7 28, 7>5 28, 5>1 32, 0>4 38, 0>2 26, 7>3 39,"
                                + " 1>3 29, 2>7 34, 6>2 40, 3>6 52, 6>0 58, 6>4 93");
        int[] expected = {0, 105, 26, 99, 38, 73, 151, 60};
        for (int v = 1; v < 8; v++) {
            assertThat(cost(fabric, "0", String.valueOf(v))).isEqualTo(expected[v]);
        }
    }

    /**
     * Russell and Norvig, "Artificial Intelligence: A Modern Approach", 3rd ed., section 3.5.2:
     * Arad to Bucharest costs 418 by Sibiu, Rimnicu Vilcea and Pitesti, six cities expanded; a
     * search that stopped when Bucharest is first seen would say 450. (Through a transcription,
     * recomputed.)
     */
    @Test
    void russellNorvigAStarExample() {
        Fabric fabric = TextbookGraphs.of(TextbookGraphs.ROADS);
        Map<Integer, Integer> bounds = new HashMap<>();
        TextbookGraphs.STRAIGHT_LINES.forEach(
                (city, km) -> bounds.put(fabric.findVertex(city), km));
        SearchOutcome.Found found = found(fabric, "Arad", "Bucharest", bounds::get);
        assertThat(found.cost()).isEqualTo(418);
        assertThat(names(fabric, found)).isEqualTo("Arad Sibiu Rimnicu Pitesti Bucharest");
        assertThat(found.settled()).isEqualTo(6);
    }

    private static long cost(Fabric fabric, String from, String to) {
        return found(fabric, from, to, LowerBound.NONE).cost();
    }

    private static SearchOutcome.Found found(
            Fabric fabric, String from, String to, LowerBound bound) {
        return (SearchOutcome.Found)
                new PathSearch(fabric)
                        .run(
                                SearchSources.at(fabric.findVertex(from)),
                                fabric.findVertex(to),
                                Corner.SLOW,
                                CostModel.EMPTY_FABRIC,
                                bound,
                                Progress.NONE);
    }

    private static String names(Fabric fabric, SearchOutcome.Found found) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < found.path().size(); i++) {
            text.append(i == 0 ? "" : " ").append(fabric.vertexName(found.path().vertex(i)));
        }
        return text.toString();
    }
}
