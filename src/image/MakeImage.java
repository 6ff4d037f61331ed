import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.spi.ToolProvider;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;

/**
 * Makes a self-contained application from the packaged program: {@code java
 * src/image/MakeImage.java TARGET VERSION}. TARGET holds {@code padward.jar} and {@code lib}; the
 * application comes to {@code TARGET/image}, with its own Java, manual pages, completion for shells
 * and licences. It runs on the system on which it was made.
 */
public final class MakeImage {
    /** What the program and its libraries use of Java; the tests run every command on the image. */
    private static final String MODULES =
            "java.base,java.desktop,java.logging,java.management,java.xml,jdk.unsupported,"
                    + "jdk.unsupported.desktop";

    /**
     * Libraries of which the program uses some classes only, none of them by name at run time: the
     * others are left out.
     */
    private static final List<String> PARTLY_USED =
            List.of(
                    "fastutil-core",
                    "jgrapht-core",
                    "jheaps",
                    "apfloat",
                    "commons-codec",
                    "commons-io",
                    "error_prone_annotations");

    private static final Pattern NAMED = Pattern.compile("L([\\w/$]+)[;<]");

    private static final int JAVA = Runtime.version().feature();
    private static final String SYSTEM = System.getProperty("os.name").toLowerCase(Locale.ROOT);
    private static final boolean WINDOWS = SYSTEM.contains("windows");
    private static final boolean MAC = SYSTEM.contains("mac");

    private final Path target;
    private final String version;

    private MakeImage(Path target, String version) {
        this.target = target;
        this.version = version;
    }

    /** Makes it. */
    public static void main(String[] arguments) throws Exception {
        new MakeImage(Path.of(arguments[0]).toAbsolutePath(), arguments[1]).run();
    }

    private void run() throws Exception {
        Path work = target.resolve("image-work");
        Path image = target.resolve("image");
        deleteAll(work);
        deleteAll(image);
        Path runtime = work.resolve("runtime");
        Files.createDirectories(work);
        tool(
                "jlink",
                "--add-modules",
                MODULES,
                "--strip-debug",
                "--no-header-files",
                "--no-man-pages",
                JAVA < 21 ? "--compress=2" : "--compress=zip-6",
                "--output",
                runtime);
        Path input = work.resolve("input");
        copyAll(target.resolve("lib"), input.resolve("lib"));
        Files.copy(
                target.resolve("padward.jar"),
                input.resolve("padward.jar"),
                StandardCopyOption.COPY_ATTRIBUTES);
        compileOptions(work, input.resolve("lib"));
        leaveOutUnused(input);
        List<Object> words =
                new ArrayList<>(
                        List.of(
                                "--type",
                                "app-image",
                                "--name",
                                "padward",
                                "--app-version",
                                version.replaceFirst("-.*", "").replaceFirst("^0\\.", "1."),
                                "--input",
                                input,
                                "--main-jar",
                                "padward.jar",
                                "--main-class",
                                "padward.Main",
                                "--runtime-image",
                                runtime,
                                "--icon",
                                icon(work),
                                "--java-options",
                                "-Xshare:auto",
                                "--java-options",
                                "-Xlog:disable",
                                "--java-options",
                                "-XX:-UsePerfData",
                                "--java-options",
                                "-XX:SharedArchiveFile=$APPDIR/classes.jsa",
                                "--dest",
                                image));
        if (JAVA >= 24) { // where it is warned about, unless allowed
            words.add("--java-options");
            words.add("--enable-native-access=ALL-UNNAMED");
        }
        if (WINDOWS) {
            words.add("--win-console");
        }
        tool("jpackage", words.toArray());
        Path root = image.resolve(MAC ? "padward.app" : "padward");
        addPages(root);
        shareClasses(root);
        System.out.printf(Locale.ROOT, "%s: %.1f MB%n", root, size(root) / 1e6);
    }

    /**
     * The library for the command line, for this Java: as it is given away, it is for a Java so old
     * that the archive of classes takes none of it.
     */
    private static void compileOptions(Path work, Path lib) throws IOException {
        Path sources = work.resolveSibling("image-sources");
        Path classes = Files.createDirectories(work.resolve("options"));
        Path jar = only(lib, "picocli");
        unpack(only(sources, "picocli"), sources, name -> name.endsWith(".java"));
        tool(
                "javac",
                "-proc:none",
                "-nowarn",
                "-g:none",
                "-XDstringConcat=inline",
                "-d",
                classes,
                sources.resolve("picocli/CommandLine.java"));
        unpack(jar, classes, name -> name.startsWith("META-INF/LICENSE") || name.startsWith("META-INF/NOTICE"));
        Files.delete(jar);
        tool("jar", "--create", "--file", jar, "-C", classes, ".");
    }

