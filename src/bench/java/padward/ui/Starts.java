package padward.ui;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.jar.JarOutputStream;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import padward.bench.Promises;

/**
 * Times the start of the window, from starting the process to the first picture of the demo,
 * against a bare window with one canvas that is started alike; alternately, in one run. First as
 * {@code java -jar} does it, then with the class-data archive that {@code target/padward} uses.
 * Fails when the median of either is above 1.2 times the bare window's.
 *
 * <pre>xvfb-run mvn -q -Pbench package -DskipTests exec:exec@start [-Dstart.rounds=7]</pre>
 */
public final class Starts {
    private static final String MARK = "first picture";
    private static final double RATIO = 1.2;

    private Starts() {}

    /** Runs everything. The arguments: the program's jar; how many rounds. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        Path jar = Path.of(args[0]).toAbsolutePath();
        int rounds = Integer.parseInt(args[1]);
        int status;
        Path scratch = Files.createTempDirectory("padward-start");
        try {
            String path = classPath(jar, scratch);
            System.out.printf("%-34s %8s %8s %8s%n", "milliseconds", "bare", "window", "ratio");
            Promises promises = new Promises();
            measure("as java -jar", path, List.of(), scratch, rounds, promises);
            List<String> archive =
                    List.of("-XX:SharedArchiveFile=" + archive(path, scratch), "-Xlog:disable");
            measure("with a class-data archive", path, archive, scratch, rounds, promises);
            status = promises.report();
        } finally {
            delete(scratch);
        }
        System.exit(status);
    }

    private static void measure(
            String what,
            String path,
            List<String> options,
            Path scratch,
            int rounds,
            Promises promises)
            throws Exception {
        List<Long> bare = new ArrayList<>();
        List<Long> window = new ArrayList<>();
        for (int i = -1; i < rounds; i++) {
            long first = start("bare", path, options, scratch);
            long second = start("window", path, options, scratch);
            if (i >= 0) {
                bare.add(first);
                window.add(second);
            }
        }
        bare.sort(Comparator.naturalOrder());
        window.sort(Comparator.naturalOrder());
        int middle = rounds / 2;
        System.out.printf(
                "%-34s %8d %8d %8.2f%n",
                what + ", best", bare.get(0), window.get(0), (double) window.get(0) / bare.get(0));
        System.out.printf(
                "%-34s %8d %8d %8.2f%n",
                what + ", median",
                bare.get(middle),
                window.get(middle),
                (double) window.get(middle) / bare.get(middle));
        promises.atMost(
                what + ", median, times a bare window",
                (double) window.get(middle) / bare.get(middle),
                RATIO);
    }

    /** Milliseconds from starting a process to its first picture. */
    private static long start(String which, String path, List<String> options, Path scratch)
            throws Exception {
        List<String> command = new ArrayList<>(List.of("java"));
        command.addAll(options);
        command.addAll(
                List.of(
                        "-Dpadward.settings=" + Files.createTempDirectory(scratch, "settings"),
                        "-cp",
                        path,
                        FirstPicture.class.getName(),
                        which));
        long begin = System.nanoTime();
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        long end = 0;
        StringBuilder all = new StringBuilder();
        try (BufferedReader lines = process.inputReader()) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                all.append(line).append('\n');
                if (line.equals(MARK)) {
                    end = System.nanoTime();
                }
            }
        }
        process.waitFor();
        if (end == 0) {
            throw new IOException("no picture from " + command + "\n" + all);
        }
        return (end - begin) / 1_000_000;
    }

    /** Made as the launcher makes it: by the program itself, as it ends. */
    private static Path archive(String path, Path scratch) throws Exception {
        Path archive = scratch.resolve("padward.jsa");
        start("window", path, List.of("-XX:ArchiveClassesAtExit=" + archive), scratch);
        if (!Files.exists(archive)) {
            throw new IOException("no archive was written");
        }
        return archive;
    }

    /** The jar, its libraries, and these classes as a jar: archives do not take folders. */
    private static String classPath(Path jar, Path scratch) throws IOException {
        List<String> parts = new ArrayList<>(List.of(jar.toString()));
        try (DirectoryStream<Path> libraries =
                Files.newDirectoryStream(jar.resolveSibling("lib"), "*.jar")) {
            libraries.forEach(l -> parts.add(l.toString()));
        }
        parts.subList(1, parts.size()).sort(Comparator.naturalOrder());
        Path own = scratch.resolve("starts.jar");
        try (JarOutputStream out = new JarOutputStream(Files.newOutputStream(own))) {
            for (Class<?> part : parts()) {
                String name = part.getName().replace('.', '/') + ".class";
                out.putNextEntry(new ZipEntry(name));
                try (InputStream in = part.getClassLoader().getResourceAsStream(name)) {
                    in.transferTo(out);
                }
            }
        }
        parts.add(own.toString());
        return String.join(System.getProperty("path.separator"), parts);
    }

    private static List<Class<?>> parts() throws IOException {
        try {
            return List.of(
                    FirstPicture.class,
                    FirstPicture.Bare.class,
                    Class.forName(FirstPicture.class.getName() + "$1"));
        } catch (ClassNotFoundException fault) {
            throw new IOException(fault);
        }
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(one);
            }
        }
    }
}
