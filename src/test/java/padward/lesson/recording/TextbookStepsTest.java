package padward.lesson.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;
import padward.route.negotiate.RoutingRound;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.route.search.TextbookGraphs;

/** Recorded searches on the worked examples of textbooks, step by step. */
class TextbookStepsTest {
    /**
     * Cormen, Leiserson, Rivest, Stein, "Introduction to Algorithms", 3rd ed., Fig. 24.6 (through a
     * transcription, recomputed): what each settled vertex relaxes. The vertices are settled in the
     * order s, y, z, t, x.
     */
    @Test
    void clrsDijkstraStepByStep() {
        Fabric fabric = TextbookGraphs.of(TextbookGraphs.CLRS_24_6);
        Recording recording = record(fabric, "s", "x", LowerBound.NONE, CostModel.EMPTY_FABRIC);
        assertThat(rounds(fabric, recording))
                .containsExactly(
                        "s 0: t 10, y 5", "y 5: t 8, x 14, z 7", "z 7: x 13", "t 8: x 9", "x 9:");
        RecordingReplay replay = new RecordingReplay(recording);
        replay.goTo(recording.size());
        assertThat(
                        replay.findRouteTo(fabric.findVertex("x"))
                                .map(w -> names(fabric, w.toVertices())))
                .contains("s y t x");
    }

    /** The same by the general search, which serves cost models of callers. */
    @Test
    void clrsDijkstraByTheGeneralSearch() {
        Fabric fabric = TextbookGraphs.of(TextbookGraphs.CLRS_24_6);
        CustomCost delayOnly = (from, to, delayPs) -> delayPs;
        Recording recording = record(fabric, "s", "x", LowerBound.NONE, delayOnly);
        assertThat(rounds(fabric, recording))
                .containsExactly(
                        "s 0: t 10, y 5", "y 5: t 8, x 14, z 7", "z 7: x 13", "t 8: x 9", "x 9:");
    }

    /**
     * Russell and Norvig, "Artificial Intelligence: A Modern Approach", 3rd ed., Figs 3.22-3.24
     * (through a transcription, recomputed): f of each city when it is expanded, and of each city
     * that joins the frontier, f = g + h. The book's tree search also lists cities again that it
     * has expanded before, and Craiova a second time at 615; a graph search does not. Bucharest
     * joins the frontier at 450 and is settled at 418.
     */
    @Test
    void russellNorvigAStarStepByStep() {
        Fabric fabric = TextbookGraphs.of(TextbookGraphs.ROADS);
        Map<Integer, Integer> bounds = new HashMap<>();
        TextbookGraphs.STRAIGHT_LINES.forEach(
                (city, km) -> bounds.put(fabric.findVertex(city), km));
        Recording recording =
                record(fabric, "Arad", "Bucharest", bounds::get, CostModel.EMPTY_FABRIC);
        assertThat(estimates(fabric, recording))
                .containsExactly(
                        "Arad 366: Zerind 449, Sibiu 393, Timisoara 447",
                        "Sibiu 393: Oradea 671, Fagaras 415, Rimnicu 413",
                        "Rimnicu 413: Pitesti 417, Craiova 526",
                        "Fagaras 415: Bucharest 450",
                        "Pitesti 417: Bucharest 418",
                        "Bucharest 418:");
    }

    /**
     * McMurchie and Ebeling, FPGA'95, Fig. 2: three signals that at first all take the cheapest
     * nodes; history makes shared ones more expensive until each has its own route, at a total cost
     * of 10.
     */
    @Test
    void negotiationRoundByRound() {
        Fabric fabric =
                TextbookGraphs.of(
                        "S1>A 2, S1>B 1, S2>B 2, S2>C 1, S3>C 1, A>D1 2, B>D1 1, B>D2 2, C>D2 1,"
                                + " C>D3 1");
        List<RoutingRound> rounds = new ArrayList<>();
        List<RouteJob> jobs = List.of(job(fabric, "1"), job(fabric, "2"), job(fabric, "3"));
        var trees =
                new NegotiatedRouter(fabric, new BitSet(), List.of(), Optional.of(rounds::add))
                        .route(jobs, 60, Progress.NONE);
        assertThat(rounds.get(0).routed()).containsExactly(0, 1, 2);
        assertThat(rounds).extracting(RoutingRound::number).isSorted();
        RoutingRound last = rounds.get(rounds.size() - 1);
        assertThat(last.sharedCount()).isZero();
        assertThat(last.trees()).isEqualTo(trees);
        int c = fabric.findVertex("C");
        assertThat(rounds.get(0).priced())
                .anyMatch(p -> p.vertex() == c && p.pricePs() > 0 && p.times() > 1);
        for (int i = 1; i < rounds.size(); i++) {
            for (RoutingRound.PricedVertex before : rounds.get(i - 1).priced()) {
                assertThat(rounds.get(i).priced())
                        .anyMatch(
                                p ->
                                        p.vertex() == before.vertex()
                                                && p.pricePs() >= before.pricePs());
            }
        }
    }

    private static RouteJob job(Fabric fabric, String number) {
        return new RouteJob(fabric.findVertex("S" + number), fabric.findVertex("D" + number));
    }

    private static Recording record(
            Fabric fabric, String from, String to, LowerBound bound, CostModel model) {
        Recorder recorder = new Recorder(1000);
        SearchOutcome outcome =
                new PathSearch(fabric, recorder)
                        .run(
                                SearchSources.at(fabric.findVertex(from)),
                                fabric.findVertex(to),
                                Corner.SLOW,
                                model,
                                bound,
                                Progress.NONE);
        return recorder.take(outcome);
    }

    /** One line for each settled vertex: its cost, and what it relaxes, in the edges' order. */
    private static List<String> rounds(Fabric fabric, Recording recording) {
        return lines(fabric, recording, false);
    }

    /** The same with costs and estimates added up. */
    private static List<String> estimates(Fabric fabric, Recording recording) {
        return lines(fabric, recording, true);
    }

    private static List<String> lines(Fabric fabric, Recording recording, boolean estimates) {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < recording.size(); i++) {
            SearchStep step = recording.step(i);
            String name = fabric.vertexName(step.vertex());
            if (step instanceof SearchStep.Settled s) {
                lines.add(name + " " + (s.cost() + (estimates ? s.ahead() : 0)) + ":");
            } else if (step instanceof SearchStep.Reached r && r.from() != Fabric.NOTHING) {
                int last = lines.size() - 1;
                String separator = lines.get(last).endsWith(":") ? " " : ", ";
                long value = r.cost() + (estimates ? r.ahead() : 0);
                lines.set(last, lines.get(last) + separator + name + " " + value);
            }
        }
        return lines;
    }

    private static String names(Fabric fabric, int[] vertices) {
        StringBuilder text = new StringBuilder();
        for (int vertex : vertices) {
            text.append(text.length() == 0 ? "" : " ").append(fabric.vertexName(vertex));
        }
        return text.toString();
    }
}
