package padward.lesson.exercise;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.breakout.survey.PadRank;
import padward.breakout.survey.Survey;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Terminal;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;

/** The answers of exercises, calculated again by other means. */
class ExerciseProperties {
    private static final int EACH = 5;

    private static Design small;
    private static Design made;

    @BeforeAll
    static void read() throws BadInput {
        small = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        made = DesignMaker.make(5_000, 3, 0.6, Progress.NONE).design();
    }

    private static List<Exercise> exercises(ExerciseKind kind, Difficulty difficulty) {
        List<Exercise> all = new ArrayList<>();
        for (Design design : List.of(small, made)) {
            ExerciseMaker maker = new ExerciseMaker(design);
            for (int seed = 0; seed < EACH; seed++) {
                maker.make(kind, difficulty, seed, Progress.NONE).ifPresent(all::add);
            }
        }
        return all;
    }

    private static Design designOf(Exercise exercise) {
        return small.findNet(exercise.net()).isPresent() ? small : made;
    }

    private static Question question(Design design, Exercise exercise) {
        String text = exercise.text();
        String pad = text.replaceAll(".* pad (\\S+?\\]) .*", "$1");
        return new Question(
                design,
                design.findNet(exercise.net()).orElseThrow(),
                PadNames.find(design, pad).get(0),
                Corner.SLOW);
    }

    /**
     * With everything removed but the user of the right site, the pad cannot be reached; with
     * everything removed but the user of another site, it can.
     */
    @ParameterizedTest
    @EnumSource(Difficulty.class)
    void onlyTheRightSiteMustBeEmpty(Difficulty difficulty) {
        List<Exercise> all = exercises(ExerciseKind.SITE, difficulty);
        assertThat(all).hasSizeGreaterThanOrEqualTo(EACH);
        for (Exercise exercise : all) {
            Design design = designOf(exercise);
            Exercise.Truth.OneOf truth = (Exercise.Truth.OneOf) exercise.truth();
            assertThat(truth.choices()).hasSize(difficulty.choices()).doesNotHaveDuplicates();
            for (int i = 0; i < truth.choices().size(); i++) {
                assertThat(opensWithoutEmptying(design, exercise, truth.choices().get(i)))
                        .as(exercise.text() + " " + truth.choices().get(i))
                        .isEqualTo(i != truth.right());
            }
        }
    }

    private static boolean opensWithoutEmptying(Design design, Exercise exercise, String site) {
        Question question = question(design, exercise);
        Cell kept = design.occupancy().findCellOn(design.fabric().findSite(site)).orElseThrow();
        List<Edit> edits = new ArrayList<>();
        design.findPortOn(question.pad())
                .ifPresent(p -> edits.add(new Edit.DisconnectPort(p.name())));
        for (Net net : design.nets()) {
            boolean own = net.name().equals(exercise.net());
            boolean gone =
                    net.driver() instanceof Terminal.PortEnd end
                            && design.ports().get(end.port()).pad() == question.pad();
            if (!own && !gone) {
                edits.add(new Edit.RemoveNet(net.name()));
            }
        }
        for (Cell cell : design.cells()) {
            boolean drives =
                    question.net().driver() instanceof Terminal.CellPin at
                            && at.cell() == cell.id();
            if (!drives && !cell.name().equals(kept.name())) {
                edits.add(new Edit.RemoveCell(cell.name()));
            }
        }
        Design emptied = Outcome.apply(design, edits);
        Question again =
                new Question(
                        emptied,
                        emptied.findNet(exercise.net()).orElseThrow(),
                        question.pad(),
                        Corner.SLOW);
        return new Asker(emptied.fabric(), SearchEngineKind.REFERENCE).answer(again, Progress.NONE)
                instanceof Answer.FreeRoute;
    }

    /** Each pad answered separately, with JGraphT's search. */
    @ParameterizedTest
    @EnumSource(Difficulty.class)
    void noOtherPadIsAsCheap(Difficulty difficulty) {
        List<Exercise> all = exercises(ExerciseKind.PAD, difficulty);
        assertThat(all).hasSizeGreaterThanOrEqualTo(EACH);
        for (Exercise exercise : all) {
            Design design = designOf(exercise);
            Asker asker = new Asker(design.fabric(), SearchEngineKind.REFERENCE);
            Exercise.Truth.OneOf truth = (Exercise.Truth.OneOf) exercise.truth();
            List<Answer> answers = new ArrayList<>();
            for (String pad : truth.choices()) {
                int index = PadNames.find(design, pad).get(0);
                Net net = design.findNet(exercise.net()).orElseThrow();
                answers.add(
                        asker.answer(new Question(design, net, index, Corner.SLOW), Progress.NONE));
            }
            Answer right = answers.get(truth.right());
            for (Answer other : answers) {
                if (other != right) {
                    assertThat(COST.compare(right, other)).as(exercise.text()).isNegative();
                }
            }
        }
    }

    private static final Comparator<Answer> COST =
            Comparator.comparing((Answer a) -> PadRank.of(a).grade())
                    .thenComparing(a -> DriverFit.of(a.question()).conflict().isPresent())
                    .thenComparing(a -> Survey.functionCost(a))
                    .thenComparing(a -> a instanceof Answer.Blocked b ? b.obstacles().size() : 0)
                    .thenComparing(
                            a ->
                                    a instanceof Answer.FreeRoute open
                                            ? open.route().total().slowPs()
                                            : ((Answer.Blocked) a).route().total().slowPs());

    @ParameterizedTest
    @EnumSource(Difficulty.class)
    void theDelayIsThatOfTheReferenceSearch(Difficulty difficulty) throws BadInput {
        List<Exercise> all = exercises(ExerciseKind.DELAY, difficulty);
        assertThat(all).hasSizeGreaterThanOrEqualTo(EACH);
        for (Exercise exercise : all) {
            Design design = designOf(exercise);
            Answer answer =
                    new Asker(design.fabric(), SearchEngineKind.REFERENCE)
                            .answer(question(design, exercise), Progress.NONE);
            int ps = ((Answer.FreeRoute) answer).route().total().slowPs();
            assertThat(exercise.mark(ps / 1000.0 + " ns", "answer").right()).isTrue();
            double off = ps * (1 + difficulty.tolerance()) + 10;
            assertThat(exercise.mark(String.valueOf(off / 1000.0), "answer").right()).isFalse();
        }
    }

    @Test
    void theSameSeedAsksTheSameAndOthersDiffer() {
        for (ExerciseKind kind : ExerciseKind.values()) {
            List<Exercise> once = exercises(kind, Difficulty.MEDIUM);
            assertThat(exercises(kind, Difficulty.MEDIUM)).isEqualTo(once);
            assertThat(once.stream().map(Exercise::text).distinct().count()).isGreaterThan(5);
        }
    }

    @Test
    void invalidAnswersAreReported() {
        Exercise site = exercises(ExerciseKind.SITE, Difficulty.EASY).get(0);
        assertThatThrownBy(() -> site.mark("9", "answer"))
                .hasMessageContaining("a number from 1 to 3");
        Exercise delay = exercises(ExerciseKind.DELAY, Difficulty.EASY).get(0);
        assertThatThrownBy(() -> delay.mark("-1", "answer")).hasMessageContaining("a delay in ns");
    }
}
