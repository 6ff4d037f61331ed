package padward.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Pad;
import padward.format.design.DesignReader;

/**
 * A thousand questions about the workbench example in one run of {@code ask --batch}, against calls
 * of {@code ask} one by one, of which as many are run as the argument says. Each runs in a process
 * of its own, with the same classes; a question is a net and a pad drawn at random (seed 1).
 */
public final class ManyQuestions {
    private static final Path DESIGN = Path.of("fixtures/workbench/design.json.gz");
    private static final int QUESTIONS = 1000;

    private ManyQuestions() {}

    /** Runs it. */
    public static void main(String[] args) throws Exception {
        int singles = args.length > 0 ? Integer.parseInt(args[0]) : 20;
        List<String[]> questions = questions();
        Path file = Files.createTempFile("padward-questions", ".csv");
        try {
            List<String> rows = new ArrayList<>(List.of("net,pad"));
            questions.forEach(q -> rows.add(String.join(",", q)));
            Files.write(file, rows);
            double single = 0;
            for (String[] question : questions.subList(0, singles)) {
                single += run("--net", question[0], "--pad", question[1]) / singles;
            }
            System.out.printf(Locale.ROOT, "%-28s %8.1f questions/s%n", "single calls", 1 / single);
            report("--batch", single, run("--batch", file.toString()));
            report("--batch --brief", single, run("--batch", file.toString(), "--brief"));
        } finally {
            Files.delete(file);
        }
    }

    private static void report(String name, double single, double all) {
        double rate = QUESTIONS / all;
        System.out.printf(
                Locale.ROOT, "%-28s %8.1f questions/s, %.0f times%n", name, rate, rate * single);
    }

    private static List<String[]> questions() throws Exception {
        Design design = DesignReader.read(DESIGN, Progress.NONE);
        List<Pad> pads = design.fabric().pads();
        Random random = new Random(1);
        return IntStream.range(0, QUESTIONS)
                .mapToObj(
                        i ->
                                new String[] {
                                    design.nets().get(random.nextInt(design.nets().size())).name(),
                                    pads.get(random.nextInt(pads.size())).name()
                                })
                .toList();
    }

    /** Seconds of a process. */
    private static double run(String... question) throws IOException, InterruptedException {
        List<String> words =
                new ArrayList<>(
                        List.of(
                                Path.of(System.getProperty("java.home"), "bin/java").toString(),
                                "-cp",
                                System.getProperty("java.class.path"),
                                "padward.Main",
                                "ask",
                                "--design",
                                DESIGN.toString()));
        words.addAll(List.of(question));
        long start = System.nanoTime();
        Process process =
                new ProcessBuilder(words)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        if (process.waitFor() > 1) { // 1 is an answer, too
            throw new IllegalStateException(String.join(" ", words));
        }
        return (System.nanoTime() - start) / 1e9;
    }
}
