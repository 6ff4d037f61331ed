import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BinaryOperator;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.spi.ToolProvider;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/**
 * Makes a self-contained application from the packaged program: {@code java
 * src/image/MakeImage.java TARGET VERSION}. TARGET holds {@code padward.jar} and {@code lib}; the
 * application comes to {@code TARGET/image}, with its own Java, manual pages, completion for shells
 * and licences. It runs on the system on which it was made.
 */
public final class MakeImage {
    /** What the program and its libraries use of Java; the tests run every command on the image. */
    private static final List<String> MODULES =
            List.of(
                    "java.desktop",
                    "java.logging",
                    "java.xml",
                    "jdk.unsupported",
                    "javafx.controls",
                    "javafx.swing");

    /** How the image starts Java: docs/speed-notes.md says what they are good for. */
    private static final List<String> OPTIONS =
            List.of(
                    "-Xshare:auto",
                    "-Xlog:disable",
                    "-XX:-UsePerfData",
                    "-Djava.awt.headless=true"); // the window needs none of AWT's, nor does its printing

    /** Further options for what is soon over: compiling in full begins ten times later. */
    private static final List<String> BRIEF =
            List.of(
                    "-XX:Tier4InvocationThreshold=50000",
                    "-XX:Tier4MinInvocationThreshold=6000",
                    "-XX:Tier4CompileThreshold=150000",
                    "-XX:Tier4BackEdgeThreshold=400000");

    /**
     * Parts of Java and JavaFX that nothing here leads to at run time, although classes that are
     * used name some of them: Swing, windows of AWT, sound, the compiler of XSLT. What Java's services
     * name stays, also where no picture or printer here needs it: one that is missing stops all.
     */
    private static final List<String> UNUSED =
            List.of(
                    "java.desktop/javax/swing/",
                    "java.desktop/com/sun/java/swing/",
                    "java.desktop/com/sun/swing/",
                    "java.desktop/sun/swing/",
                    "java.desktop/com/sun/media/sound/",
                    "java.desktop/javax/sound/",
                    "java.desktop/sun/awt/X11/",
                    "java.xml/com/sun/org/apache/xalan/internal/xsltc/compiler/",
                    "java.xml/com/sun/org/apache/xalan/internal/lib/",
                    "java.xml/com/sun/org/apache/xalan/internal/res/",
                    "java.xml/com/sun/org/apache/bcel/",
                    "java.xml/com/sun/org/apache/xpath/",
                    "java.xml/com/sun/java_cup/",
                    "java.base/sun/security/tools/",
                    "javafx.controls/javafx/scene/chart/",
                    "javafx.controls/com/sun/javafx/scene/control/skin/caspian/");

    /** Of these parts, what a class that is used extends. */
    private static final String LINKED =
            "/java.xml/com/sun/org/apache/xalan/internal/xsltc/compiler/SourceLoader.class";

    /** Files of libraries that nothing here reads: encodings of CJK fonts, faces not used. */
    private static final List<String> UNUSED_FILES =
            List.of(
                    "org/apache/fontbox/cmap/(?!Identity-|Adobe-Identity-).*(?<!\\.class)",
                    "atlantafx/base/theme/(?!primer-).*[.](?:css|bss)",
                    "liberation/(?!LiberationSans-(Regular|Bold)\\.ttf).*",
                    "org/apache/commons/codec/language/.*");

