package padward.ui.work;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import padward.base.BadInput;

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
