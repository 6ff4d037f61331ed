package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.cli.command.WindowCommand;
import picocli.CommandLine;

/** What all commands have in common, and what looks after scripts. */
class MannersTest {
    private static final Path DESIGN = Path.of("fixtures/small/only.design.json");
    private static final String SAMPLE = "pump/level/sample[1]";

    @TempDir private Path folder;

    @Test
    void helpIsThatOfTheCommand() {
        assertThat(CommandRun.of("help", "ask").out())
                .isEqualTo(CommandRun.of("ask", "--help").out());
        assertThat(CommandRun.of("help").out()).isEqualTo(CommandRun.of("--help").out());
        CommandRun wrong = CommandRun.of("help", "aks");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("did you mean \"ask\"?");
    }

    @Test
    void quietPrintsOnlyFaults() {
        CommandRun open = CommandRun.of("ask", "-d", DESIGN, "-n", SAMPLE, "-p", "J1.2", "--quiet");
        assertThat(open).isEqualTo(new CommandRun(0, "", ""));
        CommandRun blocked =
                CommandRun.of("ask", "-d", DESIGN, "-n", SAMPLE, "-p", "J2.1", "--quiet");
        assertThat(blocked).isEqualTo(new CommandRun(1, "", ""));
        CommandRun wrong = CommandRun.of("ask", "-d", DESIGN, "-n", "x", "-p", "J1.2", "--quiet");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("“x”");
    }

    @Test
    void aDryRunWritesNothing() throws Exception {
        Path ledger = folder.resolve("l.json");
        Object[] keep = {
            "keep", "-d", DESIGN, "-n", SAMPLE, "-p", "J2.1", "-l", ledger, "--dry-run"
        };
        CommandRun dry = CommandRun.of(keep);
        assertThat(dry.code()).isZero();
        assertThat(dry.out()).contains("Not kept (--dry-run); it would be entry 1 of ");
        assertThat(folder).isEmptyDirectory();
        keep[keep.length - 1] = "--json";
        assertThat(CommandRun.of(keep).json().get("kept").getAsBoolean()).isTrue();
        byte[] written = Files.readAllBytes(ledger);
        CommandRun undo = CommandRun.of("undo", "-d", DESIGN, "-l", ledger, "--dry-run");
        assertThat(undo.out()).startsWith("Would be undone (--dry-run): entry 1");
        assertThat(Files.readAllBytes(ledger)).isEqualTo(written);
        CommandRun watch =
                CommandRun.of(
                        "watch",
                        "trigger",
                        "-d",
                        DESIGN,
                        "--when",
                        "level/sample[1:0] == 2b11",
                        "-p",
                        "J1.2",
                        "-l",
                        ledger,
                        "--dry-run");
        assertThat(watch.out()).contains("Not kept (--dry-run); it would be entry 2 of ");
        assertThat(Files.readAllBytes(ledger)).isEqualTo(written);
    }

    @Test
    void neitherDoesOneOfLeadBusOrApply() throws Exception {
        Path ledger = folder.resolve("l.json");
        CommandRun.of("keep", "-d", DESIGN, "-n", SAMPLE, "-p", "J2.1", "-l", ledger);
        byte[] written = Files.readAllBytes(ledger);
        Object[] lead = {
            "lead", "-d", DESIGN, "-l", ledger, "--port", "out_J2.1", "--channel", "9", "--dry-run"
        };
        assertThat(CommandRun.of(lead).out())
                .startsWith("Not recorded (--dry-run); the leads would be:")
                .contains("9");
        Object[] bus = {
            "bus", "-d", DESIGN, "--nets", "clk12", "--pads", "header J2", "-l", ledger, "--dry-run"
        };
        assertThat(CommandRun.of(bus).out()).endsWith("Not kept (--dry-run).\n");
        Path copy = folder.resolve("copy.json");
        Path fresh = folder.resolve("fresh.json");
        Object[] apply = {
            "apply", "-d", DESIGN, "-l", ledger, "-o", copy, "--new-ledger", fresh, "--dry-run"
        };
        CommandRun applied = CommandRun.of(apply);
        assertThat(applied.code()).isZero();
        assertThat(applied.out())
                .contains("Not written (--dry-run): " + copy)
                .contains("New ledger: not written (--dry-run): " + fresh);
        assertThat(folder.toFile().list()).containsExactly("l.json");
        assertThat(Files.readAllBytes(ledger)).isEqualTo(written);
        // What it says is what is said when it is done.
        apply[apply.length - 1] = "--quiet";
        assertThat(CommandRun.of(apply).code()).isZero();
        lead[lead.length - 1] = "--quiet";
        assertThat(CommandRun.of(lead).code()).isZero();
        assertThat(Files.readAllBytes(ledger)).isNotEqualTo(written);
    }

    @Test
    void aLimitSaysWhatItLeavesOut() {
        assertThat(CommandRun.of("nets", "-d", DESIGN, "--limit", "2").out().lines())
                .hasSize(5)
                .anyMatch(l -> l.matches("… and \\d+ more\\."));
        JsonObject pads = CommandRun.of("pads", "-d", DESIGN, "--limit", "2", "--json").json();
        assertThat(pads.getAsJsonArray("pads")).hasSize(2);
        assertThat(pads.get("leftOut").getAsInt()).isPositive();
        JsonObject survey =
                CommandRun.of("survey", "-d", DESIGN, "-n", SAMPLE, "--limit", "1", "--json")
                        .json();
        assertThat(survey.getAsJsonArray("answers")).hasSize(1);
        assertThat(CommandRun.of("nets", "-d", DESIGN, "--limit", "-1").code()).isEqualTo(2);
        assertThat(CommandRun.of("nets", "-d", DESIGN, "--limit", "0").out()).contains("and");
    }

