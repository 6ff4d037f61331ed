package padward.bench;

import org.jgrapht.GraphPath;
import org.jgrapht.alg.interfaces.ShortestPathAlgorithm.SingleSourcePaths;
import org.jgrapht.alg.shortestpath.AStarShortestPath;
import org.jgrapht.alg.shortestpath.BidirectionalDijkstraShortestPath;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.alg.shortestpath.IntVertexDijkstraShortestPath;

import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.fabric.pattern.BitsetAdjacency;
import padward.fabric.pattern.PatternFabric;
import padward.format.fabric.FabricReader;
import padward.format.fabric.PatternWriter;
import padward.route.bound.DistanceRate;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.bound.LowerBoundTable;
import padward.route.cost.CostModel;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.synth.FabricMaker;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Consumer;
import java.util.function.IntToLongFunction;

/**
 * Sweeps and questions on fabrics of a million and ten million wires, against JGraphT and, if a C++
 * compiler with Boost Graph and LEMON is there, against those. All answer the same questions in one
 * run, and their costs must be equal. Ends with the ratios that the project promises, and fails if
 * one is missed.
 *
 * <p>Arguments: numbers of wires; 1000000 and 10000000 when there are none.
 */
public final class Floors {
    private static final int QUESTIONS = 50;

    /** Questions for peers that take a second each. */
    private static final int FEW = 6;

    private static final int NEAR_TILES = 20;
    private static final int REPEATS = 15;
    private static final int LARGE = 5_000_000;

    private record Pair(int from, int to) {}

    private static final Promises PROMISES = new Promises();

