package padward.ui.lesson;

import java.util.Optional;
import java.util.function.Function;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.RadioButton;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleGroup;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import padward.lesson.LessonText;
import padward.lesson.exercise.Difficulty;
import padward.lesson.exercise.Exercise;
import padward.lesson.exercise.ExerciseKind;
import padward.ui.control.Choices;
import padward.ui.control.Controls;

/** Random questions about the open design, answered here and marked at once. */
public final class ExercisesView extends ScrollPane {
    private final ExercisesModel exercises;
    private final VBox body = new VBox(8);
    private final Label score = Controls.text("", "faint", "small");

    /** Shows one exercise after the other. */
    public ExercisesView(ExercisesModel exercises) {
        this.exercises = exercises;
        setId("exercises");
        getStyleClass().add("side-part");
        setFitToWidth(true);
        getStyleClass().add("plain-scroll");
        score.setId("exercise-score");
        VBox all = new VBox(10, choices(), body, score);
        all.setPadding(new Insets(10, 12, 10, 12));
        setContent(all);
        exercises.exerciseProperty().addListener((p, old, now) -> show());
        exercises.markProperty().addListener((p, old, now) -> show());
        exercises.kindProperty().addListener((p, old, now) -> showScore());
        exercises.learner().recordProperty().addListener((p, old, now) -> showScore());
        show();
        showScore();
    }

    private Node choices() {
        ChoiceBox<ExerciseKind> kind = Choices.box();
        kind.getItems().setAll(ExerciseKind.values());
        kind.setConverter(new Named<>(ExerciseKind::title));
        kind.valueProperty().bindBidirectional(exercises.kindProperty());
        kind.setId("exercise-kind");
        kind.setAccessibleText("Kind of question");
        ChoiceBox<Difficulty> difficulty = Choices.box();
        difficulty.getItems().setAll(Difficulty.values());
        difficulty.setConverter(new Named<>(Difficulty::label));
        difficulty.valueProperty().bindBidirectional(exercises.difficultyProperty());
        difficulty.setId("exercise-difficulty");
        difficulty.setAccessibleText("Difficulty");
        Button ask =
                Controls.button(
                        "exercise-ask",
                        "New question",
                        "Asks a new question about the open design",
                        exercises::ask);
        return new FlowPane(8, 6, kind, difficulty, ask);
    }

    /** Converts a choice to its name. */
    private static final class Named<T> extends StringConverter<T> {
        private final Function<T, String> name;

        Named(Function<T, String> name) {
            this.name = name;
        }

        @Override
        public String toString(T value) {
            return value == null ? "" : name.apply(value);
        }

        @Override
        public T fromString(String text) {
            throw new UnsupportedOperationException("this list cannot be typed into");
        }
    }

    private void showScore() {
        ExerciseKind kind = exercises.kindProperty().get();
        score.setText(
                exercises.learner().recordProperty().get().learner()
                        + ", questions of this kind: "
                        + LessonText.score(exercises.learner().recordProperty().get(), kind));
    }

    private void show() {
        body.getChildren().clear();
        Optional<Exercise> asked = exercises.exerciseProperty().get();
        if (asked.isEmpty()) {
            body.getChildren()
                    .add(
                            Controls.text(
                                    "Random questions about the open design, as many as you like."
                                            + " You may use the map, but not the question bar.",
                                    "faint"));
            return;
        }
        Exercise exercise = asked.get();
        Label text = Controls.text(exercise.text(), "lesson-task");
        text.setId("exercise-text");
        body.getChildren().add(text);
        exercise.facts().forEach(f -> body.getChildren().add(Controls.text(f, "small")));
        body.getChildren()
                .add(
                        exercise.truth() instanceof Exercise.Truth.OneOf oneOf
                                ? choiceRows(oneOf)
                                : field());
        exercises.markProperty().get().ifPresent(m -> body.getChildren().add(marked(m)));
        Label seed = Controls.text("Seed " + exercise.seed(), "faint", "small");
        seed.setId("exercise-seed");
        body.getChildren().add(seed);
    }

    private Node choiceRows(Exercise.Truth.OneOf oneOf) {
        VBox rows = new VBox(5);
        ToggleGroup group = new ToggleGroup();
        boolean over = exercises.markProperty().get().isPresent();
        for (int i = 0; i < oneOf.choices().size(); i++) {
            String name = oneOf.choices().get(i);
            String remark = oneOf.remarks().get(i);
            RadioButton choice = new RadioButton(name + (remark.isEmpty() ? "" : ": " + remark));
            choice.setId("exercise-choice-" + (i + 1));
            choice.setMnemonicParsing(false);
            choice.setWrapText(true);
            choice.setMinHeight(Region.USE_PREF_SIZE);
            choice.setToggleGroup(group);
            choice.setDisable(over);
            choice.setSelected(over && name.equals(exercises.answered()));
            choice.setUserData(name);
            rows.getChildren().add(choice);
        }
        Button answer =
                Controls.button(
                        "exercise-answer",
                        "Answer",
                        "Compares your choice with the calculated answer",
                        () -> exercises.answer(chosen(group)));
        answer.setDisable(true);
        group.selectedToggleProperty().addListener((p, old, now) -> answer.setDisable(over));
        rows.getChildren().add(answer);
        return rows;
    }

    private static String chosen(ToggleGroup group) {
        return group.getSelectedToggle() == null
                ? ""
                : (String) group.getSelectedToggle().getUserData();
    }

    private Node field() {
        boolean over = exercises.markProperty().get().isPresent();
        TextField delay = new TextField();
        delay.setId("exercise-delay");
        delay.setPromptText("ns");
        delay.setPrefColumnCount(7);
        delay.setDisable(over);
        delay.setText(over ? exercises.answered() : "");
        delay.setAccessibleText("Your estimate in nanoseconds");
        delay.setOnAction(e -> exercises.answer(delay.getText()));
        Button answer =
                Controls.button(
                        "exercise-answer",
                        "Answer",
                        "Compares your estimate with the calculated delay",
                        () -> exercises.answer(delay.getText()));
        answer.setDisable(over);
        return new HBox(8, delay, answer);
    }

    private static Node marked(Exercise.Mark mark) {
        Label text =
                Controls.text(
                        (mark.right() ? "✓ " : "⊖ ") + mark.text(),
                        mark.right() ? "lesson-solved" : "lesson-mistake");
        text.setId("exercise-mark");
        text.setMaxWidth(Double.MAX_VALUE);
        return text;
    }
}