    /** Leaves out classes of libraries that nothing leads to. */
    private void leaveOutUnused(Path input) throws IOException {
        List<Path> jars = new ArrayList<>(List.of(input.resolve("padward.jar")));
        try (Stream<Path> files = Files.list(input.resolve("lib"))) {
            files.sorted().forEach(jars::add);
        }
        Map<String, Set<String>> uses = uses(jars);
        Deque<String> open = new ArrayDeque<>();
        Set<String> used = new HashSet<>();
        for (Path jar : jars) {
            if (!isPartlyUsed(jar)) {
                open.addAll(classes(jar));
            }
        }
        while (!open.isEmpty()) {
            String name = open.pop();
            if (used.add(name)) {
                open.addAll(uses.getOrDefault(name, Set.of()));
            }
        }
        for (Path jar : jars) {
            if (isPartlyUsed(jar)) {
                FileTime time = Files.getLastModifiedTime(jar);
                Path kept = jar.resolveSibling("kept.jar");
                copyJar(jar, kept, name -> !name.endsWith(".class") || used.contains(className(name)));
                Files.move(kept, jar, StandardCopyOption.REPLACE_EXISTING);
                Files.setLastModifiedTime(jar, time);
            }
        }
    }

    private static boolean isPartlyUsed(Path jar) {
        String name = jar.getFileName().toString();
        return PARTLY_USED.stream().anyMatch(p -> name.startsWith(p + "-"));
    }

    /** For each class, those that it may name: all words of its texts that look like a class. */
    private static Map<String, Set<String>> uses(List<Path> jars) throws IOException {
        Map<String, Set<String>> uses = new HashMap<>();
        for (Path jar : jars) {
            try (ZipFile zip = new ZipFile(jar.toFile())) {
                for (ZipEntry entry : list(zip)) {
                    if (entry.getName().endsWith(".class")) {
                        uses.computeIfAbsent(className(entry.getName()), n -> new HashSet<>())
                                .addAll(named(zip.getInputStream(entry)));
                    }
                }
            }
        }
        return uses;
    }

    /** The class names in the texts of a class file, by chapter 4.4 of the JVM's specification. */
    private static Set<String> named(InputStream file) throws IOException {
        Set<String> names = new HashSet<>();
        try (DataInputStream in = new DataInputStream(new BufferedInputStream(file))) {
            in.skipNBytes(8);
            int count = in.readUnsignedShort();
            for (int i = 1; i < count; i++) {
                int tag = in.readUnsignedByte();
                switch (tag) {
                    case 1 -> {
                        String text = in.readUTF();
                        names.add(text.replace('/', '.'));
                        NAMED.matcher(text).results().forEach(r -> names.add(r.group(1).replace('/', '.')));
                    }
                    case 7, 8, 16, 19, 20 -> in.skipNBytes(2);
                    case 15 -> in.skipNBytes(3);
                    case 5, 6 -> {
                        in.skipNBytes(8);
                        i++;
                    }
                    default -> in.skipNBytes(4);
                }
            }
        }
        return names;
    }