    /** A jar that jpackage must be given. */
    private static final String STUB = "padward.jar";

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
        Path input = work.resolve("input");
        copyAll(target.resolve("lib"), input.resolve("lib"));
        Files.copy(target.resolve("padward.jar"), input.resolve("padward.jar"));
        compileOptions(work, input.resolve("lib"));
        Path runtime = runtime(work, input);
        Path stub = Files.createDirectories(work.resolve("stub"));
        tool("jar", "--create", "--file", stub.resolve(STUB), "-C", stub, ".");
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
                                stub,
                                "--main-jar",
                                STUB,
                                "--main-class",
                                "padward.Main",
                                "--runtime-image",
                                runtime,
                                "--icon",
                                icon(work),
                                "--dest",
                                image));
        List<String> options = new ArrayList<>(OPTIONS);
        if (JAVA >= 24) { // where it is warned about, unless allowed
            options.add("--enable-native-access=javafx.graphics");
        }
        for (String option : concat(options, BRIEF.toArray(String[]::new))) {
            words.addAll(List.of("--java-options", option));
        }
        if (WINDOWS) {
            words.add("--win-console");
        }
        tool("jpackage", words.toArray());
        Path root = image.resolve(MAC ? "padward.app" : "padward");
        addPages(root);
        // The classes are in the runtime. A class path must be stated, or the folder in which the
        // program is started would be one; a file that is not there fits wherever the image is.
        Files.delete(root.resolve(MAC ? "Contents/app" : WINDOWS ? "app" : "lib/app").resolve(STUB));
        if (!MAC && !WINDOWS) {
            replaceStarter(root, options);
        }
        shareClasses(work, root);
        System.out.printf(Locale.ROOT, "%s: %.1f MB%n", root, size(root) / 1e6);
    }

    /**
     * A Java that holds the program and its libraries as one module, beside those of JavaFX: the
     * archive of classes then fits wherever the image is moved to.
     */
    private Path runtime(Path work, Path input) throws IOException {
        Path classes = merged(work, input);
        List<Path> javafx = jars(input.resolve("lib"), n -> n.startsWith("javafx-"));
        String path = javafx.stream().map(Path::toString).collect(Collectors.joining(File.pathSeparator));
        Path source = work.resolve("module-info.java");
        Files.writeString(source, moduleInfo(classes));
        tool(
                "javac",
                "--module-path",
                path,
                "--patch-module",
                "padward=" + classes,
                "-d",
                classes,
                source);
        Path runtime = work.resolve("runtime");
        List<Object> words =
                new ArrayList<>(
                        List.of(
                                "--module-path",
                                classes + File.pathSeparator + path,
                                "--add-modules",
                                "padward",
                                "--strip-debug",
                                "--no-header-files",
                                "--no-man-pages",
                                JAVA < 21 ? "--compress=2" : "--compress=zip-9",
                                "--exclude-resources",
                                "@" + unused(work, javafx),
                                "--exclude-files",
                                // Nothing here connects to a server, so no certificates of any.
                                "glob:/java.base/lib/jrt-fs.jar,glob:/java.base/lib/classlist,"
                                        + "glob:/java.base/lib/security/cacerts,"
                                        + "glob:/java.base/lib/security/public_suffix_list.dat,"
                                        + "glob:**libmlib_image.*,glob:**libjsound.*,glob:**libsplashscreen.*,"
                                        + "glob:**libawt_xawt.*",
                                "--output",
                                runtime));
        tool("jlink", words.toArray());
        for (Path jar : javafx) {
            unpack(jar, runtime.resolve(WINDOWS ? "bin" : "lib"), MakeImage::isUsedNative);
        }
        strip(runtime);
        return runtime;
    }

    /**
     * A list of what is left out, as jlink wants it. One file of each package stays: a package that
     * a module offers must not be empty.
     */
    private static Path unused(Path work, List<Path> javafx) throws IOException {
        List<String> all = new ArrayList<>();
        Path java = FileSystems.getFileSystem(URI.create("jrt:/")).getPath("/modules");
        for (String start : UNUSED) {
            Path folder = java.resolve(start);
            if (Files.isDirectory(folder)) {
                try (Stream<Path> files = Files.walk(folder)) {
                    files.filter(Files::isRegularFile).forEach(f -> all.add("/" + java.relativize(f)));
                }
            }
        }
        for (Path jar : javafx) {
            String module = jar.getFileName().toString().replaceFirst("javafx-([a-z]+)-.*", "javafx.$1");
            try (ZipFile zip = new ZipFile(jar.toFile())) {
                zip.stream()
                        .filter(e -> !e.isDirectory())
                        .map(e -> module + "/" + e.getName())
                        .filter(n -> UNUSED.stream().anyMatch(n::startsWith))
                        .forEach(n -> all.add("/" + n));
            }
        }
        Map<String, String> kept = new TreeMap<>();
        all.forEach(n -> kept.merge(n.replaceFirst("/[^/]*$", ""), n, BinaryOperator.minBy(Comparator.naturalOrder())));
        String but = Stream.concat(kept.values().stream(), Stream.of(LINKED)).distinct().map(Pattern::quote).collect(Collectors.joining("|"));
        String starts = UNUSED.stream().map(n -> Pattern.quote("/" + n)).collect(Collectors.joining("|"));
        Path list = work.resolve("unused.txt");
        Files.write(
                list,
                List.of(
                        "regex:(?!(?:" + but + ")$)(?:" + starts + ").*",
                        "regex:/java[.][a-z]+/.*_(?:de|es|fr|it|ja|ko|pt_BR|sv|zh_CN|zh_HK|zh_TW)"
                                + "[.](?:class|properties)",
                        "regex:/javafx[^/]*/[^/]*[.](?:so|dll|dylib)"));
        return list;
    }

    /** Not that of an older toolkit, nor that which decodes JPEG: the window has none. */
    private static boolean isUsedNative(String name) {
        return name.matches("[^/]+\\.(so|dll|dylib)")
                && !name.contains("gtk2")
                && !name.contains("javafx_iio");
    }

    /** Removes what only debuggers read of the machine, where the tool for it is installed. */
    private static void strip(Path runtime) throws IOException {
        if (WINDOWS || MAC) {
            return;
        }
        try (Stream<Path> files = Files.walk(runtime)) {
            for (Path file : files.filter(f -> f.toString().endsWith(".so")).toList()) {
                run(Map.of(), "strip", "--strip-unneeded", file.toString());
            }
        } catch (Exception fault) {
            System.out.println("not stripped: " + fault.getMessage());
        }
    }

    /** The program's classes and those of the libraries that it uses, in one folder. */
    private Path merged(Path work, Path input) throws IOException {
        List<Path> jars = new ArrayList<>(List.of(input.resolve("padward.jar")));
        jars.addAll(jars(input.resolve("lib"), n -> !n.startsWith("javafx-")));
        Set<String> used = used(jars, input);
        Path classes = Files.createDirectories(work.resolve("classes"));
        for (Path jar : jars) {
            unpackNew(
                    jar,
                    classes,
                    name ->
                            !name.startsWith("META-INF/")
                                    && !name.endsWith("package-info.class")
                                    && !name.equals("module-info.class")
                                    && UNUSED_FILES.stream().noneMatch(name::matches)
                                    && (!name.endsWith(".class") || used.contains(className(name))));
        }
        return classes;
    }

    /** An open module that hides nothing: its parts were made to be on a class path. */
    private static String moduleInfo(Path classes) throws IOException {
        StringBuilder text = new StringBuilder("open module padward {\n");
        for (String module : MODULES) {
            text.append("    requires ").append(module).append(";\n");
        }
        Set<String> packages = new TreeSet<>();
        try (Stream<Path> files = Files.walk(classes)) {
            files.filter(f -> f.toString().endsWith(".class"))
                    .map(f -> classes.relativize(f.getParent()).toString().replace(File.separatorChar, '.'))
                    .forEach(packages::add);
        }
        packages.forEach(p -> text.append("    exports ").append(p).append(";\n"));
        // What the library for logs looks for; it finds none.
        text.append("    uses org.apache.commons.logging.LogFactory;\n");
        return text.append("}\n").toString();
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

    /** The classes to which the program leads, by the texts of the classes' files. */
    private static Set<String> used(List<Path> jars, Path input) throws IOException {
        Map<String, Set<String>> uses = uses(jars);
        Deque<String> open = new ArrayDeque<>(classes(input.resolve("padward.jar")));
        Set<String> used = new HashSet<>();
        while (!open.isEmpty()) {
            String name = open.pop();
            if (uses.containsKey(name) && used.add(name)) {
                open.addAll(uses.get(name));
            }
        }
        return used;
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

    /** The same, but what is there already stays. */
    private static void unpackNew(Path jar, Path to, Predicate<String> wanted) throws IOException {
        unpack(jar, to, name -> wanted.test(name) && !Files.exists(to.resolve(name)));
    }

    private static List<Path> jars(Path folder, Predicate<String> wanted) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(f -> wanted.test(f.getFileName().toString())).sorted().toList();
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

    /** Of texts that several libraries bring, all but the first say which file has the same. */
    private static void stateOnce(Path licences) throws IOException {
        Map<String, Path> first = new HashMap<>();
        List<Path> texts;
        try (Stream<Path> files = Files.walk(licences)) {
            texts = files.filter(Files::isRegularFile).sorted().toList();
        }
        for (Path text : texts) {
            Path other = first.putIfAbsent(Files.readString(text, ISO_8859_1), text);
            if (other != null && Files.size(text) > 1000) {
                Files.writeString(text, "Word for word " + licences.relativize(other) + "\n");
            }
        }
    }

    /** Manual pages and completion, made from the commands' own help; licences. */
    private void addPages(Path root) throws Exception {
        Path share = root.resolve(MAC ? "Contents/Resources" : "share");
        copyAll(target.resolve("licences"), share.resolve("licences"));
        stateOnce(share.resolve("licences"));
        run(
                Map.of(),
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                target.resolve("../src/image/MakePages.java").normalize().toString(),
                target.toString(),
                version,
                share.toString());
        if (!MAC && !WINDOWS) {
            addDesktopEntry(share);
        }
    }

    /**
     * What a desktop needs to open designs with the program (Desktop Entry and Shared MIME-info
     * specifications of freedesktop.org); whoever unpacks the application puts it in place.
     */
    private void addDesktopEntry(Path share) throws IOException {
        Path from = target.resolve("../src/image/linux").normalize();
        Path entries = Files.createDirectories(share.resolve("applications"));
        Files.copy(from.resolve("padward.desktop"), entries.resolve("padward.desktop"));
        Path types = Files.createDirectories(share.resolve("mime/packages"));
        Files.copy(from.resolve("padward-design.xml"), types.resolve("padward-design.xml"));
        Path icons = Files.createDirectories(share.resolve("icons/hicolor/256x256/apps"));
        Files.copy(target.resolve("classes/padward/ui/icon.png"), icons.resolve("padward.png"));
    }

    /**
     * The archive of loaded classes from which each start reads, in the place where Java looks for
     * its own: the classes of a question in few words, of a blocked one, and of one with more
     * options, for which the command line is built as for all other commands.
     */
    private void shareClasses(Path work, Path root) throws Exception {
        Path runtime = root.resolve(MAC ? "Contents/runtime/Contents/Home" : WINDOWS ? "runtime" : "lib/runtime");
        Path java = runtime.resolve(WINDOWS ? "bin/java.exe" : "bin/java");
        String nothing = root.resolve("nothing.jar").toString();
        String example = target.resolve("../fixtures/small/only.design.json").normalize().toString();
        List<String> ask = List.of("ask", "--design", example, "--net", "pump/level/sample[1]", "--pad");
        Set<String> lines = new LinkedHashSet<>();
        int number = 0;
        for (List<String> words :
                List.of(
                        concat(ask, "J1.2"),
                        concat(ask, "J2.1"),
                        concat(ask, "J1.3"),
                        concat(ask, "J1.2", "--corner", "slow"))) {
            Path list = work.resolve("classes" + number++ + ".txt");
            List<String> all = new ArrayList<>(List.of(java.toString(), "-Xshare:off"));
            all.addAll(List.of("-XX:DumpLoadedClassList=" + list, "-cp", nothing, "padward.Main"));
            all.addAll(words);
            run(Map.of(), all.toArray(String[]::new));
            lines.addAll(Files.readAllLines(list));
        }
        Path list = work.resolve("classes.txt");
        Files.write(list, lines);
        run(
                Map.of(),
                java.toString(),
                "-Xshare:dump",
                "-Xlog:disable",
                "-XX:SharedClassListFile=" + list,
                "-cp",
                nothing);
    }

    /**
     * A script in place of the tool's own program, which on Linux asks the system's list of packages
     * at every start who has installed it; that takes a fifth of a second.
     */
    private void replaceStarter(Path root, List<String> options) throws IOException {
        Path starter = root.resolve("bin/padward");
        String script =
                Files.readString(target.resolve("../src/image/linux/padward").normalize())
                        .replace("@OPTIONS@", String.join(" ", options))
                        .replace("@BRIEF@", String.join(" ", BRIEF));
        Files.delete(starter);
        Files.writeString(starter, script);
        Files.setPosixFilePermissions(starter, PosixFilePermissions.fromString("rwxr-xr-x"));
        Files.delete(root.resolve("lib/libapplauncher.so"));
        deleteAll(root.resolve("lib/app"));
    }

    private static List<String> concat(List<String> words, String... more) {
        return Stream.concat(words.stream(), Stream.of(more)).toList();
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
