package padward.bench;

import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.group.Bus;
import padward.breakout.survey.Survey;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;
import padward.ui.map.Frames;

import java.lang.ref.Reference;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * How the time and memory of what a user does grows with the size of the fabric: load, survey, ask,
 * bus, drawing. The design is a full one. Prints each size, then the exponents: 1 is growth in
 * proportion to the number of vertices.
 *
 * <p>Arguments: numbers of wires; 100000, 1000000 and 10000000 when there are none.
 */
public final class Growth {
    private static final double USED = 0.6;
    private static final int QUESTIONS = 100;
    private static final int REPEATS = 5;
    private static final int LINES = 4;
    private static final int BUS_PADS = 16;

    private Growth() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        int[] sizes =
                args.length == 0
                        ? new int[] {100_000, 1_000_000, 10_000_000}
                        : Arrays.stream(args).mapToInt(Integer::parseInt).toArray();
        Path folder = Files.createTempDirectory("padward-growth");
        // Classes are loaded and compiled on a small one, so that the smallest is not the slowest.
        measure(20_000, folder);
        List<Map<String, Double>> all = new ArrayList<>();
        for (int wires : sizes) {
            all.add(measure(wires, folder));
        }
        print(all);
        System.exit(0);
    }

    private static Map<String, Double> measure(int wires, Path folder) throws Exception {
        Path file = make(wires, folder);
        Map<String, Double> result = new LinkedHashMap<>();
        double before = heapMb();
        double begin = nowMs();
        Design design = DesignReader.read(file, Progress.NONE);
        double load = nowMs() - begin;
        result.put("vertices", (double) design.fabric().vertexCount());
        result.put("load, ms", load);
        result.put("design and fabric, MB", heapMb() - before);
        Random random = new Random(3);
        Net net = design.nets().get(random.nextInt(design.nets().size()));
        begin = nowMs();
        survey(design, net);
        result.put("first survey, ms", nowMs() - begin);
        double[] again = new double[REPEATS];
        for (int i = 0; i < REPEATS; i++) {
            begin = nowMs();
            survey(design, net);
            again[i] = nowMs() - begin;
        }
        Arrays.sort(again);
        result.put("survey, ms", again[REPEATS / 2]);
        Asker asker = asks(design, random, result);
        result.put("with tables and a search, MB", heapMb() - before);
        Reference.reachabilityFence(asker);
        List<Net> nets =
                random.ints(LINES, 0, design.nets().size())
                        .mapToObj(design.nets()::get)
                        .distinct()
                        .toList();
        List<Integer> pads =
                random.ints(0, design.fabric().pads().size())
                        .distinct()
                        .limit(BUS_PADS)
                        .boxed()
                        .toList();
        begin = nowMs();
        Bus.of(design, nets, pads, Bus.Aim.SUM, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
        result.put("bus of " + LINES + " nets, ms", nowMs() - begin);
        drawing(design, result);
        Reference.reachabilityFence(design);
        System.out.printf("%n%,d wires%n", wires);
        result.forEach((what, value) -> System.out.printf("  %-36s %,14.2f%n", what, value));
        return result;
    }

    private static Path make(int wires, Path folder) throws BadInput {
        MadeDesign made = DesignMaker.make(wires, 5, USED, Progress.NONE);
        Design design = made.design();
        String name = "-" + wires + ".json";
        PatternWriter.write(made.spec().orElseThrow(), folder.resolve("fabric" + name + ".gz"));
        BoardWriter.write(design.board(), design.fabric(), folder.resolve("board" + name));
        Path file = folder.resolve("design" + name + ".gz");
        DesignWriter.write(design, file, "fabric" + name + ".gz", "board" + name);
        return file;
    }

    private static void survey(Design design, Net net) {
        Survey.of(design, net, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
    }

    /**
     * The short answers that hovering shows; the explained ones are measured by {@link Blocked}.
     */
    private static Asker asks(Design design, Random random, Map<String, Double> result) {
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        double[] times = new double[QUESTIONS];
        for (int warm = 0; warm < 2; warm++) {
            for (int i = 0; i < QUESTIONS; i++) {
                Net net = design.nets().get(random.nextInt(design.nets().size()));
                int pad = random.nextInt(design.fabric().pads().size());
                double begin = nowMs();
                asker.answer(new Question(design, net, pad, Corner.SLOW), Progress.NONE);
                times[i] = nowMs() - begin;
            }
        }
        Arrays.sort(times);
        result.put("ask, mean, ms", Arrays.stream(times).average().orElseThrow());
        result.put("ask, p50, ms", times[QUESTIONS / 2]);
        result.put("ask, slowest of 100, ms", times[QUESTIONS - 1]);
        return asker;
    }

    private static void drawing(Design design, Map<String, Double> result)
            throws InterruptedException {
        double[] frames = Frames.medians(design);
        result.put("frame, all tiles in view, ms", frames[0]);
        result.put("frame, 26 pixels a tile, ms", frames[1]);
    }

    /** Exponents: the logarithm of the growth over that of the growth in vertices. */
    static void print(List<Map<String, Double>> all) {
        System.out.printf("%nExponents, from each size to the next%n");
        for (String what : all.get(0).keySet()) {
            String exponents =
                    IntStream.range(1, all.size())
                            .mapToObj(i -> exponent(all.get(i - 1), all.get(i), what))
                            .reduce("", (one, other) -> one + other);
            System.out.printf("  %-36s%s%n", what, exponents);
        }
    }

    private static String exponent(
            Map<String, Double> one, Map<String, Double> other, String what) {
        double vertices = Math.log(other.get("vertices") / one.get("vertices"));
        return String.format(" %8.2f", Math.log(other.get(what) / one.get(what)) / vertices);
    }

    static double heapMb() {
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        return (runtime.totalMemory() - runtime.freeMemory()) / 1e6;
    }

    private static double nowMs() {
        return System.nanoTime() / 1e6;
    }
}
