package padward.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.format.design.DesignReader;

/** What is sound in a design, but seldom meant. */
class DesignReviewTest {
    @Test
    void aHeaderPinOnTwoNetsOfTheBoardIsNamed(@TempDir Path folder) throws Exception {
        Path small = Path.of("fixtures/small");
        for (String name : new String[] {"only.design.json", "only.fabric.json"}) {
            Files.copy(small.resolve(name), folder.resolve(name));
        }
        String board = Files.readString(small.resolve("board.json"));
        assertThat(board)
                .contains("\"net\": \"AUX1\"")
                .contains("\"name\": \"J2\", \"pin\": \"2\"");
        String doubled =
                board.replace(
                        "\"name\": \"J2\", \"pin\": \"2\"", "\"name\": \"J2\", \"pin\": \"1\"");
        String finding = "pins of the board on two of its nets: 1 (J2.1 on AUX0 and AUX1)";
        assertThat(review(folder, doubled)).contains(finding);
        // Two pads may be on one net, and so on one pin.
        String joined = doubled.replace("\"net\": \"AUX1\"", "\"net\": \"AUX0\"");
        assertThat(review(folder, joined)).doesNotContain(finding);
        assertThat(review(folder, board)).doesNotContain(finding);
    }

    private static List<String> review(Path folder, String board) throws Exception {
        Files.writeString(folder.resolve("board.json"), board);
        Path design = folder.resolve("only.design.json");
        return DesignReview.of(DesignReader.read(design, Progress.NONE));
    }
}
