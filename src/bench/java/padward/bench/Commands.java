package padward.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;

/**
 * Commands on a large design as a user runs them, each in a process of its own: the time from start
 * to end, processor time of all threads, and the greatest size where the system tells it. Each is
 * run with an empty folder of compact copies and again with what that run left there. Fails where a
 * promise is missed.
 *
 * <p>Argument: a design's file, or a number of wires of a full design to be made; 10000000 when
 * there is none. The promises are those for ten million wires.
 */
public final class Commands {
    private static final int ROUNDS = 3;
    private static final int ORDINARY = 10;
    private static final long LOOK_MS = 20;

    /** What one process took: seconds, seconds of processor time, megabytes. */
    private record Run(double seconds, double processor, double megabytes) {
        static Run median(List<Run> runs) {
            return runs.stream()
                    .sorted(Comparator.comparingDouble(Run::seconds))
                    .toList()
                    .get(runs.size() / 2);
        }
    }

    private final Path design;
    private final Path scratch;
    private int folders;

    private Commands(Path design, Path scratch) {
        this.design = design;
        this.scratch = scratch;
    }

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        Path scratch = Files.createTempDirectory("padward-commands");
        int status;
        try {
            String what = args.length == 0 ? "10000000" : args[0];
            Path file =
                    what.matches("\\d+") ? make(Integer.parseInt(what), scratch) : Path.of(what);
            status = new Commands(file.toAbsolutePath(), scratch).measure();
        } finally {
            delete(scratch);
        }
        System.exit(status);
    }

    private static Path make(int wires, Path folder) throws Exception {
        MadeDesign made = DesignMaker.make(wires, 9, 0.6, Progress.NONE);
        PatternWriter.write(made.spec().orElseThrow(), folder.resolve("fabric.json.gz"));
        BoardWriter.write(
                made.design().board(), made.design().fabric(), folder.resolve("board.json"));
        Path file = folder.resolve("design.json.gz");
        DesignWriter.write(made.design(), file, "fabric.json.gz", "board.json");
        return file;
    }

    private int measure() throws Exception {
        Design read = DesignReader.read(design, Progress.NONE);
        Net widest =
                read.nets().stream()
                        .max(Comparator.comparingInt(n -> n.route().size()))
                        .orElseThrow();
        Net ordinary =
                read.nets().stream()
                        .filter(n -> n.route().size() > ORDINARY)
                        .min(Comparator.comparingInt(n -> n.route().size()))
                        .orElseThrow();
        String pad = read.fabric().pads().get(read.fabric().pads().size() / 2).name();
        System.out.printf(
                "%,d vertices, %,d cells, %,d nets, %.1f MB%n%n",
                read.fabric().vertexCount(),
                read.cells().size(),
                read.nets().size(),
                Files.size(design) / 1e6);
        System.out.printf(
                "%-34s %8s %12s %10s %8s%n", "", "seconds", "of processor", "MB", "again");
        Promises promises = new Promises();
        Run[] open = report("nets", List.of("nets", "--quiet"));
        promises.atMost("nets, s", open[0].seconds(), 4);
        promises.atMost("nets, MB", open[0].megabytes(), 1200);
        promises.atMost("nets, again, s", open[1].seconds(), 4);
        Run[] ask = report("ask", List.of("ask", "--net", ordinary.name(), "--pad", pad));
        promises.atMost("ask, s", ask[0].seconds(), 5);
        List<String> survey = List.of("survey", "--csv", "--net");
        Run[] usual = report("survey", with(survey, ordinary.name()));
        promises.atMost("survey, s", usual[0].seconds(), 6);
        Run[] wide = report("survey of the widest net", with(survey, widest.name()));
        promises.atMost(
                "survey, widest net to ordinary one", wide[0].seconds() / usual[0].seconds(), 1.5);
        return promises.report();
    }

    private static List<String> with(List<String> words, String last) {
        List<String> result = new ArrayList<>(words);
        result.add(last);
        return result;
    }

    /** Medians for the first run on new files and for the next one. */
    private Run[] report(String what, List<String> words) throws Exception {
        List<Run> first = new ArrayList<>();
        List<Run> again = new ArrayList<>();
        for (int round = 0; round < ROUNDS; round++) {
            Path copies = scratch.resolve("copies-" + folders++);
            first.add(run(words, copies));
            again.add(run(words, copies));
        }
        Run[] medians = {Run.median(first), Run.median(again)};
        System.out.printf(
                "%-34s %8.2f %12.2f %10.0f %8.2f%n",
                what,
                medians[0].seconds(),
                medians[0].processor(),
                medians[0].megabytes(),
                medians[1].seconds());
        return medians;
    }

    private Run run(List<String> words, Path copies) throws Exception {
        List<String> command =
                new ArrayList<>(
                        List.of(
                                Path.of(System.getProperty("java.home"), "bin/java").toString(),
                                "-Dpadward.settings=" + scratch.resolve("settings"),
                                "-Dpadward.cache=" + copies,
                                "-cp",
                                System.getProperty("java.class.path"),
                                "padward.Main"));
        command.addAll(words);
        command.addAll(List.of("--design", design.toString()));
        long begin = System.nanoTime();
        Process process =
                new ProcessBuilder(command)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .redirectError(scratch.resolve("messages").toFile())
                        .start();
        double megabytes = 0;
        double processor = 0;
        // A process that has ended tells neither, so both are what was seen last.
        while (!process.waitFor(LOOK_MS, TimeUnit.MILLISECONDS)) {
            megabytes = Math.max(megabytes, ProcessMemory.greatest(process.pid()));
            processor =
                    process.info()
                            .totalCpuDuration()
                            .map(Duration::toNanos)
                            .map(n -> n / 1e9)
                            .orElse(processor);
        }
        double seconds = (System.nanoTime() - begin) / 1e9;
        if (process.exitValue() > 1) { // 1 is an answer, too
            throw new IllegalStateException(
                    String.join(" ", command) + "\n" + Files.readString(scratch.resolve("messages")));
        }
        return new Run(seconds, processor, megabytes);
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(one);
            }
        }
    }
}
