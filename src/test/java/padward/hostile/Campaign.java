package padward.hostile;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import java.util.stream.Stream;
import java.util.zip.CRC32;

/**
 * Reads hostile inputs, changed from sound ones and from the corpus. Where it is told how much of
 * the program was reached, inputs that reach more are changed further.
 *
 * <p>Run by hand: {@code Campaign SEED INPUTS [TARGET]}, or {@code 120m} for two hours instead of a
 * number of inputs. What fails is written to {@code target/hostile}, what reaches more to {@code
 * target/hostile-reached}. {@code Campaign further FOLDER TO} reads the files of a folder with a
 * folder for each target, and copies those that reach more than the corpus does, small ones first.
 */
public final class Campaign {
    private static final int MOST_KEPT = 400;
    private static final int MOST_BYTES = 60_000;
    private static final int SLICE = 200;
    private static final Path FOUND = Path.of("target", "hostile");

    /** Inputs that reached what no other had: what is worth a place in the corpus. */
    private static final Path REACHED = Path.of("target", "hostile-reached");

    private final long seed;
    private final LongSupplier reached;
    private final Map<String, Integer> inputs = new LinkedHashMap<>();
    private final Map<String, Integer> accepted = new LinkedHashMap<>();
    private final Map<String, String> failures = new LinkedHashMap<>();

    /**
     * @param reached how many branches of the program were reached so far; always 0 if unknown
     */
    Campaign(long seed, LongSupplier reached) {
        this.seed = seed;
        this.reached = reached;
    }

    /** Reads the sound inputs of a target and its corpus as they are. */
    void runSeeds(Target target) throws Exception {
        for (byte[] seed : target.seeds()) {
            read(target, seed);
        }
    }

    /**
     * Reads files of a folder that is named like a target, small ones first.
     *
     * @return those that reach what nothing reached before
     */
    List<Path> runFiles(Target target, Path folder) throws Exception {
        List<Path> further = new ArrayList<>();
        for (Path file : smallFirst(folder.resolve(target.name()))) {
            long before = reached.getAsLong();
            read(target, Files.readAllBytes(file));
            if (reached.getAsLong() > before) {
                further.add(file);
            }
        }
        return further;
    }

    private static List<Path> smallFirst(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        Comparator<Path> bySize = Comparator.comparingLong(f -> f.toFile().length());
        try (Stream<Path> files = Files.list(folder)) {
            return files.sorted(bySize.thenComparing(Comparator.naturalOrder())).toList();
        }
    }

    private void read(Target target, byte[] input) throws Exception {
        Judge.Verdict verdict = target.read(input);
        inputs.merge(target.name(), 1, Integer::sum);
        accepted.merge(target.name(), verdict.refused() ? 0 : 1, Integer::sum);
        verdict.failure().ifPresent(wrong -> record(target, input, wrong));
    }

    /** Reads inputs of a target for a number of times or milliseconds, whichever ends first. */
    void run(Target target, List<byte[]> pool, int most, long millis, Random random)
            throws Exception {
        long end = System.nanoTime() + millis * 1_000_000;
        long before = reached.getAsLong();
        for (int i = 0; i < most && System.nanoTime() < end; i++) {
            byte[] input = target.vary(pool, random);
            if (input.length > MOST_BYTES) {
                continue;
            }
            read(target, input);
            long now = reached.getAsLong();
            if (now > before) {
                before = now;
                if (pool.size() >= MOST_KEPT) {
                    pool.remove(target.seeds().size() + random.nextInt(16));
                }
                pool.add(input);
                write(REACHED, target, input);
            }
        }
    }

    /** The seed of a target's inputs. */
    long seedOf(Target target) {
        return seed * 31 + target.name().hashCode();
    }

    /** Failures at the same place count once. */
    private void record(Target target, byte[] input, Throwable wrong) {
        Throwable first = wrong;
        while (first.getCause() != null) {
            first = first.getCause();
        }
        StackTraceElement[] trace = first.getStackTrace();
        String where =
                Stream.of(trace)
                        .filter(f -> f.getClassName().startsWith("padward"))
                        .filter(f -> !f.getClassName().endsWith("BadInput"))
                        .findFirst()
                        .map(String::valueOf)
                        .orElse("?");
        String message = String.valueOf(wrong.getMessage());
        String what = wrong.getClass().getSimpleName() + " at " + where;
        if (wrong instanceof AssertionError && !target.name().equals("command")) {
            what = "AssertionError at " + where;
        } else if (target.name().equals("command")) {
            what = message.lines().limit(2).reduce("", String::concat);
        }
        if (failures.putIfAbsent(target.name() + ": " + what, message) == null) {
            Path file = write(FOUND, target, input);
            System.out.println("FAILED " + target.name() + ": " + what + ", " + file);
            String why = file.getFileName() + ".txt";
            try (var out = new PrintWriter(file.resolveSibling(why).toFile())) {
                wrong.printStackTrace(out);
            } catch (IOException full) {
                throw new UncheckedIOException(full);
            }
        }
    }

