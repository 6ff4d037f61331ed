package padward.ui.watch;

import java.util.List;
import java.util.Optional;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.BadInput;
import padward.breakout.text.PriceText;
import padward.design.Design;
import padward.ui.design.OpenDesign;
import padward.ui.model.WindowModel;
import padward.ui.model.WorkState;
import padward.ui.work.BackgroundWork;
import padward.ui.work.JobSlot;
import padward.watch.condition.ConditionNetNames;
import padward.watch.condition.ConditionParser;
import padward.watch.request.CircuitRequest;
import padward.watch.request.ReducedRequest;

/** A watch circuit: what is asked, what came of it, and keeping it. Knows no controls. */
public final class WatchModel {
    private final WindowModel model;
    private final JobSlot job;
    private final WatchFields fields = new WatchFields();
    private final NameWords words;
    private final ObjectProperty<Optional<WatchOutcome>> outcome =
            new SimpleObjectProperty<>(Optional.empty());
    private final ReadOnlyBooleanWrapper asAsked = new ReadOnlyBooleanWrapper(true);
    private final BooleanProperty accepted = new SimpleBooleanProperty();
    private final StringProperty kept = new SimpleStringProperty("");
    private final ObjectProperty<Optional<BadInput>> whenFault =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<BadInput>> resetFault =
            new SimpleObjectProperty<>(Optional.empty());
    private BackgroundWork.Job checkingWhen = () -> {};
    private BackgroundWork.Job checkingReset = () -> {};
    private Optional<Stated> asked = Optional.empty();

    /**
     * What the fields say.
     *
     * @param request the circuit
     * @param own the files of a circuit of the user's own
     * @param pads names of the pads
     * @param mayMove whether nets that are there may be rerouted
     */
    private record Stated(
            CircuitRequest request, Optional<OwnFiles> own, List<String> pads, boolean mayMove) {}

    /** A watch circuit for the open design. */
    public WatchModel(WindowModel model) {
        this.model = model;
        this.job = new JobSlot(model.jobs(), this);
        this.words = new NameWords(model);
        model.openedProperty().addListener((p, old, now) -> openChanged());
        fields.addListener(() -> asAsked.set(asked.map(stated()::equals).orElse(true)));
        fields.whenProperty().addListener((p, old, now) -> checkWhen());
        fields.resetProperty().addListener((p, old, now) -> checkReset());
    }

    private Stated stated() {
        return new Stated(
                fields.request(), fields.own(), fields.padNames(), fields.mayMoveProperty().get());
    }

    private void openChanged() {
        forget();
        checkWhen();
        checkReset();
    }

    private void forget() {
        job.cancel();
        asked = Optional.empty();
        asAsked.set(true);
        accepted.set(false);
        kept.set("");
        outcome.set(Optional.empty());
    }

    private void checkWhen() {
        checkingWhen.cancel();
        checkingWhen = check("--when", fields.whenProperty().get(), whenFault);
    }

    private void checkReset() {
        checkingReset.cancel();
        checkingReset = check("--reset", fields.resetProperty().get(), resetFault);
    }