    @Test
    void aLedgerIsListedAndShown() {
        Path ledger = folder.resolve("l.json");
        for (String pad : List.of("J1.2", "J2.1")) {
            CommandRun.of(
                    "keep",
                    "-d",
                    DESIGN,
                    "-n",
                    SAMPLE,
                    "-p",
                    pad,
                    "-l",
                    ledger,
                    "--note",
                    "on " + pad);
        }
        CommandRun list = CommandRun.of("ledger", "list", "-d", DESIGN, "-l", ledger);
        assertThat(list.code()).isZero();
        assertThat(list.out().lines())
                .hasSize(3)
                .anyMatch(l -> l.startsWith("2 ") && l.contains("on J2.1"));
        assertThat(CommandRun.of("ledger", "-d", DESIGN, "-l", ledger).out()).isEqualTo(list.out());
        CommandRun show =
                CommandRun.of("ledger", "show", "-d", DESIGN, "-l", ledger, "--entry", "1");
        assertThat(show.out()).contains("Entry 1 of 2", "Note: on J1.2", "Edits:", "Leads:");
        JsonObject json =
                CommandRun.of("ledger", "show", "-d", DESIGN, "-l", ledger, "--json").json();
        assertThat(json.get("count").getAsInt()).isEqualTo(2);
        assertThat(json.getAsJsonArray("entries")).hasSize(1);
        for (Object[] wrong :
                new Object[][] {
                    {"ledger", "shwo", "-d", DESIGN, "-l", ledger},
                    {"ledger", "show", "-d", DESIGN, "-l", ledger, "--entry", "3"},
                    {"ledger", "list", "-d", DESIGN, "-l", ledger, "--entry", "1"},
                    {"ledger", "list", "-d", DESIGN, "-l", folder.resolve("none.json")}
                }) {
            assertThat(CommandRun.of(wrong).code()).isEqualTo(2);
        }
    }

    @Test
    void theWindowIsNotOpenedForAFileThatIsNoDesign() {
        for (String file : List.of("nosuch.json", "fixtures/small/board.json", "fixtures")) {
            CommandLine line = Padward.commandLine(new String[] {"window"});
            line.parseArgs("window", "--design", file);
            WindowCommand command = line.getSubcommands().get("window").getCommand();
            assertThat(command.findFault())
                    .as(file)
                    .hasValueSatisfying(f -> assertThat(f).contains(file));
        }
        CommandLine line = Padward.commandLine(new String[] {"window"});
        line.parseArgs("window", "--design", DESIGN.toString());
        WindowCommand command = line.getSubcommands().get("window").getCommand();
        assertThat(command.findFault()).isEmpty();
    }

    /** With a stand-in for Java, which only prints its words. */
    @Test
    @DisabledOnOs(OS.WINDOWS)
    void theLauncherWorksThroughLinksFromStrangeFoldersAndWithoutAHome() throws Exception {
        Path home = Files.createDirectories(folder.resolve("ä b/program"));
        Path launcher = Files.copy(Path.of("src/launcher/padward"), home.resolve("padward"));
        launcher.toFile().setExecutable(true);
        Path java = Files.createDirectories(folder.resolve("j v/bin")).resolve("java");
        Files.writeString(java, "#!/bin/sh\nfor word; do echo \"$word\"; done\n");
        java.toFile().setExecutable(true);
        Path first =
                Files.createSymbolicLink(folder.resolve("ä b/first"), Path.of("program/padward"));
        Path link = Files.createSymbolicLink(folder.resolve("link"), first);
        ProcessBuilder builder = new ProcessBuilder(link.toString(), "window", "a b");
        builder.environment().keySet().removeAll(List.of("HOME", "XDG_CACHE_HOME"));
        builder.environment().put("JAVA_HOME", folder.resolve("j v").toString());
        Process process = builder.redirectErrorStream(true).start();
        String printed =
                new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(printed.lines())
                .containsExactly(
                        "-Xshare:auto",
                        "-Xlog:disable",
                        "-jar",
                        home.toRealPath().resolve("padward.jar").toString(),
                        "window",
                        "a b");
        assertThat(process.waitFor()).isZero();
    }

    /** No colours, and so no escape, even where picocli would be asked for them. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "--help",
                "ask --help",
                "ask -d fixtures/small/only.design.json -n pump/run/decide -p J2.2",
                "pads -d fixtures/small/only.design.json",
                "ask --nosuch",
                "nosuch",
                "check fixtures/none.json"
            })
    void noEscapeIsPrinted(String words) {
        System.setProperty("picocli.ansi", "true");
        try {
            CommandRun run = CommandRun.of((Object[]) words.split(" "));
            assertThat(run.out() + run.err()).isNotEmpty().doesNotContain("\u001b");
        } finally {
            System.clearProperty("picocli.ansi");
        }
    }
}
