package padward.ui;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.BooleanBinding;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.ui.control.Action;
import padward.ui.control.FileDialogs;
import padward.ui.control.ThingMenu;
import padward.ui.model.AppearanceModel;
import padward.ui.model.WindowModel;

/** Actions for files, questions and the window as a whole. */
final class WindowActions {
    private WindowActions() {}

    static List<Action> files(WindowModel model, FileDialogs dialogs) {
        BooleanBinding anyKept = anyKept(model);
        BooleanBinding isOpen = isOpen(model);
        return List.of(
                Action.of(
                        "open",
                        Action.Group.FILE,
                        "Open…",
                        "Shortcut+O",
                        "Opens a design file",
                        () -> dialogs.design().ifPresent(model::open)),
                Action.of(
                        "demo",
                        Action.Group.FILE,
                        "Demo",
                        "",
                        "Opens the built-in example, an invented bilge-pump controller",
                        model::openDemo),
                Action.of(
                                "ledger",
                                Action.Group.FILE,
                                "Ledger…",
                                "Shortcut+L",
                                "Opens a ledger for the open design",
                                () -> dialogs.ledger().ifPresent(model::openLedger))
                        .when(isOpen),
                Action.of(
                                "save",
                                Action.Group.FILE,
                                "Save ledger…",
                                "Shortcut+S",
                                "Saves the kept changes as a ledger file",
                                () -> dialogs.newLedger().ifPresent(model.design()::saveLedger))
                        .when(anyKept),
                Action.of(
                                "save-design",
                                Action.Group.FILE,
                                "Save the changed design…",
                                "",
                                "Writes the design with the kept changes to another file; the"
                                        + " opened file stays as it is",
                                () -> dialogs.newDesign().ifPresent(model.design()::saveChanged))
                        .when(anyKept));
    }

    private static BooleanBinding hasNet(WindowModel model) {
        return Bindings.createBooleanBinding(
                () ->
                        model.openedProperty().get().isPresent()
                                && !model.shown().netTextProperty().get().isBlank(),
                model.openedProperty(),
                model.shown().netTextProperty());
    }

    private static void copyCommand(WindowModel model) {
        AskCommandLine.of(model)
                .ifPresentOrElse(
                        ThingMenu::copy,
                        () ->
                                model.notes()
                                        .add(
                                                model,
                                                "No command asks for just these pads: name one"
                                                        + " pad, a header or a bank."));
    }

    private static BooleanBinding isOpen(WindowModel model) {
        return Bindings.createBooleanBinding(
                () -> model.openedProperty().get().isPresent(), model.openedProperty());
    }

    private static BooleanBinding anyKept(WindowModel model) {
        return Bindings.createBooleanBinding(
                () -> model.keptProperty().get().filter(d -> !d.entries().isEmpty()).isPresent(),
                model.keptProperty());
    }

    /** Opens the bench sheet of the kept changes. */
    static Action sheet(WindowModel model, Runnable open) {
        return Action.of(
                        "sheet",
                        Action.Group.FILE,
                        "Bench sheet…",
                        "Shortcut+P",
                        "Shows the page to take to the bench, for printing or export",
                        open)
                .when(anyKept(model));
    }

