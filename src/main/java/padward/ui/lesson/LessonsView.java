package padward.ui.lesson;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Alert;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.LessonText;
import padward.lesson.file.Course;
import padward.ui.control.Controls;
import padward.ui.control.FileDialogs;
import padward.ui.control.Themes;

/** The list of lessons with the learner's progress, or the present lesson. */
public final class LessonsView extends ScrollPane {
    private final LessonsModel lessons;
    private final FileDialogs dialogs = new FileDialogs(this);
    private final VBox rows = new VBox(8);
    private final VBox list;
    private final LessonPane pane;
    private final Button back;

    /** Shows the list until a lesson begins. */
    public LessonsView(LessonsModel lessons) {
        this.lessons = lessons;
        this.pane = new LessonPane(lessons);
        setId("lessons");
        setFitToWidth(true);
        getStyleClass().add("plain-scroll");
        list = new VBox(10, intro(), rows, learner());
        back =
                Controls.button(
                        "lesson-back",
                        "",
                        "Opens again what was open before the lesson, with its questions and what"
                                + " was kept",
                        lessons::returnToWork);
        back.setMnemonicParsing(false);
        VBox all = new VBox(10, back, list, pane);
        all.setPadding(new Insets(10, 12, 10, 12));
        setContent(all);
        lessons.courseProperty().addListener((p, old, now) -> show());
        lessons.learner().recordProperty().addListener((p, old, now) -> show());
        lessons.atHandProperty().addListener((p, old, now) -> show());
        lessons.runningProperty()
                .addListener(
                        (p, old, now) -> {
                            show();
                            boolean other =
                                    !old.map(r -> r.run().stepsDone())
                                            .equals(now.map(r -> r.run().stepsDone()));
                            if (other) {
                                setVvalue(0);
                            }
                        });
        show();
    }

    private static Node intro() {
        return Controls.text(
                "How a signal gets from a cell to a pad, and what can block it: short lessons that"
                        + " you do in this window, each on its own design. Beginning a lesson closes"
                        + " the design that is open now. Open it again afterwards, and it comes back"
                        + " with your kept changes.",
                "faint");
    }

    private void show() {
        Optional<String> left = lessons.findLeftWork();
        back.setText(left.map(name -> "Back to " + name).orElse(""));
        back.setVisible(left.isPresent());
        back.setManaged(left.isPresent());
        boolean doing = lessons.runningProperty().get().isPresent();
        list.setVisible(!doing);
        list.setManaged(!doing);
        pane.setVisible(doing);
        pane.setManaged(doing);
        if (doing) {
            pane.show(lessons.runningProperty().get().get());
            return;
        }
        pane.clear();
        LearnerRecord record = lessons.learner().recordProperty().get();
        List<Course.Place> places =
                lessons.courseProperty().get().map(Course::places).orElse(List.of());
        rows.getChildren().setAll(places.stream().map(p -> row(p, record)).toList());
    }

    private Node row(Course.Place place, LearnerRecord record) {
        Lesson lesson = place.lesson();
        boolean solved =
                Optional.ofNullable(record.lessons().get(lesson.name()))
                        .filter(LearnerRecord.Lessoned::isSolved)
                        .isPresent();
        Label title =
                Controls.text(
                        (solved ? "✓ " : "") + lesson.number() + ". " + lesson.title(),
                        "side-title");
        Label goal = Controls.text(lesson.goal(), "small");
        Label state = Controls.text(LessonText.progress(record, lesson), "faint", "small");
        state.setId("lesson-state-" + lesson.number());
        VBox texts = new VBox(1, title, goal, state);
        HBox.setHgrow(texts, Priority.ALWAYS);
        Button begin =
                Controls.button(
                        "lesson-begin-" + lesson.number(),
                        record.lessons().containsKey(lesson.name()) ? "Again" : "Begin",
                        "Opens the lesson's design and begins lesson " + lesson.number(),
                        () -> lessons.begin(place));
        HBox row = new HBox(10, texts, begin);
        row.setAlignment(Pos.CENTER_LEFT);
        return row;
    }

    private Node learner() {
        TextField name = new TextField(lessons.learner().recordProperty().get().learner());
        name.setId("learner-name");
        name.setPrefColumnCount(12);
        name.setAccessibleText("Name of the learner; press Enter to change to another one");
        name.setTooltip(new Tooltip("To change to another learner, type the name and press Enter"));
        name.setOnAction(e -> lessons.learner().changeTo(name.getText()));
        lessons.learner()
                .recordProperty()
                .addListener((p, old, now) -> name.setText(now.learner()));
        FlowPane row =
                new FlowPane(
                        8,
                        6,
                        new Label("Learner"),
                        name,
                        Controls.button(
                                "lesson-summary",
                                "Summary…",
                                "Saves the learner's progress as a page to print or as text",
                                () -> dialogs.newSummary().ifPresent(lessons::writeSummary)),
                        Controls.button(
                                "lesson-forget",
                                "Forget…",
                                "Deletes this learner's progress",
                                this::forget),
                        Controls.button(
                                "lesson-own",
                                "Own lessons…",
                                "Opens a folder with lessons of your own",
                                () -> dialogs.lessons().ifPresent(lessons::openCourse)));
        return row;
    }

    private void forget() {
        String name = lessons.learner().recordProperty().get().learner();
        Alert alert =
                new Alert(
                        Alert.AlertType.CONFIRMATION,
                        "Delete the progress of " + name + " in all lessons and exercises?",
                        ButtonType.OK,
                        ButtonType.CANCEL);
        alert.setTitle("Delete progress");
        alert.initOwner(getScene().getWindow());
        Themes.dress(alert.getDialogPane(), getScene().getRoot());
        alert.showAndWait().filter(b -> b == ButtonType.OK).ifPresent(b -> lessons.forget());
    }
}
