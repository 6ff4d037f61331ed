package padward.docs;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIf;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * The self-contained application, where {@code mvn -Pimage package} has made one: in another
 * folder, with an empty home and no Java on the path, called by its name, by a link and with words
 * in other scripts.
 */
@EnabledIf(value = "made", disabledReason = "no image: mvn -Pimage verify makes and tests one")
@EnabledOnOs(OS.LINUX)
class ImageIT {
    static final Path IMAGE = Path.of("target/image/padward");

    private static final long LARGEST = 75_000_000;

    @TempDir Path folder;

    static boolean made() {
        return Files.isDirectory(IMAGE);
    }

    @Test
    void itAnswersInAnotherFolderWithoutJava() throws Exception {
        Path moved = folder.resolve("näxt to");
        copy(IMAGE, moved);
        Path link = Files.createSymbolicLink(folder.resolve("link"), moved.resolve("bin/padward"));
        Path design = Path.of("fixtures/small/only.design.json").toAbsolutePath();
        for (Path program : List.of(moved.resolve("bin/padward"), link)) {
            String answer =
                    run(
                            program,
                            "ask",
                            "--design",
                            "" + design,
                            "--net",
                            "pump/level/sample[1]",
                            "--pad",
                            "LAMP");
            assertThat(answer).startsWith("1 Takes a port's pad").contains("2.630–4.340 ns");
        }
        assertThat(run(link, "nets", "--design", "nö.json")).startsWith("2 ").contains("nö.json");
        assertThat(run(link, "--version")).startsWith("0 ");
    }

    /** On Linux; other systems have other forms of the same. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void aDesktopFindsWhatItNeedsToOpenDesigns() {
        Path share = IMAGE.resolve("share");
        assertThat(share.resolve("applications/padward.desktop")).isNotEmptyFile();
        assertThat(share.resolve("mime/packages/padward-design.xml")).isNotEmptyFile();
        assertThat(share.resolve("icons/hicolor/256x256/apps/padward.png"))
                .hasSameBinaryContentAs(Path.of("src/main/resources/padward/ui/icon.png"));
    }

    /** What someone tries first, who has no Java and has never run the program. */
    @Test
    void itHelpsAndListsWithoutJava() throws Exception {
        Path program = IMAGE.resolve("bin/padward").toAbsolutePath();
        String design = Path.of("fixtures/small/only.design.json").toAbsolutePath().toString();
        assertThat(run(program, "--help")).startsWith("0 ").contains("Exit status: 0 open");
        assertThat(run(program, "help", "survey")).startsWith("0 ").contains("--design");
        assertThat(run(program, "survy")).startsWith("2 ").contains("did you mean “survey”?");
        assertThat(run(program, "nets", "--design", design))
                .startsWith("0 ")
                .contains("pump/level/sample[1]");
        assertThat(
                        run(
                                program,
                                "survey",
                                "--design",
                                design,
                                "--net",
                                "pump/level/sample[1]",
                                "--json"))
                .startsWith("0 {");
    }

    /** It has a Java of its own: neither a missing home nor another Java's place matters. */
    @Test
    void itNeedsNoHomeAndNoOtherJava() throws Exception {
        Path program = IMAGE.resolve("bin/padward").toAbsolutePath();
        Path design = Path.of("fixtures/small/only.design.json").toAbsolutePath();
        ProcessBuilder builder =
                new ProcessBuilder("" + program, "nets", "--design", "" + design)
                        .directory(folder.toFile());
        builder.environment().clear();
        builder.environment().put("LC_ALL", "C.UTF-8");
        builder.environment().put("JAVA_HOME", "" + folder.resolve("no java"));
        assertThat(run(builder)).startsWith("0 ").contains("pump/level/sample[1]");
    }

    /** A process without a locale, as a timer or a service starts it: names arrive all the same. */
    @Test
    void namesSurviveAProcessWithoutALocale() throws Exception {
        Path program = IMAGE.resolve("bin/padward").toAbsolutePath();
        ProcessBuilder builder =
                new ProcessBuilder("" + program, "nets", "--design", "nö.json")
                        .directory(folder.toFile());
        builder.environment().clear();
        assertThat(run(builder)).startsWith("2 ").contains("nö.json");
    }

    /** Its classes come from the archive made with it, also where it was not made. */
    @Test
    void theArchiveOfClassesIsUsedWhereverItIs() throws Exception {
        Path moved = folder.resolve("moved");
        copy(IMAGE, moved);
        String loaded =
                run(
                        moved.resolve("lib/runtime/bin/java"),
                        "-Xshare:on",
                        "-Xlog:class+load",
                        "-cp",
                        moved.resolve("lib/nothing.jar").toString(),
                        "padward.Main",
                        "nets",
                        "--design",
                        Path.of("fixtures/small/only.design.json").toAbsolutePath().toString());
        assertThat(loaded)
                .startsWith("0 ")
                .contains("padward.Main source: shared objects file")
                .contains("picocli.CommandLine source: shared objects file");
    }

    /** With the toolkit's platform for tests, which draws into memory. */
    @Test
    void itsWindowOpensAndCloses() throws Exception {
        assertThat(
                        visited(
                                "window",
                                "--design",
                                "" + Path.of("fixtures/small/only.design.json").toAbsolutePath()))
                .contains("window: ")
                .startsWith("0 ");
        assertThat(visited()).contains("window: ").startsWith("0 ");
    }