    private static Set<String> classes(Path jar) throws IOException {
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            return zip.stream()
                    .map(ZipEntry::getName)
                    .filter(n -> n.endsWith(".class"))
                    .map(MakeImage::className)
                    .collect(Collectors.toSet());
        }
    }

    private static String className(String entry) {
        return entry.replaceFirst("\\.class$", "")
                .replaceFirst("^META-INF/versions/[0-9]+/", "")
                .replace('/', '.');
    }

    private static void copyJar(Path from, Path to, Predicate<String> kept) throws IOException {
        try (ZipFile zip = new ZipFile(from.toFile());
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(to))) {
            out.setLevel(9);
            for (ZipEntry entry : list(zip)) {
                if (kept.test(entry.getName()) && !entry.isDirectory()) {
                    ZipEntry copy = new ZipEntry(entry.getName());
                    copy.setTime(entry.getTime());
                    out.putNextEntry(copy);
                    zip.getInputStream(entry).transferTo(out);
                    out.closeEntry();
                }
            }
        }
    }

    private static List<ZipEntry> list(ZipFile zip) {
        return zip.stream().map(ZipEntry.class::cast).toList();
    }

    private static void unpack(Path jar, Path to, Predicate<String> wanted) throws IOException {
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            for (ZipEntry entry : list(zip)) {
                if (wanted.test(entry.getName()) && !entry.isDirectory()) {
                    Path file = to.resolve(entry.getName());
                    Files.createDirectories(file.getParent());
                    Files.copy(
                            zip.getInputStream(entry), file, StandardCopyOption.REPLACE_EXISTING);
                }
            }
        }
    }

    private static Path only(Path folder, String start) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(f -> f.getFileName().toString().startsWith(start + "-"))
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException(folder + " has no " + start));
        }
    }

    private static void tool(String name, Object... words) {
        String[] texts = Arrays.stream(words).map(Object::toString).toArray(String[]::new);
        int status =
                ToolProvider.findFirst(name)
                        .orElseThrow(() -> new IllegalStateException("this Java has no " + name))
                        .run(System.out, System.err, texts);
        if (status != 0) {
            throw new IllegalStateException(name + " ended with status " + status);
        }
    }

    /** The program's icon in the form that the system wants: each holds the same PNG. */
    private Path icon(Path work) throws IOException {
        byte[] png = Files.readAllBytes(target.resolve("classes/padward/ui/icon.png"));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        DataOutputStream out = new DataOutputStream(bytes);
        String ending = ".png";
        if (WINDOWS) {
            ending = ".ico";
            // Reserved, type icon, one picture; 256 x 256 as 0, no palette, one plane of 32 bits.
            out.write(new byte[] {0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 1, 0, 32, 0});
            out.writeInt(Integer.reverseBytes(png.length));
            out.writeInt(Integer.reverseBytes(22));
        } else if (MAC) {
            ending = ".icns";
            out.writeBytes("icns");
            out.writeInt(16 + png.length);
            out.writeBytes("ic08");
            out.writeInt(8 + png.length);
        }
        out.write(png);
        Path file = work.resolve("padward" + ending);
        Files.write(file, bytes.toByteArray());
        return file;
    }

    /** Manual pages and completion, made from the commands' own help; licences. */
    private void addPages(Path root) throws Exception {
        Path share = root.resolve(MAC ? "Contents/Resources" : "share");
        copyAll(target.resolve("licences"), share.resolve("licences"));
        run(
                Map.of(),
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                target.resolve("../src/image/MakePages.java").normalize().toString(),
                target.toString(),
                version,
                share.toString());
    }

    /**
     * The archives of loaded classes from which each start reads: Java's own, and the program's,
     * from one question. It states a corner, so that the command line is built as for other
     * commands.
     */
    private void shareClasses(Path root) throws Exception {
        Path runtime = root.resolve(MAC ? "Contents/runtime/Contents/Home" : WINDOWS ? "runtime" : "lib/runtime");
        run(Map.of(), runtime.resolve("bin/java").toString(), "-Xshare:dump", "-Xlog:disable");
        Path app = root.resolve(MAC ? "Contents/app" : WINDOWS ? "app" : "lib/app");
        Path archive = app.resolve("classes.jsa");
        Path program = root.resolve(MAC ? "Contents/MacOS/padward" : WINDOWS ? "padward.exe" : "bin/padward");
        Path config = app.resolve("padward.cfg");
        String settings = Files.readString(config);
        // While it is written it cannot be read.
        Files.writeString(config, settings.replace("-XX:SharedArchiveFile=", "-XX:ArchiveClassesAtExit="));
        Path example = target.resolve("../fixtures/small/only.design.json").normalize();
        run(
                Map.of(),
                program.toString(),
                "ask",
                "--design",
                example.toString(),
                "--net",
                "pump/level/sample[1]",
                "--pad",
                "J1.2",
                "--corner",
                "slow");
        Files.writeString(config, settings);
        if (!Files.exists(archive)) {
            throw new IllegalStateException("no archive of classes was written: " + archive);
        }
    }

    private static void run(Map<String, String> environment, String... words) throws Exception {
        ProcessBuilder builder = new ProcessBuilder(words).redirectErrorStream(true);
        builder.environment().putAll(environment);
        Process process = builder.start();
        String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (process.waitFor() > 1) { // 1 is an answer, too
            throw new IllegalStateException(String.join(" ", words) + ": " + printed);
        }
    }

    private static long size(Path root) throws IOException {
        try (Stream<Path> files = Files.walk(root)) {
            return files.filter(Files::isRegularFile).mapToLong(f -> f.toFile().length()).sum();
        }
    }

    private static void copyAll(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Path copy = to.resolve(from.relativize(file).toString());
                if (Files.isDirectory(file)) {
                    Files.createDirectories(copy);
                } else {
                    Files.copy(file, copy, StandardCopyOption.COPY_ATTRIBUTES);
                }
            }
        }
    }

    private static void deleteAll(Path folder) throws IOException {
        if (!Files.exists(folder)) {
            return;
        }
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }
}
