package padward.ui.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.format.design.Digest;
import padward.format.ledger.LedgerReplay;

/** What the window says about faults: never in the words of a parser, always with a next step. */
class FaultTextTest {
    @Test
    void aFieldIsToBeChanged() {
        assertThat(
                        FaultText.of(
                                new BadInput(
                                        "net", "", "the name of a net", "“x”, which fits none")))
                .isEqualTo(
                        "The field “net” needs the name of a net, but has “x”, which fits none."
                                + " Change it and press Enter.");
        assertThat(FaultText.of(new BadInput("nets", "", "names of nets", "")))
                .startsWith("The field “nets” needs names of nets, and is empty.");
    }

    @Test
    void aFileIsToBeCorrectedOrAnotherOneTaken() {
        assertThat(FaultText.of(new BadInput("/d/bad.json", "$.name", "a text", "7")))
                .isEqualTo(
                        "/d/bad.json, at $.name: this needs a text, but there is 7. Correct the file"
                                + " there and open it again; what was open stays open.");
        assertThat(FaultText.of(new BadInput("bad.json", "", "a design", "a ledger")))
                .endsWith("Open another file, or correct this one; what was open stays open.");
    }

    @Test
    void aLedgerOfAnotherDesignIsNotToBeCorrected(@TempDir Path folder) throws Exception {
        Path one = Path.of("fixtures/small/only.design.json");
        Path other = Files.writeString(folder.resolve("other.json"), "{}");
        Path file = Path.of("/d/l.json");
        Ledger ledger = new Ledger("only.design.json", Digest.of(one), List.of());
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class, () -> LedgerReplay.checkFile(ledger, file, other));
        assertThat(FaultText.of(fault))
                .isEqualTo(
                        "/d/l.json: this ledger was made on another design file than the open one."
                                + " Open the file that it was made on. If this is a new run of the"
                                + " same design, the command padward apply --new-ledger carries the"
                                + " ledger over; what was open stays open.");
        LedgerEntry entry = new LedgerEntry("", "", "", "a", "b", List.of());
        BadInput clash =
                LedgerReplay.clash(List.of(new Ledger.Clash(1, entry, List.of("x is y"))), file);
        assertThat(FaultText.of(clash))
                .startsWith("/d/l.json, at entry 2: this needs a change that fits the design")
                .endsWith("keep the new answer; what was open stays open.");
        String digest = Digest.of(one);
        assertThat(FaultText.of(new BadInput("/d/l.json", "$.entries[0].before", digest, digest)))
                .startsWith("/d/l.json, at entry 1: what the ledger states")
                .doesNotContain(digest)
                .doesNotContain("orrect");
        assertThat(FaultText.of(new BadInput("/d/l.json", "$.entries[0].before", "a text", "7")))
                .contains("Correct the file there");
    }

    @Test
    void whatCannotBeWrittenGoesElsewhere() {
        assertThat(
                        FaultText.of(
                                new BadInput(
                                        "/d/a.csv",
                                        "",
                                        "a file that can be written",
                                        "no such folder")))
                .endsWith("Choose another file or folder, or make room there, and save again.");
    }

    @Test
    void aMistakeOfTheProgramSaysThatNothingIsLost() {
        assertThat(FaultText.internal(new IllegalStateException("odd")))
                .contains("odd")
                .contains("What is kept is safe");
    }
}