    static List<Action> questions(WindowModel model) {
        BooleanBinding canTry =
                Bindings.createBooleanBinding(
                        () ->
                                model.shown().whatIfProperty().get().isEmpty()
                                        && !model.busyProperty().get()
                                        && model.shown().asAskedProperty().getValue()
                                        && isTriable(model),
                        model.shown().whatIfProperty(),
                        model.shown().asAskedProperty(),
                        model.busyProperty(),
                        model.shown().answerProperty());
        BooleanBinding canChoose =
                Bindings.createBooleanBinding(
                        () ->
                                model.shown().whatIfProperty().get().isEmpty()
                                        && model.shown().options().size() > 1,
                        model.shown().whatIfProperty(),
                        model.shown().answerProperty());
        BooleanBinding several = Bindings.size(model.questions().all()).greaterThan(1);
        BooleanBinding inWhatIf =
                Bindings.createBooleanBinding(
                        () -> model.shown().whatIfProperty().get().isPresent(),
                        model.shown().whatIfProperty());
        BooleanBinding canKeep =
                Bindings.createBooleanBinding(
                        () ->
                                inWhatIf.get()
                                        && model.shown().asAskedProperty().getValue()
                                        && model.shown().isAccepted(),
                        inWhatIf,
                        model.shown().whatIfProperty(),
                        model.shown().acceptedProperty(),
                        model.shown().asAskedProperty());
        BooleanBinding canUndo =
                Bindings.createBooleanBinding(
                        () -> model.history().nextUndoProperty().get().isPresent(),
                        model.history().nextUndoProperty());
        BooleanBinding canRedo =
                Bindings.createBooleanBinding(
                        () -> model.history().nextRedoProperty().get().isPresent(),
                        model.history().nextRedoProperty());
        return List.of(
                question(
                        "ask",
                        "Ask",
                        "",
                        "Asks for a route from the net to the pad",
                        model.shown()::ask),
                question(
                                "try",
                                "Try it",
                                "Shortcut+T",
                                "Shows the change on a copy of the design; then keep or drop it",
                                model.shown()::tryIt)
                        .when(canTry),
                question(
                                "another-option",
                                "Another option",
                                "",
                                "Shows the next option to unblock the route",
                                () -> nextOption(model))
                        .when(canChoose),
                question(
                                "keep",
                                "Keep",
                                "Shortcut+K",
                                "Keeps the what-if; the design file is not changed",
                                model::keep)
                        .when(canKeep),
                question("drop", "Drop", "", "Drops the what-if", model::drop).when(inWhatIf),
                question("undo", "Undo", "Shortcut+Z", "Undoes the last step", model::undo)
                        .when(canUndo),
                question(
                                "redo",
                                "Redo",
                                "Shortcut+Shift+Z Shortcut+Y",
                                "Repeats the step that was undone last",
                                model::redo)
                        .when(canRedo),
                question(
                                "copy-command",
                                "Copy as command",
                                "Shortcut+Shift+C",
                                "Copies the command that asks this question in a terminal or script",
                                () -> copyCommand(model))
                        .when(hasNet(model)),
                question("stop", "Stop", "Escape", "Stops the running work", model::cancel),
                question(
                        "new-question",
                        "New question",
                        "Shortcut+N",
                        "Opens another question in a new tab",
                        () -> model.questions().open("")),
                question(
                        "same-net",
                        "Same net, another pad",
                        "Shortcut+Shift+N",
                        "Opens another question about the same net",
                        () -> model.questions().open(model.shown().netTextProperty().get())),
                question(
                        "close-question",
                        "Close question",
                        "Shortcut+W",
                        "Closes this question; Undo brings it back",
                        () -> model.questions().close(model.shown().question())),
                question(
                                "next-question",
                                "Next question",
                                "Shortcut+Page_Down",
                                "Shows the question to the right",
                                () -> model.questions().step(1))
                        .when(several),
                question(
                                "previous-question",
                                "Previous question",
                                "Shortcut+Page_Up",
                                "Shows the question to the left",
                                () -> model.questions().step(-1))
                        .when(several));
    }

    private static void nextOption(WindowModel model) {
        model.shown()
                .optionProperty()
                .set((model.shown().optionProperty().get() + 1) % model.shown().options().size());
    }

    /** Shows the list of pads, where another one can be asked about. */
    static Action anotherPad(WindowModel model, Runnable show) {
        return question(
                        "another-pad",
                        "Another pad",
                        "",
                        "Shows the list of all pads for this net, best first",
                        show)
                .when(
                        Bindings.createBooleanBinding(
                                () -> model.shown().answerProperty().get().isPresent(),
                                model.shown().answerProperty()));
    }

    private static Action question(
            String id, String text, String keys, String purpose, Runnable work) {
        return Action.of(id, Action.Group.QUESTION, text, keys, purpose, work);
    }

    private static boolean isTriable(WindowModel model) {
        Answer answer = model.shown().answerProperty().get().orElse(null);
        return answer instanceof Answer.FreeRoute open && !AnswerEdits.isThere(open)
                || answer instanceof Answer.Blocked blocked && blocked.why().isPresent();
    }

    static List<Action> looks(AppearanceModel look) {
        return List.of(
                look(
                                "dark",
                                "Dark",
                                "Shortcut+D",
                                "Switches between the light and the dark theme",
                                () -> look.darkProperty().set(!look.darkProperty().get()))
                        .marking(look.darkProperty()),
                look(
                                "side",
                                "Lists",
                                "Shortcut+B",
                                "Shows or hides the lists next to the map",
                                () -> look.listsProperty().set(!look.listsProperty().get()))
                        .marking(look.listsProperty()),
                look(
                                "reasons",
                                "Reasons",
                                "Shortcut+R",
                                "Shows or hides the reasons under the answer, with links to what they name",
                                () -> look.reasonsProperty().set(!look.reasonsProperty().get()))
                        .marking(look.reasonsProperty()),
                look(
                        "larger-text",
                        "Larger text",
                        "Shortcut+Plus Shortcut+Equals Shortcut+Add Shortcut+Shift+Equals",
                        "Makes all text larger",
                        () -> look.setTextSize(look.textSizeProperty().get() + 1)),
                look(
                        "smaller-text",
                        "Smaller text",
                        "Shortcut+Minus Shortcut+Subtract",
                        "Makes all text smaller",
                        () -> look.setTextSize(look.textSizeProperty().get() - 1)),
                look(
                        "default-text",
                        "Default text size",
                        "Shortcut+Digit0 Shortcut+Numpad0",
                        "Resets all text to its default size",
                        () -> look.setTextSize(AppearanceModel.DEFAULT_TEXT)));
    }

    private static Action look(String id, String text, String keys, String purpose, Runnable work) {
        return Action.of(id, Action.Group.VIEW, text, keys, purpose, work);
    }
}
