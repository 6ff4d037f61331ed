package padward.docs;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import padward.cli.Padward;
import padward.cli.output.ExitStatus;

/**
 * Every command that the pages and the help show runs as it stands there, with the program as it is
 * packaged: its jar and the libraries that the jar names, and no others.
 */
class DocumentedCommandsIT {
    private static final Path JAR = Path.of("target/padward.jar").toAbsolutePath();

    private static final String SHEET =
            "padward sheet --design only.design.json --ledger bench.json -o bench.csv";

    @TempDir Path folder;

    @BeforeEach
    void copyExamples() throws IOException {
        assertThat(JAR).as("made by mvn package").exists();
        copy(Path.of("fixtures"), folder.resolve("fixtures"));
        copy(Path.of("docs/templates"), folder.resolve("docs/templates"));
        copy(Path.of("fixtures/small"), folder);
        Files.createDirectories(folder.resolve("tmp"));
        Files.writeString(
                folder.resolve("newer.design.json"),
                Files.readString(Path.of("fixtures/small/only.design.json")) + "\n");
        Files.copy(
                Path.of("docs/templates/plain-commands.mustache"), folder.resolve("mine.mustache"));
        Files.writeString(
                folder.resolve("capture.vcd"),
                """
                $timescale 1ns $end
                $scope module bench $end
                $var wire 1 ! J2.1 $end
                $upscope $end
                $enddefinitions $end
                #0
                0!
                #40
                1!
                """);
    }

    @Test
    void theReadmesCommandsRun() throws Exception {
        runAll(PaperCommand.ofPage(Path.of("README.md")));
    }

    @Test
    void theGuidesCommandsRun() throws Exception {
        List<PaperCommand> commands = PaperCommand.ofPage(Path.of("docs/guide.md"));
        assertThat(commands).hasSizeGreaterThan(5);
        runAll(commands);
        assertThat(folder.resolve("bench.pdf")).exists();
    }

    @Test
    void theCommandsOfTheOtherPagesAndOfTheHelpRun() throws Exception {
        List<PaperCommand> commands = new ArrayList<>(PaperCommand.ofHelp());
        assertThat(commands).hasSizeGreaterThan(20);
        for (String page :
                List.of(
                        "your-own-device",
                        "your-own-design",
                        "timing",
                        "lessons",
                        "watch",
                        "formats")) {
            commands.addAll(PaperCommand.ofPage(Path.of("docs", page + ".md")));
        }
        commands.removeIf(c -> c.source().equals("window"));
        // What is undone cannot be printed any more.
        List<PaperCommand> last = commands.stream().filter(c -> c.source().equals("undo")).toList();
        commands.removeAll(last);
        // The channels are known by the sheet, which no example writes.
        int deskew =
                IntStream.range(0, commands.size())
                        .filter(i -> commands.get(i).source().equals("deskew"))
                        .findFirst()
                        .orElseThrow();
        commands.add(deskew, new PaperCommand("before", SHEET));
        commands.addAll(last);
        // The tables are those that an earlier command has written.
        commands.replaceAll(
                c ->
                        c.with("--tables DIR", "--tables tmp/only-tables")
                                .with("--bsdl FILE", "--bsdl fixtures/package/larch-8.bsdl")
                                .with("Q.csv", "fixtures/small/questions.csv")
                                .with("-o OUT", "-o tmp/imported")
                                .with("--design D ", "--design only.design.json ")
                                .with("--ledger L ", "--ledger bench.json "));
        Set<List<String>> met = new HashSet<>();
        commands.removeIf(c -> !met.add(c.words()));
        runAll(commands);
    }

    @Test
    void theWorkbenchExampleIsReproducedByItsCommand() throws Exception {
        runAll(PaperCommand.ofPage(Path.of("fixtures/workbench/README.md")));
        for (String name : List.of("fabric.json.gz", "design.json.gz", "board.json")) {
            assertThat(folder.resolve("tmp/workbench").resolve(name))
                    .hasSameBinaryContentAs(Path.of("fixtures/workbench").resolve(name));
        }
    }

