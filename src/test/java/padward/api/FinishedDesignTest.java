package padward.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.fabric.delay.DelayTooLong;
import padward.format.design.DesignReader;
import padward.format.ledger.LedgerReader;

/** The library never writes over its inputs, and its ledgers are as the commands write them. */
class FinishedDesignTest {
    private static final List<String> FILES =
            List.of("only.design.json", "only.fabric.json", "board.json");

    @TempDir private Path folder;
    private Path file;

    @BeforeEach
    void copyTheDesign() throws Exception {
        for (String name : FILES) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        file = folder.resolve(FILES.get(0));
    }

    private static FinishedDesign keep(FinishedDesign design, String net, String pad)
            throws BadInput {
        Finding finding = design.ask(net, pad);
        return design.keep(finding, Signature.of("me").accepting(finding.toAccept()));
    }

    @Test
    void noInputIsWrittenOver() throws Exception {
        FinishedDesign design = FinishedDesign.open(file);
        Path link = Files.createSymbolicLink(folder.resolve("link.json"), file);
        for (Path copy :
                List.of(
                        file,
                        link,
                        folder.resolve("only.fabric.json"),
                        folder.resolve("board.json"))) {
            byte[] before = Files.readAllBytes(copy);
            assertThatThrownBy(() -> design.writeCopy(copy))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("a file other than the design's, its fabric's");
            assertThat(Files.readAllBytes(copy)).isEqualTo(before);
        }
    }

    /** So that taking back one entry leaves the channels of the others. */
    @Test
    void linesHaveTheirChannels() throws Exception {
        FinishedDesign design = FinishedDesign.open(file);
        FinishedDesign changed =
                keep(keep(design, "pump/level/sample[0]", "J1.1"), "pump/level/sample[1]", "J1.2");
        Path saved = folder.resolve("ledger.json");
        changed.saveLedger(saved);
        Ledger ledger =
                LedgerReader.read(
                        saved, DesignReader.read(file, Progress.NONE).fabric(), Progress.NONE);
        assertThat(ledger.entries()).hasSize(2);
        assertThat(ledger.entries()).extracting(LedgerEntry::leads).allMatch(l -> l.size() == 1);
        assertThat(ledger.entries().get(1).leads().get(0).channel())
                .isEqualTo(ledger.entries().get(0).leads().get(0).channel() + 1);
    }

    @Test
    void aDesignThatChangedMeanwhileIsNotSavedFor() throws Exception {
        FinishedDesign changed = keep(FinishedDesign.open(file), "pump/level/sample[0]", "J1.1");
        Files.writeString(file, Files.readString(file) + "\n");
        Path saved = folder.resolve("ledger.json");
        assertThatThrownBy(() -> changed.saveLedger(saved))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("the design as it was when it was opened");
        assertThat(saved).doesNotExist();
    }

    @Test
    void whereNothingWasKeptTheLedgerIsEmpty() throws Exception {
        FinishedDesign design = FinishedDesign.open(file);
        Path saved = folder.resolve("ledger.json");
        design.saveLedger(saved);
        assertThat(Files.readString(saved)).contains("entries");
        keep(design, "pump/level/sample[0]", "J1.1").saveLedger(saved);
        assertThat(Files.readString(saved)).contains("pump/level/sample[0]");
    }

    /** Surveys explain nothing, so that there is no option to keep. */
    @Test
    void aBlockedFindingOfASurveyIsNotKept() throws Exception {
        FinishedDesign design = FinishedDesign.open(file);
        Finding blocked =
                design.survey("pump/level/sample[1]").stream()
                        .filter(f -> f.kind() == Finding.Kind.BLOCKED)
                        .findFirst()
                        .orElseThrow();
        Signature signature = Signature.of("me").accepting(blocked.toAccept());
        assertThatThrownBy(() -> design.keep(blocked, signature))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("expected a finding of ask, for a blocked pad");
    }

    @Test
    void delaysThatAreTooLongAreBadInput() {
        assertThatThrownBy(
                        () ->
                                AskableDesign.within(
                                        "net",
                                        () -> {
                                            throw new DelayTooLong();
                                        }))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("net: expected delays that together are at most")
                .hasMessageContaining("found a longer route");
    }
}
