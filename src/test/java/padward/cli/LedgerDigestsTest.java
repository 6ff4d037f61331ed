package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.format.ledger.DamagedLedgers;

/** Every command that uses a ledger compares its digests with the design. */
class LedgerDigestsTest {
    @TempDir private Path folder;
    private Path design;
    private Path ledger;
    private final Map<String, Object[]> commands = new LinkedHashMap<>();

    @BeforeEach
    void keepThree() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
        for (String pad : List.of("J2.1", "J2.2", "J1.1")) {
            String net = pad.equals("J2.1") ? "pump/level/sample[1]" : "clk12";
            Object[] keep = {"keep", "-d", design, "-n", net, "-p", pad, "-l", ledger};
            assertThat(CommandRun.of(keep).err()).isEmpty();
        }
        Path out = folder.resolve("out.csv");
        Object[] use = {"-d", design, "-l", ledger};
        add(use, "keep", "-n", "alarm/beep", "-p", "J1.2");
        add(use, "bus", "--nets", "alarm/beep", "--pads", "header J1");
        add(use, "watch", "trigger", "--when", "alarm/beep", "-p", "J1.2", "--combinational");
        add(use, "undo");
        add(use, "lead", "--port", "out_J2.1", "--channel", "9");
        add(use, "sheet", "-o", out);
        add(use, "changes", "-o", out);
        add(use, "apply", "-o", folder.resolve("applied.json"));
        commands.put("diff", new Object[] {"diff", design, ledger});
    }

    private void add(Object[] use, String command, Object... more) {
        Object[] words = new Object[1 + use.length + more.length];
        words[0] = command;
        // A command of several kinds has its kind first.
        int kinds = command.equals("watch") ? 1 : 0;
        System.arraycopy(more, 0, words, 1, kinds);
        System.arraycopy(use, 0, words, 1 + kinds, use.length);
        System.arraycopy(more, kinds, words, 1 + kinds + use.length, more.length - kinds);
        commands.put(command, words);
    }

    @Test
    void noneUsesALedgerThatSaysSomethingElseThanWasKept() throws Exception {
        String sound = Files.readString(ledger);
        for (Map.Entry<String, String> damage : DamagedLedgers.of(sound).entrySet()) {
            Files.writeString(ledger, damage.getValue());
            for (Map.Entry<String, Object[]> command : commands.entrySet()) {
                String what = command.getKey() + ", " + damage.getKey();
                // Only this one is for other runs too.
                if (what.equals("apply, $.sha256")) {
                    continue;
                }
                CommandRun run = CommandRun.of(command.getValue());
                assertThat(run.code()).as(what + ": " + run).isEqualTo(2);
                assertThat(run.err()).as(what).contains(damage.getKey());
                assertThat(ledger).as(what).hasContent(damage.getValue());
                assertThat(folder.resolve("out.csv")).doesNotExist();
            }
        }
    }

    @Test
    void theSoundOneIsUsedByAll() throws Exception {
        String sound = Files.readString(ledger);
        for (Map.Entry<String, Object[]> command : commands.entrySet()) {
            Files.writeString(ledger, sound);
            CommandRun run = CommandRun.of(command.getValue());
            assertThat(run.code()).as(command.getKey() + ": " + run).isLessThan(2);
        }
    }

    @Test
    void whatOnlyListsItSaysThatItIsForAnotherFile() throws Exception {
        String sound = Files.readString(ledger);
        for (Object[] words :
                new Object[][] {
                    {"ledger", "list", "-d", design, "-l", ledger},
                    {"lead", "-d", design, "-l", ledger}
                }) {
            Files.writeString(ledger, sound);
            CommandRun usual = CommandRun.of(words);
            assertThat(usual.err()).isEmpty();
            Files.writeString(ledger, DamagedLedgers.of(sound).get("$.sha256"));
            CommandRun other = CommandRun.of(words);
            assertThat(other.out()).isEqualTo(usual.out());
            assertThat(other.err()).contains("made on another file").contains("apply");
        }
    }

    @Test
    void theOrderOfItsEntriesIsCheckedAlone() throws Exception {
        String sound = Files.readString(ledger);
        assertThat(CommandRun.of("check", ledger).code()).isZero();
        Files.writeString(ledger, DamagedLedgers.of(sound).get("$.entries[1].before"));
        CommandRun run = CommandRun.of("check", ledger);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("$.entries[1].before").contains("the entry before it");
    }
}