    /** Where no locale is set, as in containers, words still arrive and leave as UTF-8. */
    @Test
    @DisabledOnOs(OS.WINDOWS)
    void namesAndNotesSurviveAProcessWithoutALocale() throws Exception {
        List<String> keep =
                List.of(
                        "keep",
                        "--design",
                        "only.design.json",
                        "--net",
                        "pump/level/sample[1]",
                        "--pad",
                        "LAMP",
                        "--ledger",
                        "l.json",
                        "--note",
                        "geprüft – gut",
                        "--json");
        Path launcher = JAR.resolveSibling("padward");
        List<String> java =
                List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-jar",
                        JAR.toString());
        assertThat(withoutLocale(Stream.concat(java.stream(), keep.stream()).toList()))
                .startsWith("2 ")
                .contains("LC_ALL=C.UTF-8");
        assertThat(folder.resolve("l.json")).doesNotExist();
        assertThat(withoutLocale(Stream.concat(Stream.of("" + launcher), keep.stream()).toList()))
                .startsWith("0 ")
                .contains("geprüft – gut");
        assertThat(folder.resolve("l.json")).content().contains("geprüft – gut");
        List<String> ask =
                List.of("ask", "-d", "only.design.json", "-n", "pump/level/sample[1]", "-p", "D3");
        assertThat(withoutLocale(Stream.concat(java.stream(), ask.stream()).toList()))
                .contains("–");
        assertThat(withoutLocale(Stream.concat(java.stream(), Stream.of("nets")).toList()))
                .as("the design that PADWARD_DESIGN names")
                .startsWith("0 ")
                .contains("pump/level/sample[1]");
    }

    /** Exit status and what was printed, read as UTF-8. */
    private String withoutLocale(List<String> words) throws Exception {
        ProcessBuilder builder = new ProcessBuilder(words).directory(folder.toFile());
        builder.environment().keySet().removeIf(v -> v.startsWith("LC_") || v.startsWith("LANG"));
        builder.environment().put("LC_ALL", "C");
        builder.environment().put("PADWARD_DESIGN", "only.design.json");
        builder.environment().put("XDG_CACHE_HOME", "" + folder.resolve("cache"));
        Process process = builder.redirectErrorStream(true).start();
        String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
        return process.waitFor() + " " + printed;
    }

    private void runAll(List<PaperCommand> shown) throws Exception {
        assertThat(shown).isNotEmpty();
        List<PaperCommand> commands = shown.stream().map(c -> c.with("/tmp/", "tmp/")).toList();
        for (PaperCommand command : commands) {
            String[] words = command.words().toArray(String[]::new);
            assertThatCode(() -> Padward.commandLine().parseArgs(words))
                    .as("%s: %s", command.source(), command.text())
                    .doesNotThrowAnyException();
        }
        Path script = folder.resolve("commands");
        Path report = folder.resolve("report");
        Files.write(
                script,
                commands.stream().map(c -> String.join(CommandReplay.BETWEEN, c.words())).toList());
        replay(script, report);
        List<String> lines = Files.readAllLines(report);
        assertThat(lines).hasSameSizeAs(commands);
        SoftAssertions all = new SoftAssertions();
        for (int i = 0; i < lines.size(); i++) {
            String[] parts = lines.get(i).split(CommandReplay.BETWEEN, -1);
            PaperCommand command = commands.get(i);
            all.assertThat(Integer.parseInt(parts[0]))
                    .as("%s: %s: %s", command.source(), command.text(), parts[2])
                    .isEqualTo(status(command));
            all.assertThat(parts[2]).as(command.text()).doesNotContain("Exception");
        }
        all.assertAll();
    }

    /** What a command's exit status means is in the README: 1 is an answer too. */
    private static int status(PaperCommand command) {
        List<String> words = command.words();
        boolean blocked =
                List.of("ask", "watch").contains(words.get(0))
                        && words.contains("J2.1")
                        && !words.contains("--may-move");
        boolean differs = words.get(0).equals("diff");
        boolean wrong = words.get(0).equals("exercise") && words.contains("--answer");
        return blocked || differs || wrong ? ExitStatus.NOT_OPEN : ExitStatus.DONE;
    }

    /** The Java that runs them. */
    Path java() {
        return Path.of(System.getProperty("java.home"), "bin", "java");
    }

    /** The class path of the program. */
    String program() throws IOException {
        return JAR.toString();
    }

    private void replay(Path script, Path report) throws Exception {
        String classes =
                CommandReplay.class.getProtectionDomain().getCodeSource().getLocation().getPath();
        Process process =
                new ProcessBuilder(
                                java().toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-Djava.awt.headless=true",
                                "-Dpadward.learners=" + folder.resolve("learners"),
                                "-Dpadward.settings=" + folder.resolve("settings"),
                                "-cp",
                                program() + File.pathSeparator + classes,
                                CommandReplay.class.getName(),
                                script.toString(),
                                report.toString())
                        .directory(folder.toFile())
                        .inheritIO()
                        .start();
        assertThat(process.waitFor()).isZero();
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Path copy = to.resolve(from.relativize(file).toString());
                if (Files.isDirectory(file)) {
                    Files.createDirectories(copy);
                } else {
                    Files.copy(file, copy);
                }
            }
        }
    }
}
