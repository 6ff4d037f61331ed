package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.design.Digest;
import padward.format.ledger.DamagedLedgers;
import padward.format.ledger.EntrySigning;

/** Keeping and undoing, without a window. */
class KeptChangesTest {
    private static Design design;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    private static LedgerEntry removing(String net) {
        return new LedgerEntry("now", "me", "", net, "pad", List.of(new Edit.RemoveNet(net)));
    }

    @Test
    void keptChangesAreOnTheDesignThatIsShown() {
        KeptChanges kept =
                KeptChanges.of(design).with(removing("alarm/beep")).with(removing("float_hi"));
        assertThat(kept.design().findNet("float_hi")).isEmpty();
        assertThat(kept.design().nets()).hasSize(design.nets().size() - 2);
        assertThat(KeptChanges.of(design).design()).isSameAs(design);
    }

    /** Through a link too, and not only the design itself. */
    @Test
    void noFileOfTheOpenedDesignIsWrittenOver(@TempDir Path folder) throws Exception {
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        Path file = folder.resolve("only.design.json");
        KeptChanges kept = KeptChanges.of(design).with(removing("float_hi"));
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Path input = folder.resolve(name);
            Path link = Files.createSymbolicLink(folder.resolve("to." + name), input);
            byte[] before = Files.readAllBytes(input);
            for (Path target : List.of(input, link, folder.resolve("./" + name))) {
                assertThatThrownBy(() -> kept.writeChanged(file, target, Progress.NONE))
                        .isInstanceOf(BadInput.class)
                        .hasMessageContaining("never changed")
                        .hasMessageContaining("the file " + name);
                assertThat(Files.readAllBytes(input)).isEqualTo(before);
            }
        }
        Path other = folder.resolve("new.design.json");
        assertThat(kept.writeChanged(file, other, Progress.NONE).holds()).isTrue();
    }

    /** Progress that counts what it is asked, and stops when it has been asked so often. */
    private static final class After implements Progress {
        private final int most;
        private int asked;
        private String last = "";

        private After(int most) {
            this.most = most;
        }

        @Override
        public void report(double fraction, String message) {
            last = message;
        }

        @Override
        public boolean cancelled() {
            return asked++ >= most;
        }
    }

    @Test
    void writingTheChangedDesignCanBeStopped(@TempDir Path folder) throws Exception {
        Path file = Path.of("fixtures/small/only.design.json");
        Path target = folder.resolve("new.design.json");
        KeptChanges kept = KeptChanges.of(design).with(removing("float_hi"));
        assertThatThrownBy(() -> kept.writeChanged(file, target, new After(0)))
                .isInstanceOf(CancellationException.class);
        assertThat(target).doesNotExist();
        After whole = new After(Integer.MAX_VALUE);
        assertThat(kept.writeChanged(file, target, whole).holds()).isTrue();
        assertThat(whole.last).startsWith("comparing ");
        // It is asked in the comparison too: the last time is not the reader's.
        After late = new After(whole.asked - 1);
        assertThatThrownBy(() -> kept.writeChanged(file, target, late))
                .isInstanceOf(CancellationException.class);
        assertThat(late.last).startsWith("comparing ");
    }

    private static List<Edit> out(String net) {
        int pad = 0;
        while (!design.fabric().pads().get(pad).name().equals("x7y2/pad[0]")) {
            pad++;
        }
        Question question =
                new Question(design, design.findNet(net).orElseThrow(), pad, Corner.SLOW);
        return AnswerEdits.of((Answer.FreeRoute) Asker.ask(question, Progress.NONE));
    }

    /** The window reads a ledger as the commands do. */
    @Test
    void aLedgerThatSaysSomethingElseThanWasKeptIsNotOpened(@TempDir Path folder) throws Exception {
        Path file = Path.of("fixtures/small/only.design.json");
        Path ledger = folder.resolve("l.json");
        KeptChanges three =
                KeptChanges.of(design)
                        .with(removing("float_hi"))
                        .with(EntrySigning.unsigned("clk12", "J1.1", out("clk12")))
                        .with(removing("alarm/beep"));
        three.save(ledger, file);
        String sound = Files.readString(ledger);
        for (Optional<Path> on : List.of(Optional.of(file), Optional.<Path>empty())) {
            Files.writeString(ledger, sound);
            KeptChanges read = KeptChanges.open(ledger, design, on, Progress.NONE);
            assertThat(read.entries()).isEqualTo(three.entries());
            assertThat(Digest.of(read.design())).isEqualTo(Digest.of(three.design()));
            for (Map.Entry<String, String> damage : DamagedLedgers.of(sound).entrySet()) {
                // A demo has no file, so that only the entries can be compared.
                if (on.isEmpty() && damage.getKey().equals("$.sha256")) {
                    continue;
                }
                Files.writeString(ledger, damage.getValue());
                assertThatThrownBy(() -> KeptChanges.open(ledger, design, on, Progress.NONE))
                        .isInstanceOf(BadInput.class)
                        .hasMessageContaining(damage.getKey());
            }
        }
    }
}
