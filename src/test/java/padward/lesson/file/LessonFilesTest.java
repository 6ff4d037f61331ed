package padward.lesson.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.output.FileCheck;
import padward.design.Design;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.LessonRun;
import padward.lesson.SolutionPlayer;
import padward.lesson.UserAction;
import padward.lesson.exercise.ExerciseKind;

/** Lesson files and learners' progress. */
class LessonFilesTest {
    static Stream<Course.Place> lessons() throws BadInput {
        return Course.builtIn().places().stream();
    }

    @Test
    void thereAreNineInOrder() throws BadInput {
        List<Lesson> all = lessons().map(Course.Place::lesson).toList();
        assertThat(all).extracting(Lesson::number).containsExactly(1, 2, 3, 4, 5, 6, 7, 8, 9);
        assertThat(all).allMatch(l -> l.why().split("\\s+").length >= 40);
        assertThat(all).allMatch(l -> !l.sources().isEmpty());
        assertThat(all).allSatisfy(l -> assertThat(l.steps()).allMatch(s -> !s.hints().isEmpty()));
    }

    @ParameterizedTest
    @MethodSource("lessons")
    void theirSolutionsSolveThem(Course.Place place) throws BadInput {
        assertThat(LessonReader.check(place.source(), Progress.NONE)).isEqualTo(place.lesson());
    }

