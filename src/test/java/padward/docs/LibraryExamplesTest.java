package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.api.Finding;
import padward.api.FinishedDesign;
import padward.api.Signature;
import padward.base.BadInput;

/** The library as others use it: the examples of the page are compiled and run. */
class LibraryExamplesTest {
    private static final Path EXAMPLES = Path.of("docs/examples");
    private static final String DESIGN = "fixtures/small/only.design.json";
    private static final String SAMPLE = "pump/level/sample[1]";

    @TempDir private Path folder;

    private String run(String name, String... arguments) throws Exception {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        List<String> words =
                new ArrayList<>(
                        List.of(
                                "-proc:none",
                                "-Xlint:all,-classfile",
                                "-Werror",
                                "-cp",
                                System.getProperty("java.class.path"),
                                "-d",
                                folder.toString(),
                                EXAMPLES.resolve(name + ".java").toString()));
        ByteArrayOutputStream faults = new ByteArrayOutputStream();
        int status = compiler.run(null, null, faults, words.toArray(String[]::new));
        assertThat(status).as(faults.toString(StandardCharsets.UTF_8)).isZero();
        PrintStream before = System.out;
        ByteArrayOutputStream printed = new ByteArrayOutputStream();
        try (URLClassLoader loader =
                new URLClassLoader(
                        new URL[] {folder.toUri().toURL()}, getClass().getClassLoader())) {
            System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
            loader.loadClass(name)
                    .getMethod("main", String[].class)
                    .invoke(null, (Object) arguments);
        } finally {
            System.setOut(before);
        }
        return printed.toString(StandardCharsets.UTF_8);
    }

    @Test
    void aNetIsAskedFor() throws Exception {
        assertThat(run("AskForANet", DESIGN, SAMPLE, "J1.2")).startsWith("Open: " + SAMPLE);
        assertThat(run("AskForANet", DESIGN, SAMPLE, "J1.3"))
                .startsWith("Blocked: ")
                .contains("\ncell pump/run/motor_out\n")
                .contains("Caution: ");
    }

    @Test
    void theBestPadsAreListed() throws Exception {
        assertThat(run("BestPads", DESIGN, "pump/level/", "remove net alarm/beep"))
                .contains(SAMPLE + ": OPEN on ")
                .contains("With remove net alarm/beep:");
    }

    @Test
    void aGroupIsKeptAndWritten() throws Exception {
        Path ledger = folder.resolve("ledger.json");
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        Path copy = folder.resolve("copy.design.json");
        String printed =
                run(
                        "KeepAGroup",
                        folder.resolve("only.design.json").toString(),
                        "pump/level/sample[*]",
                        "J1",
                        ledger.toString(),
                        copy.toString());
        assertThat(printed).contains("pump/level/sample[0] on pad ").contains("Open: ");
        List<String> taken =
                printed.lines()
                        .filter(line -> line.contains(" on pad "))
                        .map(line -> line.substring(line.indexOf(" on pad ") + " on pad ".length()))
                        .filter(pad -> !pad.contains(" "))
                        .toList();
        assertThat(taken).hasSize(2);
        assertThat(FinishedDesign.open(copy).pads())
                .filteredOn(p -> taken.contains(p.name()))
                .hasSize(2)
                .allMatch(p -> p.port().isPresent());
        assertThat(Files.readString(ledger)).contains("nightly measurement");
    }

    @Test
    void nothingIsKeptThatIsNotAccepted() throws Exception {
        FinishedDesign design = FinishedDesign.open(Path.of(DESIGN));
        Finding motor = design.ask(SAMPLE, "J1.3");
        assertThat(motor.kind()).isEqualTo(Finding.Kind.BLOCKED);
        assertThat(motor.toAccept()).contains("follows");
        assertThat(motor.isProvenFewest()).isTrue();
        Signature signature = Signature.of("me");
        assertThatThrownBy(() -> design.keep(motor, signature))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("follows");
        FinishedDesign changed = design.keep(motor, signature.accepting(motor.toAccept()));
        assertThat(changed.kept()).isNotEmpty();
        assertThat(design.kept()).isEmpty();
        assertThat(changed.ask(SAMPLE, "J1.3").kind()).isEqualTo(Finding.Kind.OPEN);
        assertThatThrownBy(() -> changed.keep(motor, signature))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> design.writeCopy(Path.of(DESIGN))).isInstanceOf(BadInput.class);
        assertThatThrownBy(() -> design.net("nothing")).isInstanceOf(BadInput.class);
        assertThatThrownBy(() -> design.whatIf("remove net nothing")).isInstanceOf(BadInput.class);
    }

    @Test
    void thePageNamesEveryExample() throws Exception {
        String page = Files.readString(Path.of("docs/library.md"));
        try (Stream<Path> files = Files.list(EXAMPLES)) {
            assertThat(files.map(f -> "examples/" + f.getFileName())).allMatch(page::contains);
        }
    }
}
