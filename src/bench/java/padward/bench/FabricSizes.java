package padward.bench;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import padward.base.Progress;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.fabric.pattern.PatternSpec;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBoundTable;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.synth.FabricMaker;

/**
 * How the fabric and the searches alone grow, up to sizes for which no design is made: the pattern
 * compiled, a one-to-all search, questions from a drawn wire to a drawn pad, with 15 in 100
 * vertices closed. Prints figures for each size, and exponents from each to the next.
 *
 * <p>Arguments: numbers of wires; 100000, 1000000, 10000000 and 100000000 when there are none.
 */
public final class FabricSizes {
    private static final int REPEATS = 5;
    private static final int QUESTIONS = 10;

    /** Questions on a fabric that is too large for a table. */
    private static final int FEW = 2;

    private FabricSizes() {}

    /** Runs everything. */
    public static void main(String[] args) throws PatternFault {
        Locale.setDefault(Locale.ROOT);
        int[] sizes =
                args.length == 0
                        ? new int[] {100_000, 1_000_000, 10_000_000, 100_000_000}
                        : Arrays.stream(args).mapToInt(Integer::parseInt).toArray();
        // Classes are loaded and compiled on a small one, so that the smallest is not the slowest.
        measure(50_000);
        List<Map<String, Double>> all = new ArrayList<>();
        for (int wires : sizes) {
            Map<String, Double> figures = measure(wires);
            all.add(figures);
            System.out.printf("%n%,d wires%n", wires);
            figures.forEach((what, value) -> System.out.printf("  %-36s %,14.2f%n", what, value));
        }
        Growth.print(all);
    }

    private static Map<String, Double> measure(int wires) throws PatternFault {
        Map<String, Double> result = new LinkedHashMap<>();
        PatternSpec spec = FabricMaker.make(wires, 5);
        double before = Growth.heapMb();
        double begin = nowMs();
        PatternFabric fabric = PatternFabric.compile(spec);
        fabric.maskedEdges();
        fabric.edgesIn();
        result.put("vertices", (double) fabric.vertexCount());
        result.put("compiling the pattern, ms", nowMs() - begin);
        result.put("fabric, MB", Growth.heapMb() - before);
        Terrain terrain = Terrain.random(fabric, 11);
        PathSearch search = new PathSearch(fabric);
        Random random = new Random(3);
        SearchSources from = source(fabric, terrain, random);
        double[] sweeps = new double[REPEATS];
        for (int i = 0; i < REPEATS; i++) {
            begin = nowMs();
            search.sweep(from, Terrain.CORNER, terrain.model, Progress.NONE);
            sweeps[i] = nowMs() - begin;
        }
        Arrays.sort(sweeps);
        result.put("one-to-all search, ms", sweeps[REPEATS / 2]);
        begin = nowMs();
        ask(fabric, terrain, search, random);
        result.put("first question, ms", nowMs() - begin);
        double[] asks = new double[hasTable(fabric) ? QUESTIONS : FEW];
        for (int i = 0; i < asks.length; i++) {
            begin = nowMs();
            ask(fabric, terrain, search, random);
            asks[i] = nowMs() - begin;
        }
        Arrays.sort(asks);
        result.put("ask, p50, ms", asks[asks.length / 2]);
        result.put("ask, mean, ms", Arrays.stream(asks).average().orElseThrow());
        result.put("with a search, MB", Growth.heapMb() - before);
        result.put("search, MB", search.stateBytes() / 1e6);
        return result;
    }

    private static boolean hasTable(PatternFabric fabric) {
        return FabricIndex.of(fabric)
                .table(Terrain.CORNER, LowerBoundTable.Goals.PADS, Progress.NONE)
                .isPresent();
    }

    /** A question from a drawn wire to a drawn pad. */
    private static void ask(
            PatternFabric fabric, Terrain terrain, PathSearch search, Random random) {
        List<Pad> pads = fabric.pads();
        SearchOutcome outcome =
                new PerimeterSearch(search)
                        .find(
                                source(fabric, terrain, random),
                                pads.get(random.nextInt(pads.size())).vertex(),
                                Terrain.CORNER,
                                terrain.model,
                                Progress.NONE);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new IllegalStateException("stopped");
        }
    }

    /** A drawn open wire. */
    private static SearchSources source(PatternFabric fabric, Terrain terrain, Random random) {
        while (true) {
            int vertex = random.nextInt(fabric.vertexCount());
            if (fabric.kind(vertex) == VertexKind.WIRE
                    && !terrain.closed.get(vertex)) {
                return SearchSources.at(vertex);
            }
        }
    }

    private static double nowMs() {
        return System.nanoTime() / 1e6;
    }
}