    /** What reads the services of Java, of which none that is named may be missing. */
    @Test
    void itsWindowSavesPicturesAndPrints() throws Exception {
        String said =
                visited(
                        "window",
                        "--design",
                        "" + Path.of("fixtures/small/only.design.json").toAbsolutePath());
        assertThat(said).startsWith("0 ").contains("printers: ").contains("printed: true");
        assertThat(ImageIO.read(folder.resolve("map.png").toFile()).getWidth()).isGreaterThan(1000);
        assertThat(folder.resolve("map.svg")).content().contains("<svg").endsWith("</svg>\n");
        assertThat(folder.resolve("page.ps")).content().startsWith("%!PS");
    }

    private String visited(String... words) throws Exception {
        String platform = location("com.sun.glass.ui.monocle.MonoclePlatformFactory");
        List<String> all =
                new ArrayList<>(
                        List.of(
                                "--patch-module",
                                "javafx.graphics=" + platform,
                                "-Dglass.platform=Monocle",
                                "-Dmonocle.platform=Headless",
                                "-Dheadless.geometry=1600x1000-32",
                                "-Dprism.order=sw",
                                "-Dprism.text=t2k",
                                "-Djava.awt.headless=true",
                                "-Dpadward.settings=" + folder.resolve("settings"),
                                "-Dvisit.folder=" + folder,
                                "--add-exports",
                                "javafx.graphics/com.sun.javafx.print=ALL-UNNAMED",
                                "--add-exports",
                                "javafx.graphics/com.sun.prism.j2d.print=ALL-UNNAMED",
                                "-cp",
                                location(WindowVisit.class.getName()),
                                WindowVisit.class.getName()));
        all.addAll(List.of(words));
        return run(
                IMAGE.resolve("lib/runtime/bin/java").toAbsolutePath(), all.toArray(String[]::new));
    }

    private static String location(String name) throws Exception {
        Class<?> found = Class.forName(name, false, ImageIT.class.getClassLoader());
        return Path.of(found.getProtectionDomain().getCodeSource().getLocation().toURI())
                .toString();
    }

    /** The tab key after --net and --pad offers the names in the design. */
    @Test
    void theShellCompletesNamesOfNetsAndPads() throws Exception {
        Path design = Path.of("fixtures/small/only.design.json").toAbsolutePath();
        assertThat(completed("ask", "-d", "" + design, "--net", "pump/level/s"))
                .containsExactly("pump/level/sample\\[0\\]", "pump/level/sample\\[1\\]");
        assertThat(completed("survey", "-d", "" + design, "-n", "'pump/level/h"))
                .containsExactly("pump/level/hi_sync");
        assertThat(completed("keep", "-d", "" + design, "-p", "x1y0/"))
                .containsExactly("x1y0/pad\\[0\\]", "x1y0/pad\\[1\\]");
        assertThat(completed("ask", "-d", "missing.json", "-n", "pump")).isEmpty();
    }

    /** What the script offers for the last word. */
    private List<String> completed(String... words) throws Exception {
        Path script = IMAGE.resolve("share/completion/padward").toAbsolutePath();
        List<String> line = new ArrayList<>();
        line.add(IMAGE.resolve("bin/padward").toAbsolutePath().toString());
        line.addAll(List.of(words));
        String array = line.stream().map(w -> '"' + w + '"').collect(Collectors.joining(" "));
        Path test = folder.resolve("test.sh");
        Files.writeString(
                test,
                ". '%s'\nCOMP_WORDS=(%s)\nCOMP_CWORD=%d\n_complete_padward 2>/dev/null\n"
                                .formatted(script, array, words.length)
                        + "printf '%s\\n' \"${COMPREPLY[@]}\"\n");
        ProcessBuilder builder =
                new ProcessBuilder("/bin/bash", "--norc", "" + test).directory(folder.toFile());
        builder.environment().remove("PADWARD_DESIGN");
        Process process = builder.redirectErrorStream(true).start();
        String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
        process.waitFor();
        return printed.lines().filter(l -> !l.isEmpty()).toList();
    }

    /** What it weighs, and why it is no less, is in docs/speed-notes.md. */
    @Test
    void itIsNotLarger() throws Exception {
        try (Stream<Path> files = Files.walk(IMAGE)) {
            assertThat(files.filter(Files::isRegularFile).mapToLong(f -> f.toFile().length()).sum())
                    .isLessThan(LARGEST);
        }
    }

    @Test
    void itHasPagesCompletionAndLicences() throws Exception {
        Path share = IMAGE.resolve("share");
        assertThat(share.resolve("man/man1/padward-ask.1")).content().contains(".TH PADWARD");
        assertThat(share.resolve("completion/padward")).content().contains("complete -F");
        assertThat(share.resolve("licences/THIRD-PARTY.txt")).isNotEmptyFile();
    }

    /** Exit status and what was printed. */
    private String run(Path program, String... words) throws Exception {
        List<String> all = new ArrayList<>(List.of("" + program));
        all.addAll(List.of(words));
        ProcessBuilder builder = new ProcessBuilder(all).directory(folder.toFile());
        builder.environment().clear();
        builder.environment().put("LC_ALL", "C.UTF-8");
        builder.environment().put("HOME", "" + Files.createDirectories(folder.resolve("home")));
        return run(builder);
    }

    private static String run(ProcessBuilder builder) throws Exception {
        Process process = builder.redirectErrorStream(true).start();
        String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
        return process.waitFor() + " " + printed;
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Files.copy(
                        file,
                        to.resolve(from.relativize(file).toString()),
                        StandardCopyOption.COPY_ATTRIBUTES);
            }
        }
    }
}
