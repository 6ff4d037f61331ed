package padward.ui.question;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.collections.ListChangeListener;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.Tooltip;
import padward.breakout.ask.Answer;
import padward.breakout.text.AnswerText;
import padward.ui.control.Actions;
import padward.ui.control.ThingMenu;
import padward.ui.model.QuestionModel;
import padward.ui.model.QuestionsModel;

/** The open questions as tabs above the question; hidden while there is only one. */
public final class QuestionTabs extends TabPane {
    private static final List<String> OF_TAB = List.of("copy-command", "same-net");

    private final QuestionsModel questions;
    private final Actions actions;
    private boolean following;

    /** One tab for each question, added and closed with it. */
    public QuestionTabs(QuestionsModel questions, Actions actions) {
        this.questions = questions;
        this.actions = actions;
        setId("question-tabs");
        getStyleClass().add("question-tabs");
        setAccessibleText("Open questions");
        setTabClosingPolicy(TabClosingPolicy.ALL_TABS);
        questions.all().addListener((ListChangeListener<QuestionModel>) c -> follow());
        questions.shownProperty().addListener((p, old, now) -> follow());
        getSelectionModel().selectedItemProperty().addListener((p, old, now) -> chosen(now));
        follow();
    }

    private void chosen(Tab tab) {
        if (!following && tab != null) {
            questions.show((QuestionModel) tab.getUserData());
        }
    }

    /** Updates the tabs to the questions; tabs of remaining questions stay. */
    private void follow() {
        following = true;
        List<Tab> tabs = new ArrayList<>();
        for (QuestionModel question : questions.all()) {
            tabs.add(
                    getTabs().stream()
                            .filter(t -> t.getUserData() == question)
                            .findFirst()
                            .orElseGet(() -> tab(question)));
        }
        if (!getTabs().equals(tabs)) {
            getTabs().setAll(tabs);
        }
        int index = questions.all().indexOf(questions.shownProperty().get());
        getSelectionModel().select(index);
        setVisible(tabs.size() > 1);
        setManaged(isVisible());
        following = false;
    }

    private Tab tab(QuestionModel question) {
        Tab tab = new Tab();
        tab.setUserData(question);
        tab.setContextMenu(menu(question));
        DelayedNotice notice = new DelayedNotice();
        question.busyProperty().addListener((p, old, now) -> notice.follow(now));
        tab.textProperty()
                .bind(
                        Bindings.createStringBinding(
                                () -> text(question, notice.overProperty().get()),
                                question.netTextProperty(),
                                question.padTextProperty(),
                                question.asAskedProperty(),
                                question.answerProperty(),
                                question.whatIfProperty(),
                                notice.overProperty()));
        Tooltip tip = new Tooltip();
        tip.textProperty()
                .bind(
                        Bindings.createStringBinding(
                                question::toText,
                                question.netTextProperty(),
                                question.padTextProperty(),
                                question.asAskedProperty(),
                                question.answerProperty()));
        tab.setTooltip(tip);
        tab.setOnCloseRequest(
                e -> {
                    e.consume();
                    questions.close(question);
                });
        return tab;
    }

    /** What can be done with one of the questions; it is shown first. */
    private ContextMenu menu(QuestionModel question) {
        ContextMenu menu = new ContextMenu();
        menu.setOnShowing(
                e -> {
                    questions.show(question);
                    menu.getItems().clear();
                    OF_TAB.forEach(id -> menu.getItems().add(ThingMenu.item(actions.get(id))));
                    menu.getItems().add(new SeparatorMenuItem());
                    menu.getItems().add(ThingMenu.item(actions.get("close-question")));
                    menu.getItems()
                            .add(ThingMenu.item("Close the others", () -> closeOthers(question)));
                });
        // An empty menu would not open.
        menu.getItems().add(new MenuItem(""));
        return menu;
    }

    private void closeOthers(QuestionModel question) {
        List.copyOf(questions.all()).stream().filter(q -> q != question).forEach(questions::close);
    }

    /** The question and its state, in words. */
    private static String text(QuestionModel question, boolean working) {
        Optional<Answer> answer = question.answerProperty().get();
        String state;
        if (working) {
            state = " …";
        } else if (question.whatIfProperty().get().isPresent()) {
            state = ": what-if";
        } else {
            state =
                    answer.map(a -> ": " + AnswerText.word(a).toLowerCase(Locale.ROOT))
                            .orElse(question.isOwed() ? ": not answered" : "");
        }
        return question.title() + state + (question.asAskedProperty().get() ? "" : " (edited)");
    }
}
