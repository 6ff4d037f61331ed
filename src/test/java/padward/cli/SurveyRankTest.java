package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pads on which a lead can be put come first, and what the board has on them is seen at once. */
class SurveyRankTest {
    private static final String NET = "pump/level/sample[1]";

    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void copy() throws Exception {
        for (String name : List.of("around.design.json", "around.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        design = folder.resolve("around.design.json");
    }

    private List<JsonObject> answers(String... more) {
        List<Object> words = new ArrayList<>(List.of("survey", "-d", design, "-n", NET, "--json"));
        words.addAll(List.of(more));
        List<JsonObject> result = new ArrayList<>();
        for (JsonElement one : CommandRun.of(words.toArray()).json().getAsJsonArray("answers")) {
            result.add(one.getAsJsonObject());
        }
        return result;
    }

    @Test
    void padsWithAPlaceForALeadComeFirst() {
        List<String> grades = answers().stream().map(a -> a.get("rank").getAsString()).toList();
        long withLead = grades.stream().filter(g -> g.equals("free-with-lead")).count();
        assertThat(withLead).isPositive();
        assertThat(grades.subList(0, (int) withLead)).containsOnly("free-with-lead");
        assertThat(grades.lastIndexOf("free")).isLessThan(grades.indexOf("follows"));
    }

    /** Not bonded out: no lead reaches it, however good its route is. */
    @Test
    void aPadWithoutAPinOfThePackageComesLast() throws Exception {
        String first = answers().get(0).get("pad").getAsString();
        Path fabric = folder.resolve("around.fabric.json");
        String pin = "\"packagePin\": \"" + answers().get(0).get("packagePin").getAsString() + "\"";
        String text = Files.readString(fabric);
        assertThat(text).contains(pin);
        Files.writeString(fabric, text.replace(pin, "\"bonded\": false"));
        assertThat(answers()).noneMatch(a -> a.get("pad").getAsString().equals(first));
        List<JsonObject> all = answers("--all-pads");
        List<String> pads = all.stream().map(a -> a.get("pad").getAsString()).toList();
        JsonObject unbonded = all.get(pads.indexOf(first));
        assertThat(unbonded.get("rank").getAsString()).isEqualTo("not-offered");
        assertThat(unbonded.get("rankReason").getAsString()).contains("not bonded out");
        assertThat(all.subList(0, pads.indexOf(first)))
                .noneMatch(a -> a.get("answer").getAsString().equals("no-route"));
    }

    @Test
    void theBoardIsTheThirdColumn() {
        String head =
                CommandRun.of("survey", "-d", design, "-n", NET)
                        .out()
                        .lines()
                        .findFirst()
                        .orElseThrow();
        assertThat(head).matches("pad +pin +on the board +answer .*");
        // E5 is not in the board's file: what is there is unknown, which is not nothing.
        assertThat(CommandRun.of("survey", "-d", design, "-n", NET).out())
                .containsPattern(" E5 +not described +Open ");
    }
}
