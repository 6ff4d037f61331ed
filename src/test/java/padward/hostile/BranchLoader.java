package padward.hostile;

import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import org.jacoco.core.analysis.Analyzer;
import org.jacoco.core.analysis.CoverageBuilder;
import org.jacoco.core.analysis.ICounter;
import org.jacoco.core.analysis.ISourceFileCoverage;
import org.jacoco.core.data.ExecutionData;
import org.jacoco.core.data.ExecutionDataStore;
import org.jacoco.core.instr.Instrumenter;
import org.jacoco.core.runtime.IRuntime;
import org.jacoco.core.runtime.LoggerRuntime;
import org.jacoco.core.runtime.RuntimeData;

/**
 * Loads the program once more, with marks at its branches, and runs a campaign in it: so the
 * campaign sees which inputs reach what no other has reached, and can say what share it reached.
 *
 * <p>Run by hand: {@code BranchLoader SEED INPUTS [TARGET]}, see {@link Campaign}. The lines with
 * branches that were not reached are listed in {@code target/hostile/missed.txt}.
 */
public final class BranchLoader extends ClassLoader {
    /** The packages that read what others have written. */
    private static final List<String> READERS =
            List.of(
                    "padward.format",
                    "padward.capture",
                    "padward.lesson.file",
                    "padward.watch.condition");

    private static final Path CLASSES = Path.of("target", "classes");
    private static final Path MISSED = Path.of("target", "hostile", "missed.txt");

    /** Set in the loaded copy of this class. */
    private static LongSupplier reached = () -> 0;

    private static Supplier<String> report = () -> "branches are counted by BranchLoader only";

    private final Instrumenter instrumenter;
    private final RuntimeData data = new RuntimeData();
    private final List<boolean[]> probes = new ArrayList<>();
    private int known;

    private BranchLoader() throws Exception {
        super(BranchLoader.class.getClassLoader());
        IRuntime runtime = new LoggerRuntime();
        runtime.startup(data);
        this.instrumenter = new Instrumenter(runtime);
    }

    /** How many marks were passed so far. */
    static long reached() {
        return reached.getAsLong();
    }

    /** The share of the readers' branches that was reached. */
    static String report() {
        return report.get();
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
        if (!name.startsWith("padward.")) {
            return super.loadClass(name, resolve);
        }
        synchronized (getClassLoadingLock(name)) {
            Class<?> loaded = findLoadedClass(name);
            return loaded == null ? define(name) : loaded;
        }
    }

    private Class<?> define(String name) throws ClassNotFoundException {
        String file = name.replace('.', '/') + ".class";
        try (InputStream in = getParent().getResourceAsStream(file)) {
            if (in == null) {
                throw new ClassNotFoundException(name);
            }
            boolean marked = READERS.stream().anyMatch(name::startsWith) && isMain(file);
            byte[] bytes = marked ? instrumenter.instrument(in, name) : in.readAllBytes();
            return defineClass(name, bytes, 0, bytes.length);
        } catch (IOException unreadable) {
            throw new ClassNotFoundException(name, unreadable);
        }
    }

    private static boolean isMain(String file) {
        return Files.exists(CLASSES.resolve(file));
    }

    /** The arrays of marks are the program's own: they change while it runs. */
    private long count() {
        ExecutionDataStore store = store();
        if (store.getContents().size() != known) {
            known = store.getContents().size();
            probes.clear();
            store.getContents().forEach(d -> probes.add(d.getProbes()));
        }
        long sum = 0;
        for (boolean[] some : probes) {
            for (boolean one : some) {
                sum += one ? 1 : 0;
            }
        }
        return sum;
    }

    private ExecutionDataStore store() {
        ExecutionDataStore store = new ExecutionDataStore();
        data.collect(
                d -> store.put(new ExecutionData(d.getId(), d.getName(), d.getProbes())),
                info -> {},
                false);
        return store;
    }

    private String share() {
        CoverageBuilder coverage = new CoverageBuilder();
        Analyzer analyzer = new Analyzer(store(), coverage);
        try {
            for (String each : READERS) {
                analyzer.analyzeAll(CLASSES.resolve(each.replace('.', '/')).toFile());
            }
        } catch (IOException unreadable) {
            throw new java.io.UncheckedIOException(unreadable);
        }
        Map<String, int[]> byPackage = new TreeMap<>();
        coverage.getClasses()
                .forEach(
                        c -> {
                            ICounter branches = c.getBranchCounter();
                            for (String name : List.of(c.getPackageName(), "all")) {
                                int[] sum = byPackage.computeIfAbsent(name, n -> new int[2]);
                                sum[0] += branches.getCoveredCount();
                                sum[1] += branches.getTotalCount();
                            }
                        });
        writeMissed(coverage);
        StringBuilder text = new StringBuilder("branches of the readers that were reached:\n");
        byPackage.forEach(
                (name, n) ->
                        text.append(
                                String.format(
                                        "  %-32s %5d of %5d, %.1f %%%n",
                                        name, n[0], n[1], 100.0 * n[0] / Math.max(1, n[1]))));
        return text.toString();
    }

    /** Writes the lines with branches that nothing reached. */
    private static void writeMissed(CoverageBuilder coverage) {
        List<String> lines = new ArrayList<>();
        for (ISourceFileCoverage file : coverage.getSourceFiles()) {
            String name = file.getPackageName() + "/" + file.getName();
            for (int line = file.getFirstLine(); line <= file.getLastLine(); line++) {
                ICounter branches = file.getLine(line).getBranchCounter();
                if (branches.getMissedCount() > 0) {
                    lines.add(
                            "%s:%d: %d of %d"
                                    .formatted(
                                            name,
                                            line,
                                            branches.getMissedCount(),
                                            branches.getTotalCount()));
                }
            }
        }
        try {
            Files.createDirectories(MISSED.getParent());
            Files.write(MISSED, lines);
        } catch (IOException full) {
            throw new java.io.UncheckedIOException(full);
        }
    }

    /**
     * Runs a campaign in the marked program.
     *
     * @param words as for {@link Campaign}
     * @return what failed
     */
    static List<String> run(String... words) throws Exception {
        BranchLoader loader = new BranchLoader();
        Class<?> copy = loader.loadClass(BranchLoader.class.getName());
        setField(copy, "reached", (LongSupplier) loader::count);
        setField(copy, "report", (Supplier<String>) loader::share);
        Method run = loader.loadClass(Campaign.class.getName()).getMethod("run", String[].class);
        return ((List<?>) run.invoke(null, (Object) words)).stream().map(String::valueOf).toList();
    }

    /** Runs a campaign in the marked program; see the class. */
    public static void main(String[] words) throws Exception {
        System.exit(run(words).isEmpty() ? 0 : 1);
    }

    private static void setField(Class<?> of, String name, Object value) throws Exception {
        var field = of.getDeclaredField(name);
        field.setAccessible(true);
        field.set(null, value);
    }
}