    private Floors() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        int[] sizes =
                args.length == 0
                        ? new int[] {10_000_000, 1_000_000}
                        : Arrays.stream(args).mapToInt(Integer::parseInt).toArray();
        Path folder = Files.createTempDirectory("padward-floors");
        for (int wires : sizes) {
            measure(wires, folder);
        }
        System.exit(PROMISES.report());
    }

    private static void measure(int wires, Path folder) throws Exception {
        Path file = folder.resolve("fabric-" + wires + ".json.gz");
        PatternWriter.write(FabricMaker.make(wires, 5), file);
        double begin = nowMs();
        PatternFabric fabric = (PatternFabric) FabricReader.read(file, Progress.NONE);
        // With what it works out when it is first asked for.
        fabric.maskedEdges();
        fabric.edgesIn();
        double loadMs = nowMs() - begin;
        double graphBytes = (double) fabric.graphBytes() / fabric.vertexCount();
        begin = nowMs();
        LowerBoundTable table =
                FabricIndex.of(fabric)
                        .table(Terrain.CORNER, LowerBoundTable.Goals.PADS, Progress.NONE)
                        .orElseThrow();
        double tableMs = nowMs() - begin;
        System.out.printf(
                "%n%,d wires: %,d vertices, %d x %d tiles; load %.0f ms, table %.0f ms and %.1f MB,"
                        + " fabric %.2f bytes a vertex%n",
                wires,
                fabric.vertexCount(),
                fabric.columns(),
                fabric.rows(),
                loadMs,
                tableMs,
                table.bytes() / 1e6,
                graphBytes);
        String size = String.format("%,d wires, ", wires);
        PROMISES.atMost(size + "load, s", loadMs / 1000, 1);
        PROMISES.atMost(size + "table of least delays, s", tableMs / 1000, 2);
        PROMISES.atMost(size + "graph, bytes a vertex", graphBytes, 2);
        double scanMs = scan(fabric);
        System.out.printf("  every edge touched once in the order of memory: %.1f ms%n", scanMs);
        for (Terrain terrain : List.of(Terrain.random(fabric, 11), Terrain.congested(fabric, 12))) {
            compare(size + terrain.name + ": ", terrain, table, folder, scanMs);
        }
    }

    private static double scan(PatternFabric fabric) {
        BitsetAdjacency e = fabric.maskedEdges();
        double best = Double.MAX_VALUE;
        long sum = 0;
        for (int round = 0; round < 5; round++) {
            double begin = nowMs();
            for (int tile = 0; tile < fabric.tileCount(); tile++) {
                int row = e.firstRow[tile];
                int size = e.vertexBase[tile + 1] - e.vertexBase[tile];
                for (int i = row; i < row + size; i++) {
                    int g = e.groupSpan[i] >>> BitsetAdjacency.SPAN_BITS;
                    int end = g + (e.groupSpan[i] & BitsetAdjacency.SPAN_MASK);
                    for (; g < end; g++) {
                        long where = e.groups[2 * g + 1];
                        int base =
                                e.vertexBase[tile + BitsetAdjacency.step(where)]
                                        + BitsetAdjacency.local(where);
                        for (long bits = e.groups[2 * g]; bits != 0; bits &= bits - 1) {
                            sum += base + Long.numberOfTrailingZeros(bits);
                        }
                    }
                }
            }
            best = Math.min(best, nowMs() - begin);
        }
        if (sum == 42) {
            System.out.println();
        }
        return best;
    }

    private static void compare(
            String title, Terrain terrain, LowerBoundTable table, Path folder, double scanMs)
            throws Exception {
        Fabric fabric = terrain.fabric;
        PathSearch search = new PathSearch(fabric);
        List<Pair> far = pairs(terrain, search, table, true);
        List<Pair> near = pairs(terrain, search, table, false);
        int source = far.get(0).from();

        double[] sweeps = new double[REPEATS];
        // The first half only warms up: one loop serves models with and without prices.
        for (int i = -REPEATS; i < REPEATS; i++) {
            double begin = nowMs();
            search.sweep(SearchSources.at(source), Terrain.CORNER, terrain.model, Progress.NONE);
            if (i >= 0) {
                sweeps[i] = nowMs() - begin;
            }
        }
        double sweep = median(sweeps);
        OneToAll all =
                search.sweep(
                        SearchSources.at(source), Terrain.CORNER, terrain.model, Progress.NONE);
        long sum = sum(fabric.vertexCount(), all::cost);
        double stateBytes = (double) search.stateBytes() / fabric.vertexCount();
        System.out.printf(
                "%s%n  sweep %.1f ms, %.1f times the touch of every edge; search state %.2f bytes a"
                        + " vertex%n",
                title, sweep, sweep / scanMs, stateBytes);
        PROMISES.atMost(title + "sweep, times the touch of every edge", sweep / scanMs, 1.6);
        PROMISES.atMost(title + "search state, bytes a vertex", stateBytes, 8);
        DistanceRate rate = FabricIndex.of(fabric).distanceRate(Terrain.CORNER, Progress.NONE);
        double[] tableMs = askAll(terrain, search, far, p -> table.towards(fabric, p.to()));
        double[] nearMs = askAll(terrain, search, near, p -> table.towards(fabric, p.to()));
        // Slow on a large fabric, and nothing is promised of it: a few questions are enough.
        List<Pair> some = fabric.vertexCount() > LARGE ? far.subList(0, FEW) : far;
        double[] rateMs = askAll(terrain, search, some, p -> rate.towards(fabric, p.to()));
        print("ask across the chip, table", tableMs);
        double[] inTurns = askInTurns(terrain, search, far);
        print("ask across the chip, in turns", inTurns);
        if (terrain.name.equals("congested")) {
            boolean large = fabric.vertexCount() > LARGE;
            PROMISES.atMost(title + "ask, mean, ms", mean(inTurns), large ? 15 : 0.5);
            if (large) {
                double most = Arrays.stream(inTurns).max().orElseThrow();
                PROMISES.atMost(title + "ask, most, ms", most, 250);
            }
        }
        print("ask within " + NEAR_TILES + " tiles, table", nearMs);
        print("ask across the chip, distance", rateMs);

        terrain.buildArrays();
        jgrapht(title, terrain, table, rate, search, far, source, sweep, sum, tableMs);
        cpp(title, terrain, rate, search, far, table, sweep, sum, tableMs, folder);
        terrain.dropArrays();
    }

    private interface BoundOf {
        LowerBound of(Pair pair);
    }

    private static double[] askAll(
            Terrain terrain, PathSearch search, List<Pair> pairs, BoundOf bound) {
        return askAll(pairs, pair -> ask(terrain, search, pair, bound.of(pair)));
    }

    /** As the program asks: in turns with a search back from the pad. */
    private static double[] askInTurns(Terrain terrain, PathSearch search, List<Pair> pairs) {
        PerimeterSearch turns = new PerimeterSearch(search);
        return askAll(
                pairs,
                pair ->
                        turns.find(
                                SearchSources.at(pair.from()),
                                pair.to(),
                                Terrain.CORNER,
                                terrain.model,
                                Progress.NONE));
    }

    /** Milliseconds of each question, the median of several times. */
    private static double[] askAll(List<Pair> pairs, Consumer<Pair> ask) {
        double[] result = new double[pairs.size()];
        double[] times = new double[REPEATS];
        for (int warm = 0; warm < 2; warm++) {
            for (int q = 0; q < result.length; q++) {
                Pair pair = pairs.get(q);
                for (int i = 0; i < REPEATS; i++) {
                    double begin = nowMs();
                    ask.accept(pair);
                    times[i] = nowMs() - begin;
                }
                result[q] = median(times);
            }
        }
        return result;
    }

    private static SearchOutcome ask(
            Terrain terrain, PathSearch search, Pair pair, LowerBound bound) {
        return search.run(
                SearchSources.at(pair.from()),
                pair.to(),
                Terrain.CORNER,
                terrain.model,
                bound,
                Progress.NONE);
    }

    private static long costOf(
            Terrain terrain, PathSearch search, LowerBoundTable table, Pair pair) {
        SearchOutcome outcome =
                ask(terrain, search, pair, table.towards(terrain.fabric, pair.to()));
        return ((SearchOutcome.Found) outcome).cost();
    }

    /** Questions that have an answer: from a pin that drives wires to a pad. */
    private static List<Pair> pairs(
            Terrain terrain, PathSearch search, LowerBoundTable table, boolean far) {
        Fabric fabric = terrain.fabric;
        Random random = new Random(21);
        EdgeCursor edges = fabric.edgesOut();
        List<Pair> result = new ArrayList<>();
        while (result.size() < QUESTIONS) {
            Pad pad = fabric.pads().get(random.nextInt(fabric.pads().size()));
            int vertex = random.nextInt(fabric.vertexCount());
            if (!far) {
                int x = fabric.column(pad.tile()) + random.nextInt(NEAR_TILES) - NEAR_TILES / 2;
                int y = fabric.row(pad.tile()) + random.nextInt(NEAR_TILES) - NEAR_TILES / 2;
                if (x < 0 || y < 0 || x >= fabric.columns() || y >= fabric.rows()) {
                    continue;
                }
                BitsetAdjacency rows = ((PatternFabric) fabric).maskedEdges();
                int tile = y * fabric.columns() + x;
                int size = rows.vertexBase[tile + 1] - rows.vertexBase[tile];
                vertex = rows.vertexBase[tile] + random.nextInt(size);
            }
            edges.reset(vertex);
            boolean starts =
                    fabric.kind(vertex) == VertexKind.PIN
                            && !terrain.closed.get(vertex)
                            && edges.next();
            int tile = fabric.tile(vertex);
            int dx = Math.abs(fabric.column(tile) - fabric.column(pad.tile()));
            int dy = Math.abs(fabric.row(tile) - fabric.row(pad.tile()));
            boolean right =
                    far
                            ? Math.max(dx, dy) > fabric.columns() * 2 / 3
                            : dx + dy <= NEAR_TILES && dx + dy > 2;
            if (starts && right) {
                Pair pair = new Pair(vertex, pad.vertex());
                LowerBound bound = table.towards(fabric, pad.vertex());
                if (ask(terrain, search, pair, bound) instanceof SearchOutcome.Found) {
                    result.add(pair);
                }
            }
        }
        return result;
    }

    private static void jgrapht(
            String title,
            Terrain terrain,
            LowerBoundTable table,
            DistanceRate rate,
            PathSearch search,
            List<Pair> far,
            int source,
            double sweep,
            long sum,
            double[] tableMs) {
        boolean large = terrain.fabric.vertexCount() > LARGE;
        ArrayGraph graph = new ArrayGraph(terrain);
        double best = Double.MAX_VALUE;
        for (int i = 0; i < (large ? 1 : 3); i++) {
            double begin = nowMs();
            SingleSourcePaths<Integer, Integer> paths =
                    new IntVertexDijkstraShortestPath<>(graph).getPaths(source);
            best = Math.min(best, nowMs() - begin);
            if (i == 0) {
                long other =
                        sum(
                                terrain.fabric.vertexCount(),
                                v -> {
                                    double weight = paths.getWeight(v);
                                    return Double.isInfinite(weight)
                                            ? CostModel.CLOSED
                                            : (long) weight;
                                });
                check(sum, other, title + "sweep");
            }
        }
        System.out.printf("  JGraphT sweep, Dijkstra over int vertices: %.0f ms%n", best);
        if (!large) {
            double begin = nowMs();
            new DijkstraShortestPath<>(graph).getPaths(source);
            System.out.printf("  JGraphT sweep, Dijkstra: %.0f ms%n", nowMs() - begin);
        }
        PROMISES.atLeast(title + "sweep, times JGraphT's fastest Dijkstra", best / sweep, 15);
        int geometric = FEW;
        double[] byDistance = new double[geometric];
        double[] byTable = new double[QUESTIONS];
        for (int round = 0; round < 2; round++) {
            for (int q = 0; q < QUESTIONS; q++) {
                Pair pair = far.get(q);
                long cost = costOf(terrain, search, table, pair);
                byTable[q] =
                        aStar(graph, pair, table.towards(terrain.fabric, pair.to()), cost, title);
                if (q < geometric && round == 0) {
                    byDistance[q] =
                            aStar(
                                    graph,
                                    pair,
                                    rate.towards(terrain.fabric, pair.to()),
                                    cost,
                                    title);
                }
            }
        }
        print("JGraphT A*, table", byTable);
        print("JGraphT A*, distance (" + geometric + " questions)", byDistance);
        if (!large) {
            print(
                    "JGraphT bidirectional Dijkstra (" + FEW + " questions)",
                    bidirectional(title, terrain, graph, table, search, far));
        }
        boolean random = terrain.name.equals("random");
        PROMISES.atLeast(
                title + "ask, times JGraphT's A* with distance",
                mean(byDistance) / mean(Arrays.copyOf(tableMs, geometric)),
                random ? 300 : 100);
        PROMISES.atLeast(
                title + "ask, times JGraphT's A* with our table",
                mean(byTable) / mean(tableMs),
                4);
    }

    /** The first question pays for sorting the edges by target, and is not counted. */
    private static double[] bidirectional(
            String title,
            Terrain terrain,
            ArrayGraph graph,
            LowerBoundTable table,
            PathSearch search,
            List<Pair> far) {
        double[] result = new double[FEW];
        for (int i = -1; i < FEW; i++) {
            Pair pair = far.get(Math.max(i, 0));
            double begin = nowMs();
            GraphPath<Integer, Integer> path =
                    new BidirectionalDijkstraShortestPath<>(graph).getPath(pair.from(), pair.to());
            double time = nowMs() - begin;
            check(
                    costOf(terrain, search, table, pair),
                    (long) path.getWeight(),
                    title + "bidirectional Dijkstra");
            result[Math.max(i, 0)] = time;
        }
        return result;
    }

    private static double aStar(
            ArrayGraph graph, Pair pair, LowerBound bound, long cost, String title) {
        double begin = nowMs();
        GraphPath<Integer, Integer> path =
                new AStarShortestPath<>(graph, (v, goal) -> Math.min(1e9, bound.at(v)))
                        .getPath(pair.from(), pair.to());
        double time = nowMs() - begin;
        check(cost, (long) path.getWeight(), title + "A*");
        return time;
    }

    private static void cpp(
            String title,
            Terrain terrain,
            DistanceRate rate,
            PathSearch search,
            List<Pair> far,
            LowerBoundTable table,
            double sweep,
            long sum,
            double[] tableMs,
            Path folder)
            throws IOException, InterruptedException {
        Path program = folder.resolve("peer");
        Process compiler =
                new ProcessBuilder(
                                "g++",
                                "-O3",
                                "-march=native",
                                "-std=c++17",
                                "-w",
                                "-o",
                                program.toString(),
                                "src/bench/cpp/peer.cpp")
                        .inheritIO()
                        .start();
        if (compiler.waitFor() != 0) {
            throw new IOException("the C++ peer does not compile: g++, Boost and LEMON are needed");
        }
        Path file = folder.resolve("graph.bin");
        export(terrain, rate, far, file);
        Process peer =
                new ProcessBuilder(program.toString(), file.toString())
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        double best = Double.MAX_VALUE;
        double[] asks = new double[far.size()];
        try (var lines = peer.inputReader()) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                String[] words = line.split(" ");
                double time = Double.parseDouble(words[words.length - 1]);
                if (words[0].equals("ask")) {
                    int q = Integer.parseInt(words[2]);
                    check(
                            costOf(terrain, search, table, far.get(q)),
                            Long.parseLong(words[3]),
                            title + "C++ A*");
                    asks[q] = time;
                } else {
                    check(sum, Long.parseLong(words[2]), title + "C++ sweep");
                    System.out.printf("  C++ sweep, %s: %.0f ms%n", words[1], time);
                    best = Math.min(best, time);
                }
            }
        }
        if (peer.waitFor() != 0) {
            throw new IOException("the C++ peer failed");
        }
        Files.delete(file);
        print("C++ A*, distance", asks);
        PROMISES.atLeast(title + "sweep, times the fastest C++ library", best / sweep, 3);
        PROMISES.atLeast(title + "ask, times the C++ library's A*", mean(asks) / mean(tableMs), 20);
    }

    private static void export(Terrain terrain, DistanceRate rate, List<Pair> pairs, Path file)
            throws IOException {
        Fabric fabric = terrain.fabric;
        int n = fabric.vertexCount();
        try (FileChannel out =
                FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
            write(
                    out,
                    new int[] {n, terrain.target.length, (int) rate.delayPs(), (int) rate.tiles()});
            write(out, terrain.start);
            write(out, terrain.target);
            write(out, terrain.weight);
            int[] place = new int[n];
            for (int v = 0; v < n; v++) {
                place[v] = fabric.column(fabric.headTile(v));
            }
            write(out, place);
            for (int v = 0; v < n; v++) {
                place[v] = fabric.row(fabric.headTile(v));
            }
            write(out, place);
            write(out, new int[] {pairs.size()});
            for (Pair pair : pairs) {
                write(out, new int[] {pair.from(), pair.to()});
            }
        }
    }

    private static void write(FileChannel out, int[] values) throws IOException {
        ByteBuffer buffer = ByteBuffer.allocate(1 << 20).order(ByteOrder.LITTLE_ENDIAN);
        for (int from = 0; from < values.length; from += buffer.capacity() / 4) {
            buffer.clear();
            int count = Math.min(buffer.capacity() / 4, values.length - from);
            buffer.asIntBuffer().put(values, from, count);
            buffer.limit(4 * count);
            while (buffer.hasRemaining()) {
                out.write(buffer);
            }
        }
    }

    private static long sum(int vertices, IntToLongFunction cost) {
        long sum = 0;
        for (int v = 0; v < vertices; v++) {
            long one = cost.applyAsLong(v);
            sum += one == CostModel.CLOSED ? 0 : one;
        }
        return sum;
    }

    private static void check(long expected, long found, String what) {
        if (expected != found) {
            throw new IllegalStateException(what + ": " + expected + " here, " + found + " there");
        }
    }

    private static void print(String what, double[] ms) {
        double[] sorted = ms.clone();
        Arrays.sort(sorted);
        PrintStream out = System.out;
        out.printf(
                "  %-46s mean %10.4f  p50 %10.4f  p90 %10.4f  p99 %10.4f ms%n",
                what,
                mean(ms),
                sorted[sorted.length / 2],
                sorted[sorted.length * 9 / 10],
                sorted[sorted.length - 1]);
    }

    private static double mean(double[] values) {
        return Arrays.stream(values).average().orElseThrow();
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static double nowMs() {
        return System.nanoTime() / 1e6;
    }
}