    /** Without its last action, no lesson counts as solved. */
    @ParameterizedTest
    @MethodSource("lessons")
    void aSolutionNeedsAllItsActions(Course.Place place) throws BadInput {
        Design design = place.design(Progress.NONE);
        SolutionPlayer player = new SolutionPlayer(design);
        LessonRun run = LessonRun.begin(place.lesson(), player.state());
        List<UserAction> actions =
                place.lesson().steps().stream().flatMap(s -> s.solution().stream()).toList();
        for (UserAction action : actions.subList(0, actions.size() - 1)) {
            assertThat(player.act(action)).isEmpty();
            run = run.at(player.state());
            assertThat(run.isSolved()).isFalse();
            assertThat(run.open().isEmpty() && run.mistake().isEmpty()).isFalse();
        }
        player.act(actions.get(actions.size() - 1));
        assertThat(run.at(player.state()).isSolved()).isTrue();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "\"net\": \"pump/level/sample[1]\" ; \"net\": \"pump/level/simple[1]\" ;"
                        + " $.steps[0].done[0] ; the name of a net of the design",
                "\"answer\": \"open\" ; \"answer\": \"opened\" ; $.steps[0].done[1].answer ; one of",
                "\"answer\": \"open\" ; \"answer\": \"blocked\" ; $.steps[0].solution ;"
                        + " actions that do the task",
                "\"look\": \"answer\" ; \"look\": \"answers\" ; $.steps[0].done[1] ; look",
                "\"vertexKind\": \"wire\" ; \"net\": \"n\" ; $.steps[1] ; only",
                "\"do\": \"choose-hop\" ; \"do\": \"jump\" ; $.steps[1].solution[0] ; one of ask",
                "\"design\": ; \"desing\": ; $.desing ; one of",
                "\"x3y3/run3_e[1]\" ; \"x3y3/run3_e[0]\" ; $.steps[1].solution[0] ; an action that is possible",
                "\"number\": 1 ; \"number\": 0 ; $.number ; a whole number",
                "../small/only.design.json ; ../small/gone.json ; ; gone.json"
            })
    void faultsAreReportedWithTheirPlaces(
            String good, String bad, String place, String message, @TempDir Path folder)
            throws Exception {
        Path lessons = Files.createDirectories(folder.resolve("lessons"));
        Path small = Files.createDirectories(folder.resolve("small"));
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", name), small.resolve(name));
        }
        String text = Files.readString(Path.of("fixtures/lessons/01-boxes.json"));
        assertThat(text).contains(good.strip());
        int at = text.indexOf(good.strip());
        String changed =
                text.substring(0, at) + bad.strip() + text.substring(at + good.strip().length());
        Path file = Files.writeString(lessons.resolve("one.json"), changed);
        assertThatThrownBy(() -> FileCheck.check(file, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(place == null ? "" : place.strip())
                .hasMessageContaining(message.strip());
    }

    /** What listens to a pad does not stop when its port is disconnected: it follows the net. */
    @ParameterizedTest
    @ValueSource(strings = {"06-unblocking", "08-cautions"})
    void aMotorWhosePortIsDisconnectedObeysTheNet(String lesson) throws Exception {
        String text = Files.readString(Path.of("fixtures/lessons", lesson + ".json"));
        assertThat(text)
                .containsPattern("U7 (still )?listens to (this|that) pad and (now|would) follow")
                .doesNotContain("no longer runs", "motor stops");
    }

    @Test
    void ownLessonsAreReadFromAFolder(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("ours.json");
        Files.copy(Path.of("fixtures/lessons/02-strip-map.json"), file);
        assertThat(Course.in(folder).places())
                .extracting(p -> p.lesson().name())
                .containsExactly("strip-map");
        Files.copy(file, folder.resolve("twice.json"));
        assertThatThrownBy(() -> Course.in(folder)).hasMessageContaining("only one lesson has");
        assertThatThrownBy(() -> Course.in(folder.resolve("nowhere")))
                .hasMessageContaining("a folder of lessons");
    }

    @Test
    void progressIsSavedAndReset(@TempDir Path folder) throws Exception {
        Course.Place place = Course.builtIn().places().get(0);
        SolutionPlayer player = new SolutionPlayer(place.design(Progress.NONE));
        LessonRun run = LessonRun.begin(place.lesson(), player.state());
        for (UserAction action : place.lesson().steps().get(0).solution()) {
            player.act(action);
        }
        LessonRun further = run.at(player.state());
        LearnerFolder learners = LearnerFolder.at(folder);
        LearnerRecord written =
                learners.change("Zoë O.", old -> old.with(further, 1, 2, "2026-01-02T03:04:05Z"));
        learners.change("Zoë O.", old -> old.with(ExerciseKind.PAD, true));
        LearnerRecord read = learners.read("Zoë O.");
        assertThat(read.lessons()).isEqualTo(written.lessons());
        assertThat(read.lessons().get("boxes").stepsDone()).isEqualTo(1);
        assertThat(read.lessons().get("boxes").hints()).isEqualTo(2);
        assertThat(read.exercises().get(ExerciseKind.PAD).right()).isEqualTo(1);
        assertThat(learners.read("somebody else").lessons()).isEmpty();
        assertThat(read.without("boxes").lessons()).isEmpty();
        assertThat(FileCheck.check(learners.file("Zoë O."), Progress.NONE).lines().get(0))
                .contains("Zoë O.");
        Files.writeString(learners.file("Zoë O."), "{\"format\": \"padward-learner/1\"");
        assertThatThrownBy(() -> learners.change("Zoë O.", old -> old))
                .isInstanceOf(BadInput.class);
    }

    @Test
    void progressIsSavedInTheUsersFolder(@TempDir Path user, @TempDir Path home) throws Exception {
        LearnerFolder standard = LearnerFolder.standard("", user, home);
        assertThat(standard.read("anna").exercises()).isEmpty();
        standard.change("anna", old -> old.with(ExerciseKind.PAD, true));
        assertThat(standard.file("anna")).isEqualTo(user.resolve("learners/anna.json")).exists();
        assertThat(home).isEmptyDirectory();
        assertThat(LearnerFolder.standard("elsewhere", user, home).file("anna"))
                .isEqualTo(Path.of("elsewhere/anna.json"));
    }

    @Test
    void noTwoLearnersHaveOneFile(@TempDir Path folder) throws Exception {
        LearnerFolder learners = LearnerFolder.at(folder);
        Set<String> names = new HashSet<>();
        List<String> all = List.of("anna", "Anna", "ANNA", "é1", "\u0e91", ".e9", "e9", "a.b");
        for (String learner : all) {
            learners.change(learner, old -> old.with(ExerciseKind.PAD, true));
            names.add(learners.file(learner).getFileName().toString().toLowerCase(Locale.ROOT));
        }
        assertThat(names).hasSameSizeAs(all);
        for (String learner : all) {
            assertThat(learners.read(learner).learner()).isEqualTo(learner);
        }
    }

    /** As an earlier version wrote it, and as a file system without capitals finds it. */
    @Test
    void aFileOfAnEarlierNameIsReadByItsLearnerOnly(@TempDir Path folder) throws Exception {
        LearnerFolder learners = LearnerFolder.at(folder);
        learners.change("Anna", old -> old.with(ExerciseKind.PAD, true));
        Path earlier = folder.resolve("Anna.json");
        Files.move(learners.file("Anna"), earlier);
        assertThat(learners.read("Anna").exercises().get(ExerciseKind.PAD).right()).isEqualTo(1);
        Files.copy(earlier, learners.file("anna"));
        assertThatThrownBy(() -> learners.change("anna", old -> old))
                .hasMessageContaining("expected \"anna\", found \"Anna\"");
        assertThat(learners.file("anna")).hasSameTextualContentAs(earlier);
    }

    /** Two windows at once. */
    @Test
    void noChangeIsLost(@TempDir Path folder) throws Exception {
        LearnerFolder learners = LearnerFolder.at(folder);
        Callable<Void> window =
                () -> {
                    for (int i = 0; i < 20; i++) {
                        learners.change("anna", old -> old.with(ExerciseKind.PAD, true));
                    }
                    return null;
                };
        ExecutorService windows = Executors.newFixedThreadPool(2);
        try {
            for (Future<Void> one : windows.invokeAll(List.of(window, window))) {
                one.get();
            }
        } finally {
            windows.shutdownNow();
        }
        assertThat(learners.read("anna").exercises().get(ExerciseKind.PAD).right()).isEqualTo(40);
    }

    /** Until there is a newer file, progress is read where earlier versions wrote it. */
    @Test
    void theEarlierFolderIsReadButNotChanged(@TempDir Path user, @TempDir Path home)
            throws Exception {
        LearnerFolder earlier = LearnerFolder.at(home.resolve(".padward/learners"));
        earlier.change("anna", old -> old.with(ExerciseKind.PAD, true));
        String before = Files.readString(earlier.file("anna"));
        LearnerFolder standard = LearnerFolder.standard("", user, home);
        assertThat(standard.read("anna").exercises().get(ExerciseKind.PAD).answered()).isEqualTo(1);
        standard.change("anna", old -> old.with(ExerciseKind.PAD, false));
        assertThat(standard.read("anna").exercises().get(ExerciseKind.PAD).answered()).isEqualTo(2);
        standard.change("anna", old -> LearnerRecord.of(old.learner()));
        assertThat(standard.read("anna").exercises()).isEmpty();
        assertThat(Files.readString(earlier.file("anna"))).isEqualTo(before);
    }

    @Test
    void aSummaryIsAPageOrPlainText(@TempDir Path folder) throws Exception {
        LearnerRecord anna = LearnerRecord.of("anna").with(ExerciseKind.PAD, true);
        List<Lesson> lessons = Course.builtIn().lessons();
        Path page = folder.resolve("anna.HTML");
        Path text = folder.resolve("anna.txt");
        LearnerSummary.write(page, anna, lessons);
        LearnerSummary.write(text, anna, lessons);
        assertThat(page).content().startsWithIgnoringCase("<!doctype html>").contains("anna");
        assertThat(text).content().contains("anna").doesNotContain("<").endsWith("\n");
        assertThatThrownBy(() -> LearnerSummary.write(folder.resolve("no/a.txt"), anna, lessons))
                .isInstanceOf(BadInput.class);
    }
}
