package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.design.Design;
import padward.example.HandMade;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;

/** A net whose file states its sinks and no route can be brought out like any other. */
class UnroutedSinksTest {
    @TempDir private Path folder;

    @BeforeEach
    void write() throws Exception {
        Design design =
                new HandMade()
                        .site("SRC", "", "q")
                        .site("SINK", "d", "")
                        .wires("w")
                        .pad("OUT")
                        .pad("OTHER")
                        .cell("source", "SRC")
                        .cell("sink", "SINK")
                        .chain("SRC.q w OUT")
                        .chain("w SINK.d")
                        .net("signal", "source.q", "sink.d")
                        .design();
        FabricWriter.write(design.fabric(), folder.resolve("f.json"));
        DesignWriter.write(design, folder.resolve("d.json"), "f.json", "");
    }

    private CommandRun run(String command, String design, Object... more) {
        Object[] words = new Object[more.length + 3];
        words[0] = command;
        words[1] = "--design";
        words[2] = folder.resolve(design);
        System.arraycopy(more, 0, words, 3, more.length);
        return CommandRun.of(words);
    }

    @Test
    void whatIsKeptCanBeAppliedAndReadAgain() throws Exception {
        Path ledger = folder.resolve("l.json");
        CommandRun kept =
                run("keep", "d.json", "--net", "signal", "--pad", "OUT", "--ledger", ledger);
        assertThat(kept.code()).as(kept.err()).isZero();
        Path applied = folder.resolve("applied.json");
        CommandRun apply = run("apply", "d.json", "--ledger", ledger, "-o", applied);
        assertThat(apply.code()).as(apply.err()).isZero();
        assertThat(Files.readString(applied)).contains("\"unrouted\": true");
        Design read = DesignReader.read(applied, Progress.NONE);
        assertThat(read.nets().get(0).sinks()).hasSize(2);
        CommandRun checked = CommandRun.of("check", folder.resolve("applied.json"));
        assertThat(checked.code()).as(checked.err()).isZero();
        assertThat(checked.out()).contains("sinks that their net's route does not reach");
    }

    @Test
    void tablesKeepTheMark() throws Exception {
        Path ledger = folder.resolve("l.json");
        run("keep", "d.json", "--net", "signal", "--pad", "OUT", "--ledger", ledger);
        run("apply", "d.json", "--ledger", ledger, "-o", folder.resolve("applied.json"));
        Path tables = folder.resolve("tables");
        CommandRun out = run("export", "applied.json", "--tables", tables);
        assertThat(out.code()).as(out.err()).isZero();
        Path again = Files.createDirectory(folder.resolve("again"));
        CommandRun in = CommandRun.of("import", "--tables", tables, "-o", again);
        assertThat(in.code()).as(in.err()).isZero();
        try (var files = Files.list(again)) {
            Path file =
                    files.filter(f -> f.getFileName().toString().contains("design"))
                            .findFirst()
                            .orElseThrow();
            Design read = DesignReader.read(file, Progress.NONE);
            assertThat(read.nets().get(0).sinks()).hasSize(2);
            assertThat(read.nets().get(0).route().size()).isEqualTo(3);
        }
    }
}
