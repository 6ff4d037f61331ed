package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.breakout.ask.Answer;
import padward.change.LedgerEntry;
import padward.fabric.delay.Corner;
import padward.ui.work.BackgroundWork;

/** Several open questions, without a window. */
class QuestionsTest {
    private static final String NET = "pump/level/sample[1]";

    private final WindowModel model = new WindowModel(BackgroundWork.immediate());

    @BeforeEach
    void open() {
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private void ask(String net, String pad) {
        model.shown().netTextProperty().set(net);
        model.shown().padTextProperty().set(pad);
        model.shown().ask();
    }

    private Answer answer() {
        return model.shown().answerProperty().get().orElseThrow();
    }

    @Test
    void eachHasItsOwnAnswerRoutesOutAndTrial() {
        ask(NET, "J1.3");
        model.shown().tryIt();
        QuestionModel first = model.shown().question();
        model.questions().open(NET);
        assertThat(model.shown().answerProperty().get()).isEmpty();
        assertThat(model.shown().whatIfProperty().get()).isEmpty();
        assertThat(model.shown().netTextProperty().get()).isEqualTo(NET);
        ask("alarm/beep", "J1.2");
        Answer second = answer();
        assertThat(model.shown().surveyProperty().get().orElseThrow().net().name())
                .isEqualTo("alarm/beep");
        model.questions().show(first);
        assertThat(answer()).isInstanceOf(Answer.Blocked.class);
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        assertThat(model.shown().surveyProperty().get().orElseThrow().net().name()).isEqualTo(NET);
        assertThat(model.shown().padTextProperty().get()).isEqualTo("J1.3");
        model.questions().step(1);
        assertThat(answer()).isSameAs(second);
        model.questions().step(1);
        assertThat(model.shown().question()).isSameAs(first);
    }

    @Test
    void aPatternOfOnePadAsksForThatPad() {
        ask(NET, "J1.3");
        int pad = answer().question().pad();
        ask(NET, "J1.3*");
        assertThat(answer().question().pad()).isEqualTo(pad);
        assertThat(model.notes().all()).isEmpty();
    }

    @Test
    void whatIsTypedGoesToTheOneThatIsShown() {
        model.shown().netTextProperty().set("a");
        model.questions().open("");
        model.shown().netTextProperty().set("b");
        model.shown().cornerProperty().set(Corner.FAST);
        model.questions().step(-1);
        assertThat(model.shown().netTextProperty().get()).isEqualTo("a");
        assertThat(model.shown().cornerProperty().get()).isEqualTo(Corner.SLOW);
        assertThat(model.questions().stated())
                .containsExactly(
                        new QuestionsModel.Stated("a", "", Corner.SLOW, false),
                        new QuestionsModel.Stated("b", "", Corner.FAST, false));
    }

    @Test
    void keepingAsksTheOthersAgainOnTheChangedDesign() {
        ask(NET, "J1.3");
        QuestionModel other = model.shown().question();
        model.questions().open(NET);
        ask(NET, "J1.2");
        model.shown().tryIt();
        model.shown().acceptedProperty().set(true);
        model.keep();
        Answer again = other.answerProperty().get().orElseThrow();
        assertThat(again.question().design())
                .isSameAs(model.openedProperty().get().orElseThrow().design());
        model.undo();
        assertThat(other.answerProperty().get().orElseThrow().question().design())
                .isSameAs(model.openedProperty().get().orElseThrow().design())
                .isNotSameAs(again.question().design());
    }

    /** On J1.3 a motor controller follows: nothing is kept before the user has said yes. */
    @Test
    void whatFollowsIsKeptOnlyWhenAccepted() {
        ask(NET, "J1.3");
        model.shown().tryIt();
        assertThat(model.shown().isAccepted()).isFalse();
        model.keep();
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        assertThat(model.keptProperty().get().orElseThrow().entries()).isEmpty();
        model.shown().acceptedProperty().set(true);
        model.keep();
        assertThat(model.keptProperty().get().orElseThrow().entries())
                .singleElement()
                .satisfies(
                        e ->
                                assertThat(e.accepted())
                                        .extracting(LedgerEntry.Acceptance::what)
                                        .containsExactly("follows"));
        assertThat(model.shown().acceptedProperty().get()).isFalse();
    }

    @Test
    void aClosedQuestionComesBackByUndoing() {
        ask(NET, "J1.3");
        QuestionModel first = model.shown().question();
        model.questions().open("");
        QuestionModel second = model.shown().question();
        model.questions().close(first);
        assertThat(model.questions().all()).containsExactly(second);
        model.undo();
        assertThat(model.questions().all()).containsExactly(first, second);
        assertThat(model.shown().question()).isSameAs(first);
        assertThat(answer()).isInstanceOf(Answer.Blocked.class);
        model.redo();
        assertThat(model.questions().all()).containsExactly(second);
        model.questions().close(second);
        assertThat(model.questions().all()).containsExactly(second);
    }

    @Test
    void aDroppedTrialComesBackByUndoing() {
        ask(NET, "J1.3");
        model.shown().tryIt();
        model.drop();
        assertThat(model.shown().whatIfProperty().get()).isEmpty();
        assertThat(model.history().nextUndoProperty().get()).contains("dropping the what-if");
        model.undo();
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        model.redo();
        assertThat(model.shown().whatIfProperty().get()).isEmpty();
    }

    @Test
    void questionsAreRestoredAndThoseAskedAreAsked() {
        boolean[] then = {false};
        model.questions()
                .restore(
                        List.of(
                                new QuestionsModel.Stated("float_hi", "", Corner.FAST, false),
                                new QuestionsModel.Stated(NET, "J1.3", Corner.SLOW, true)),
                        1,
                        () -> then[0] = true);
        assertThat(model.questions().all()).hasSize(2);
        assertThat(answer()).isInstanceOf(Answer.Blocked.class);
        assertThat(then[0]).isTrue();
        model.questions().step(1);
        assertThat(model.shown().netTextProperty().get()).isEqualTo("float_hi");
        assertThat(model.shown().answerProperty().get()).isEmpty();
    }

    @Test
    void anotherDesignLeavesOneEmptyQuestion() {
        ask(NET, "J1.3");
        model.questions().open("float_hi");
        model.open(Path.of("fixtures/small/around.design.json"));
        assertThat(model.questions().all()).hasSize(1);
        assertThat(model.shown().netTextProperty().get()).isEmpty();
        assertThat(model.history().nextUndoProperty().get()).isEmpty();
    }
}
