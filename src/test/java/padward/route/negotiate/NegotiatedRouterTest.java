package padward.route.negotiate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.route.search.TextbookGraphs;
import padward.timing.TreeDelays;

/**
 * McMurchie and Ebeling, FPGA'95, Figures 1 and 2: three nets that all like B best. Costs as
 * transcribed and recomputed by enumeration: the least legal total is 12 and 10.
 */
class NegotiatedRouterTest {
    @Test
    void firstFigureOfThePaper() {
        Fabric fabric =
                TextbookGraphs.of(
                        "S1>A 2, S1>B 1, S2>A 3, S2>B 1, S2>C 4, S3>B 1, S3>C 3, A>D1 2, A>D2 3,"
                                + " B>D1 1, B>D2 1, B>D3 1, C>D2 4, C>D3 3");
        assertThat(legalTotal(fabric)).isEqualTo(12);
    }

    @Test
    void secondFigureOfThePaper() {
        Fabric fabric =
                TextbookGraphs.of(
                        "S1>A 2, S1>B 1, S2>B 2, S2>C 1, S3>C 1, A>D1 2, B>D1 1, B>D2 2, C>D2 1,"
                                + " C>D3 1");
        assertThat(legalTotal(fabric)).isEqualTo(10);
    }

    /** More nets than 16 bits can count like one wire. */
    @Test
    void manyNetsOnOneWire() {
        int count = 40_000;
        StringBuilder edges = new StringBuilder("B>D 1");
        for (int i = 0; i < count; i++) {
            edges.append(", S").append(i).append(">B 1");
        }
        Fabric fabric = TextbookGraphs.of(edges.toString());
        List<RouteJob> jobs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            jobs.add(new RouteJob(fabric.findVertex("S" + i), fabric.findVertex("D")));
        }
        List<Optional<RouteTree>> trees =
                new NegotiatedRouter(fabric, new BitSet()).route(jobs, 1, Progress.NONE);
        assertThat(trees.stream().filter(Optional::isPresent)).hasSize(1);
    }

    private static int legalTotal(Fabric fabric) {
        List<RouteJob> jobs = List.of(job(fabric, "1"), job(fabric, "2"), job(fabric, "3"));
        List<Optional<RouteTree>> trees =
                new NegotiatedRouter(fabric, new BitSet()).route(jobs, 60, Progress.NONE);
        Set<Integer> used = new HashSet<>();
        int total = 0;
        for (Optional<RouteTree> tree : trees) {
            RouteTree found = tree.orElseThrow();
            for (int place = 0; place < found.size(); place++) {
                assertThat(used.add(found.vertex(place))).isTrue();
            }
            total += TreeDelays.of(fabric, found).at(found.size() - 1).slowPs();
        }
        return total;
    }

    private static RouteJob job(Fabric fabric, String number) {
        return new RouteJob(fabric.findVertex("S" + number), fabric.findVertex("D" + number));
    }
}