    /** Reads a condition away from the UI thread: to look up a name may take a while. */
    private BackgroundWork.Job check(
            String option, String text, ObjectProperty<Optional<BadInput>> result) {
        // A fault that was found before is about another text.
        result.set(Optional.empty());
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty() || text.isBlank()) {
            return () -> {};
        }
        ConditionNetNames names = ConditionNetNames.of(opened.get().design());
        return model.jobs()
                .background()
                .start(
                        progress -> fault(option, text, names),
                        result::set,
                        unexpected -> result.set(Optional.empty()));
    }

    private static Optional<BadInput> fault(String option, String text, ConditionNetNames names) {
        try {
            ConditionParser.parse(option, text, names);
            return Optional.empty();
        } catch (BadInput fault) {
            return Optional.of(fault);
        }
    }

    /** Asks for the circuit in the fields; one that is still being placed is stopped. */
    void ask() {
        ask(false);
    }

    private void ask(boolean moving) {
        Optional<WorkState> on = model.design().state();
        if (on.isEmpty()) {
            model.notes().add(this, "Open a design first (Ctrl+O), then ask.");
            return;
        }
        forget();
        Stated wanted = stated();
        WatchAsking asking =
                new WatchAsking(
                        on.get(),
                        wanted.request(),
                        wanted.own(),
                        wanted.pads(),
                        wanted.mayMove() || moving);
        job.start(
                "Placing the circuit",
                asking::answer,
                result -> {
                    asked = Optional.of(wanted);
                    asAsked.set(stated().equals(wanted));
                    outcome.set(Optional.of(result));
                    if (result instanceof WatchOutcome.DoesNotFit not) {
                        lookForHelp(asking, not);
                    }
                });
    }

    /** That it does not fit is shown by now: what would help takes as long again. */
    private void lookForHelp(WatchAsking asking, WatchOutcome.DoesNotFit not) {
        job.start(
                "Looking what would make it fit",
                progress -> asking.withHelp(not, progress),
                result -> outcome.set(Optional.of(result)));
    }

    /** Asks again without a register before the pad. */
    void askWithoutRegister() {
        fields.registeredProperty().set(false);
        ask();
    }

    /** Asks again with the first of the nets only, which the fields show from now on. */
    void askWithFewerNets() {
        if (outcome.get().orElse(null) instanceof WatchOutcome.DoesNotFit not) {
            boolean moving = not.question().mayMove();
            not.fewer().map(ReducedRequest::request).ifPresent(f -> askFor(f, moving));
        }
    }

    private void askFor(CircuitRequest fewer, boolean moving) {
        fields.netsProperty().set(String.join(", ", fewer.nets()));
        fields.steerProperty().set(String.join(", ", fewer.steer()));
        fields.registeredProperty().set(fewer.registered());
        ask(moving);
    }

    /**
     * Asks again, with other nets and cells moved where it does not fit otherwise. This once: the
     * field stays as it is, for the circuits that come.
     */
    void askMoving() {
        ask(true);
    }

    /** Keeps the circuit: the design is shown with it from now on. */
    void keep() {
        if (!(outcome.get().orElse(null) instanceof WatchOutcome.Fits fits)
                || !asAsked.get()
                || !isAccepted()) {
            return;
        }
        if (model.design()
                .keep(
                        fits.version(),
                        fits.entry().accepting(PriceText.words(fits.price().toAccept())),
                        fits.opened())) {
            kept.set("Kept: " + fits.entry().what() + ". Ctrl+Z takes the circuit out again.");
        }
    }

    /** Takes the circuit off the map; nothing is changed. */
    void drop() {
        forget();
    }

    /** Whether it costs nothing that must be accepted, or that is. */
    boolean isAccepted() {
        return accepted.get()
                || !(outcome.get().orElse(null) instanceof WatchOutcome.Fits fits)
                || fits.price().toAccept().isEmpty();
    }

    /** The circuit that fits and waits to be kept, if there is one. */
    Optional<WatchOutcome.Fits> fitting() {
        return outcome.get()
                .filter(WatchOutcome.Fits.class::isInstance)
                .map(WatchOutcome.Fits.class::cast);
    }

    WatchFields fields() {
        return fields;
    }

    /** The names that fields offer. */
    NameWords words() {
        return words;
    }

    /** What came of the last question. */
    ReadOnlyObjectProperty<Optional<WatchOutcome>> outcomeProperty() {
        return outcome;
    }

    /** Whether the fields say what was asked; also when nothing was. */
    ReadOnlyBooleanProperty asAskedProperty() {
        return asAsked.getReadOnlyProperty();
    }

    /** Whether the user has accepted what it does on the board. */
    BooleanProperty acceptedProperty() {
        return accepted;
    }

    /** That a circuit was kept; empty from the next question on. */
    ReadOnlyStringProperty keptProperty() {
        return kept;
    }

    /** What is wrong with the condition as far as it is typed. */
    ReadOnlyObjectProperty<Optional<BadInput>> whenFaultProperty() {
        return whenFault;
    }

    /** What is wrong with the condition for the reset. */
    ReadOnlyObjectProperty<Optional<BadInput>> resetFaultProperty() {
        return resetFault;
    }

    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }

    /** The window's model. */
    WindowModel window() {
        return model;
    }

    /** The design that is open, if there is one. */
    Optional<Design> design() {
        return model.openedProperty().get().map(OpenDesign::design);
    }
}