    private static Path write(Path root, Target target, byte[] input) {
        CRC32 sum = new CRC32();
        sum.update(input);
        String name = HexFormat.of().toHexDigits((int) sum.getValue());
        try {
            Path folder = Files.createDirectories(root.resolve(target.name()));
            return Files.write(folder.resolve(name), input);
        } catch (IOException full) {
            throw new UncheckedIOException(full);
        }
    }

    Map<String, String> failures() {
        return failures;
    }

    int count() {
        return inputs.values().stream().mapToInt(i -> i).sum();
    }

    /** What was done, for people. */
    String report() {
        StringBuilder text = new StringBuilder("seed " + seed + ", " + count() + " inputs\n");
        inputs.forEach(
                (name, n) ->
                        text.append(
                                String.format(
                                        "  %-28s %9d inputs, %7d accepted%n",
                                        name, n, accepted.get(name))));
        failures.forEach(
                (what, message) ->
                        text.append("FAILED " + what + ": ")
                                .append(message.lines().limit(3).reduce("", (a, b) -> a + " " + b))
                                .append('\n'));
        return text.toString();
    }

    /** All targets in turn, until so many inputs were read, or for minutes: {@code 120m}. */
    static Campaign runAll(World world, long seed, String amount, String only, LongSupplier reached)
            throws Exception {
        boolean minutes = amount.endsWith("m");
        int number = Integer.parseInt(amount.replace("m", ""));
        int most = minutes ? Integer.MAX_VALUE : number;
        long mostNanos = minutes ? TimeUnit.MINUTES.toNanos(number) : Long.MAX_VALUE;
        long begin = System.nanoTime();
        Campaign campaign = new Campaign(seed, reached);
        Random random = new Random(seed);
        List<Target> targets =
                Targets.all(world).stream().filter(t -> t.name().contains(only)).toList();
        Map<Target, List<byte[]>> pools = new LinkedHashMap<>();
        for (Target target : targets) {
            pools.put(target, new ArrayList<>(target.seeds()));
            campaign.runSeeds(target);
        }
        long shown = System.nanoTime();
        while (campaign.count() < most && System.nanoTime() - begin < mostNanos) {
            for (Target target : targets) {
                campaign.run(target, pools.get(target), SLICE, 1000, random);
            }
            if (System.nanoTime() - shown > 60_000_000_000L) {
                shown = System.nanoTime();
                System.out.printf(
                        "%d inputs, %d branches, %d failures%n",
                        campaign.count(), reached.getAsLong(), campaign.failures().size());
            }
        }
        return campaign;
    }

    /**
     * Runs a campaign and prints what came of it.
     *
     * @param words as on the command line
     * @return what failed
     */
    public static List<String> run(String... words) throws Exception {
        Path folder = World.newFolder();
        try {
            if (words[0].equals("further")) {
                return copyFurther(new World(folder), Path.of(words[1]), Path.of(words[2]));
            }
            Campaign campaign =
                    runAll(
                            new World(folder),
                            Long.parseLong(words[0]),
                            words[1],
                            words.length > 2 ? words[2] : "",
                            BranchLoader::reached);
            System.out.println(campaign.report());
            System.out.println(BranchLoader.report());
            return List.copyOf(campaign.failures().keySet());
        } finally {
            World.delete(folder);
        }
    }

    private static List<String> copyFurther(World world, Path from, Path to) throws Exception {
        Campaign campaign = new Campaign(0, BranchLoader::reached);
        List<Target> targets = Targets.all(world);
        for (Target target : targets) {
            campaign.runSeeds(target);
        }
        for (Target target : targets) {
            for (Path file : campaign.runFiles(target, from)) {
                write(to, target, Files.readAllBytes(file));
            }
        }
        System.out.println(campaign.report());
        System.out.println(BranchLoader.report());
        return List.copyOf(campaign.failures().keySet());
    }

    /** Runs a campaign; see the class. */
    public static void main(String[] words) throws Exception {
        System.exit(run(words).isEmpty() ? 0 : 1);
    }
}
