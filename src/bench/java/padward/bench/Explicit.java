package padward.bench;

import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.explicit.ExplicitFabric;
import padward.fabric.pattern.PatternFabric;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableImport;
import padward.route.cost.CostModel;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.SearchSources;
import padward.synth.FabricMaker;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * Loads an explicit fabric and reports how long that takes and what it costs. Fails if the graph
 * takes more bytes a vertex than the project promises, if the first question takes more than half
 * a second longer than the next, or if it does not end within 50 ms of being stopped.
 *
 * <p>Argument: a fabric's file in the explicit form, a folder with tables, or a number of wires, of
 * which one is then made and written to a temporary file first; 10000000 when there is none.
 */
public final class Explicit {
    private static final double BYTES_A_VERTEX = 40;
    private static final double FIRST_MORE_MS = 500;
    private static final double STOP_MS = 50;
    private static final int STOPPED_AFTER_MS = 5;
    private static final int LOOKED_UP = 1_000_000;

    private Explicit() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        String what = args.length == 0 ? "10000000" : args[0];
        Path file = what.matches("\\d+") ? make(Integer.parseInt(what)) : Path.of(what);
        double begin = nowMs();
        ExplicitFabric fabric = (ExplicitFabric) read(file);
        double loadMs = nowMs() - begin;
        int count = fabric.vertexCount();
        System.out.printf(
                "%,d vertices, %d x %d tiles, %,d different rows: read in %.1f s%n",
                count, fabric.columns(), fabric.rows(), fabric.rowCount(), loadMs / 1000);
        double graph = (double) fabric.graphBytes() / count;
        System.out.printf(
                "  graph %.2f bytes a vertex, names %.2f%n",
                graph, (double) fabric.nameBytes() / count);
        System.out.printf(
                "  greatest size of the process %.0f MB, limit of the heap %d MiB%n",
                ProcessMemory.greatest(ProcessHandle.current().pid()), Runtime.getRuntime().maxMemory() >> 20);
        System.gc();
        long used = Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
        System.out.printf("  all objects after collecting: %.1f MB%n", used / 1e6);
        touch("out", count, fabric.edgesOut());
        touch("in", count, fabric.edgesIn());
        lookUp(fabric);
        sweep(fabric);
        Promises promises = new Promises();
        promises.atMost("graph, bytes a vertex", graph, BYTES_A_VERTEX);
        questions(fabric, promises);
        System.exit(promises.report());
    }

    private static Path make(int wires) throws Exception {
        Path file = Files.createTempDirectory("padward-explicit").resolve("fabric.json.gz");
        file.toFile().deleteOnExit();
        double begin = nowMs();
        FabricWriter.write(PatternFabric.compile(FabricMaker.make(wires, 5)), file);
        System.out.printf(
                "written in %.1f s, %.1f MB%n", (nowMs() - begin) / 1000, Files.size(file) / 1e6);
        return file;
    }

    private static Fabric read(Path file) throws Exception {
        if (!Files.isDirectory(file)) {
            return FabricReader.read(file, Progress.NONE);
        }
        TableImport.Result result = TableImport.read(file, 1, Progress.NONE);
        if (result instanceof TableImport.Faulty faulty) {
            throw faulty.shown().get(0);
        }
        return ((TableImport.Sound) result).fabric();
    }

    /**
     * What is known of the wires is worked out by the first question: stopped soon after it began,
     * then to the end, then asked again.
     */
    private static void questions(Fabric fabric, Promises promises) {
        if (fabric.pads().isEmpty()) {
            return;
        }
        PathSearch search = new PathSearch(fabric);
        int source = firstThatLeads(fabric, fabric.vertexCount() / 2);
        int goal = fabric.pads().get(0).vertex();
        double begin = nowMs();
        ask(search, source, goal, Progress.NONE.within(STOPPED_AFTER_MS));
        double stopped = Math.max(0, nowMs() - begin - STOPPED_AFTER_MS);
        begin = processorMs();
        ask(search, source, goal, Progress.NONE);
        double first = processorMs() - begin;
        begin = processorMs();
        ask(search, source, goal, Progress.NONE);
        double second = processorMs() - begin;
        System.out.printf(
                "  first question %.1f ms of processor time, the same again %.1f ms; stopped after"
                        + " %d ms, it ended %.1f ms later%n",
                first, second, STOPPED_AFTER_MS, stopped);
        promises.atMost("first question less the second, ms", first - second, FIRST_MORE_MS);
        promises.atMost("stopping the first question, ms", stopped, STOP_MS);
    }

    private static void ask(PathSearch search, int source, int goal, Progress progress) {
        new PerimeterSearch(search)
                .find(
                        SearchSources.at(source),
                        goal,
                        Corner.SLOW,
                        CostModel.EMPTY_FABRIC,
                        progress);
    }

    private static void touch(String which, int count, EdgeCursor edges) {
        double best = Double.MAX_VALUE;
        long met = 0;
        long sum = 0;
        for (int round = 0; round < 3; round++) {
            double begin = nowMs();
            met = 0;
            for (int v = 0; v < count; v++) {
                edges.reset(v);
                while (edges.next()) {
                    sum += edges.other() + edges.delayPs(Corner.SLOW);
                    met++;
                }
            }
            best = Math.min(best, nowMs() - begin);
        }
        System.out.printf("  every edge %s touched once: %,d, %.0f ms%n", which, met, best);
        if (sum == 42) {
            System.out.println();
        }
    }

    private static void lookUp(Fabric fabric) {
        Random random = new Random(1);
        String[] names = new String[LOOKED_UP];
        double begin = nowMs();
        for (int i = 0; i < names.length; i++) {
            names[i] = fabric.vertexName(random.nextInt(fabric.vertexCount()));
        }
        double namedMs = nowMs() - begin;
        begin = nowMs();
        for (String name : names) {
            if (fabric.findVertex(name) == Fabric.NOTHING) {
                throw new IllegalStateException(name);
            }
        }
        System.out.printf(
                "  a vertex's name %.0f ns, a name's vertex %.0f ns%n",
                namedMs * 1e6 / LOOKED_UP, (nowMs() - begin) * 1e6 / LOOKED_UP);
    }

    private static void sweep(Fabric fabric) {
        int source = firstThatLeads(fabric, fabric.vertexCount() / 2);
        PathSearch search = new PathSearch(fabric);
        double best = Double.MAX_VALUE;
        for (int round = 0; round < 3; round++) {
            double begin = nowMs();
            search.sweep(
                    SearchSources.at(source), Corner.SLOW, CostModel.EMPTY_FABRIC, Progress.NONE);
            best = Math.min(best, nowMs() - begin);
        }
        System.out.printf("  sweep over all vertices %.0f ms%n", best);
    }

    /** The first vertex from one on that has an edge out. */
    private static int firstThatLeads(Fabric fabric, int from) {
        EdgeCursor edges = fabric.edgesOut();
        int vertex = from;
        for (edges.reset(vertex); !edges.next(); edges.reset(vertex)) {
            vertex++;
        }
        return vertex;
    }

    /** Of this thread. */
    private static double processorMs() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1e6;
    }

    private static double nowMs() {
        return System.nanoTime() / 1e6;
    }
}
