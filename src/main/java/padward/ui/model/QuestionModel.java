package padward.ui.model;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.change.Edit;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.ui.work.JobSlot;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;

/**
 * One question: its net, pad and corner, the answer, and a what-if that waits to be kept or
 * dropped. The selection in the answer and the survey of its net have models of their own.
 *
 * <p>The fields are what the user is typing; {@link Asked} is what was asked. An answer belongs to
 * what was asked and to one version of what is open: when that changes, the answer goes at once and
 * the question is owed another one.
 */
public final class QuestionModel {
    /**
     * A question as it was asked.
     *
     * @param net full name of the net
     * @param pad text of the pad's field
     * @param corner the corner
     */
    record Asked(String net, String pad, Corner corner) {}

    /** What a question is about. */
    public enum About {
        /** One net and one pad. */
        ONE_PAD,
        /** One net, and any of several pads. */
        ANY_PAD,
        /** One pad, and any net. */
        ANY_NET
    }

    /**
     * What was asked for.
     *
     * @param about of which kind
     * @param pads the pads that were named; empty for all
     * @param corner the corner at which delays are compared
     */
    public record Scope(About about, List<Integer> pads, Corner corner) {
        /** Before anything was asked. */
        static final Scope ONE_PAD = new Scope(About.ONE_PAD, List.of(), Corner.SLOW);

        /** Copies the pads. */
        public Scope {
            pads = List.copyOf(pads);
        }
    }

    private final Supplier<Optional<WorkState>> open;
    private final Notes notes;
    private final JobSlot asking;
    private final SurveyModel survey;
    private final JobSlot naming;
    private final AnswerSelection focus;
    private final StringProperty netText = new SimpleStringProperty("");
    private final StringProperty padText = new SimpleStringProperty("");
    private final ObjectProperty<Corner> corner = new SimpleObjectProperty<>(Corner.SLOW);
    private final ObjectProperty<Optional<Asked>> asked =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Scope> scope = new SimpleObjectProperty<>(Scope.ONE_PAD);

    /** A question whose names are being looked up; it is owed an answer though nothing is asked. */
    private Optional<Asked> beingNamed = Optional.empty();

    private boolean namedFromFields;

    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper asAsked = new ReadOnlyBooleanWrapper(true);
    private final ObjectProperty<Optional<Answer>> answer =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<NameOffers>> offers =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Boolean> accepted = new SimpleObjectProperty<>(false);
    private final ObjectProperty<Optional<PendingWhatIf>> whatIf =
            new SimpleObjectProperty<>(Optional.empty());

    /**
     * @param open supplies what is open
     * @param jobs runs its work
     */
    QuestionModel(Supplier<Optional<WorkState>> open, Jobs jobs) {
        this.open = open;
        this.notes = jobs.notes();
        this.asking = new JobSlot(jobs, this);
        this.naming = new JobSlot(jobs, this);
        this.survey = new SurveyModel(new JobSlot(jobs, this));
        this.focus = new AnswerSelection(answer, whatIf);
        busy.bind(asking.busyProperty().or(naming.busyProperty()));
        whatIf.addListener((p, old, now) -> accepted.set(false));
        netText.addListener((p, old, now) -> compareFields());
        padText.addListener((p, old, now) -> compareFields());
        corner.addListener((p, old, now) -> compareFields());
        asked.addListener((p, old, now) -> compareFields());
    }

    private void compareFields() {
        // What is typed over before it is understood is not waited for any more.
        beingNamed = beingNamed.filter(a -> !namedFromFields || a.equals(fields()));
        asAsked.set(asked.get().isEmpty() || asked.get().get().equals(fields()));
    }

    private Asked fields() {
        return new Asked(netText.get().strip(), padText.get().strip(), corner.get());
    }

    /** Asks the question in the fields. A question still being answered is cancelled. */
    void ask() {
        if (open.get().isEmpty()) {
            notes.add(this, "Open a design first (Ctrl+O), then ask.");
            return;
        }
        ask(fields());
    }

    /** Asks again what was asked and is not answered yet. */
    void askOwed() {
        if (beingNamed.isPresent()) {
            ask(beingNamed.get());
        } else {
            asked.get().filter(a -> isOwed()).ifPresent(this::ask);
        }
    }

    /**
     * Asks. A name that does not mean one thing leads to offers; an answer that is there stays
     * until there is a new one.
     */
    private void ask(Asked next) {
        WorkState on = open.get().orElseThrow();
        boolean inFields = next.equals(fields());
        Design design = on.opened().design();
        notes.dismissAbout(this);
        naming.cancel();
        beingNamed = Optional.empty();
        if (next.net().isEmpty() || design.findNet(next.net()).isPresent()) {
            ask(on, next, inFields);
            return;
        }
        beingNamed = Optional.of(next);
        namedFromFields = inFields;
        // all names are looked at, of which there may be a million
        naming.start(
                "Looking up names",
                progress -> NameOffers.NamedNet.find(design, next.net(), next.pad()),
                named -> {
                    beingNamed = Optional.empty();
                    if (inFields && !next.equals(fields()) || open.get().isEmpty()) {
                        return; // something else is typed by now
                    }
                    if (open.get().get() != on) {
                        ask(next);
                    } else if (named.offers().isPresent()) {
                        offers.set(named.offers());
                    } else {
                        ask(on, new Asked(named.name(), next.pad(), next.corner()), inFields);
                    }
                });
    }

    /** Asks about the net of a full name. */
    private void ask(WorkState on, Asked wanted, boolean inFields) {
        offers.set(NameOffers.find(on.opened().design(), wanted.net(), wanted.pad()));
        if (offers.get().isPresent()) {
            return;
        }
        try {
            List<Integer> pads = GroupFieldsParser.anyOf(on.opened().design(), wanted.pad());
            if (wanted.net().isEmpty()) {
                askForAnyNet(wanted, pads);
                return;
            }
            if (wanted.pad().isEmpty() || pads.size() > 1) {
                askForAnyPad(on, wanted, pads, inFields);
                return;
            }
            scope.set(new Scope(About.ONE_PAD, List.of(), wanted.corner()));
            Question question = question(on, wanted, pads);
            Asked named = new Asked(question.net().name(), wanted.pad(), wanted.corner());
            if (inFields) {
                netText.set(named.net());
            }
            asked.set(Optional.of(named));
            survey.cancelUnlessFor(question);
            asking.start("Asking", progress -> Asker.ask(question, progress), this::show);
        } catch (BadInput fault) {
            forgetAnswer();
            asked.set(Optional.empty());
            notes.dismissAbout(this);
            notes.add(this, fault);
        }
    }

    /** A header, bank or pattern of one pad means that pad, which has another name. */
    private static Question question(WorkState on, Asked wanted, List<Integer> pads)
            throws BadInput {
        Design design = on.opened().design();
        return pads.size() == 1
                ? new Question(
                        design,
                        NameLookup.requireNet(design, wanted.net(), "net"),
                        pads.get(0),
                        wanted.corner())
                : QuestionFieldsParser.read(
                        on.opened(), wanted.net(), wanted.pad(), wanted.corner());
    }

    /** A pad alone asks which nets reach it: the list of nets says so of those that it shows. */
    private void askForAnyNet(Asked wanted, List<Integer> pads) {
        forgetAnswer();
        scope.set(new Scope(About.ANY_NET, pads, wanted.corner()));
        asked.set(Optional.of(wanted));
    }

    /** A net alone asks for all pads, a header for any of its pins: the survey is the answer. */
    private void askForAnyPad(WorkState on, Asked wanted, List<Integer> pads, boolean inFields)
            throws BadInput {
        Design design = on.opened().design();
        Net net = NameLookup.requireNet(design, wanted.net(), "net");
        if (design.fabric().pads().isEmpty()) {
            forgetAnswer();
            asked.set(Optional.empty());
            notes.add(
                    this,
                    "The open design's device has no pads, so no net can be brought out. Open"
                            + " another design (Ctrl+O).");
            return;
        }
        Asked named = new Asked(net.name(), wanted.pad(), wanted.corner());
        scope.set(new Scope(About.ANY_PAD, pads, wanted.corner()));
        if (inFields) {
            netText.set(named.net());
        }
        notes.dismissAbout(this);
        asking.cancel();
        answer.set(Optional.empty());
        resetSelection();
        asked.set(Optional.of(named));
        survey.survey(new Question(design, net, 0, wanted.corner()));
    }

    /** The route of its answer, if there is one. */
    public Optional<Route> findRoute() {
        return focus.route();
    }

    /** Whether something blocks that route; not with a what-if that unblocks it. */
    public boolean isBlocked() {
        return whatIf.get().isEmpty() && answer.get().orElse(null) instanceof Answer.Blocked;
    }

    /** What blocks that route. */
    public List<Obstacle> findObstacles() {
        return focus.obstacles();
    }

    /** Names to choose from, where one that was asked for does not mean one thing. */
    ObjectProperty<Optional<NameOffers>> offersProperty() {
        return offers;
    }

    /** Whether a net was asked for on any of several pads: then these are listed. */
    public boolean isForAnyPad() {
        return asked.get().isPresent() && scope.get().about() == About.ANY_PAD;
    }

    /** What was asked for. */
    public ReadOnlyObjectProperty<Scope> scopeProperty() {
        return scope;
    }

    /** Asks about the pad of a surveyed answer. */
    void askFor(Answer surveyed) {
        padText.set(surveyed.question().padValue().name());
        netText.set(surveyed.question().net().name());
        ask();
    }

    /**
     * Cancels its running work and drops its results; what was asked stays, also where its names
     * were still being looked up. For a question that is closed, or whose answer was about
     * something else than what is open now.
     */
    void forgetAnswer() {
        naming.cancel();
        asking.cancel();
        survey.clear();
        answer.set(Optional.empty());
        resetSelection();
    }

    private void resetSelection() {
        focus.clearHops();
        whatIf.set(Optional.empty());
        focus.optionProperty().set(0);
    }

    /** Clears everything, for another design. */
    void clear() {
        forgetAnswer();
        beingNamed = Optional.empty();
        offers.set(Optional.empty());
        scope.set(Scope.ONE_PAD);
        asked.set(Optional.empty());
        netText.set("");
        padText.set("");
    }

    /** What was asked in full, and whether the fields say something else by now. */
    public String toText() {
        Asked named = asked.get().orElseGet(this::fields);
        String text = text(named);
        return asAsked.get() ? text : text + ". The fields say something else, not asked yet.";
    }

    /** What was asked, in full; empty when nothing was. */
    public String toAskedText() {
        return asked.get().map(QuestionModel::text).orElse("");
    }

    private static String text(Asked asked) {
        return (asked.net().isEmpty() ? "any net" : asked.net())
                + (asked.pad().isEmpty() ? "" : " on " + asked.pad());
    }

    /** Whether it was asked and has no answer. */
    public boolean isOwed() {
        return beingNamed.isPresent() || isAskedAndOwed();
    }

    private boolean isAskedAndOwed() {
        return asked.get().isPresent()
                && answer.get().isEmpty()
                && scope.get().about() != About.ANY_NET
                && !(isForAnyPad() && survey.isBegun());
    }

    /** The contents of its fields. */
    QuestionsModel.Stated stated() {
        return new QuestionsModel.Stated(
                netText.get(),
                padText.get(),
                corner.get(),
                asked.get().isPresent() && asAsked.get());
    }

    /** Fills the fields. */
    void state(QuestionsModel.Stated stated) {
        netText.set(stated.net());
        padText.set(stated.pad());
        corner.set(stated.corner());
        asked.set(stated.asked() ? Optional.of(fields()) : Optional.empty());
    }

    /**
     * The question in a few words: the last part of the net name and the pad, if given. Once it was
     * asked, this is what was asked, whatever the fields say.
     */
    public String title() {
        Asked named = asked.get().orElseGet(this::fields);
        String net = named.net();
        String pad = named.pad();
        if (net.isEmpty() && pad.isEmpty()) {
            return "new question";
        }
        String part = net.substring(net.lastIndexOf('/') + 1);
        if (isForAnyPad()) {
            return part + " on any pad" + (pad.isEmpty() ? "" : " of " + pad);
        }
        if (asked.get().isPresent() && net.isEmpty()) {
            return "any net on " + pad;
        }
        return (part.isEmpty() ? "…" : part) + " on " + (pad.isEmpty() ? "…" : pad);
    }

    /** Shows an answer about what is open now. */
    void show(Answer result) {
        asking.cancel();
        resetSelection();
        answer.set(Optional.of(result));
        survey.survey(result.question());
    }

    /**
     * Tries the answer: unblocks the route by the selected option if that is necessary, brings the
     * net out, and asks again. Not while the fields say something else than was asked.
     */
    void tryIt() {
        if (answer.get().isPresent() && whatIf.get().isEmpty() && asAsked.get()) {
            tryEdits(focus.edits());
        }
    }

    /** Tries the same edits as before, unless something else has been asked since. */
    void tryAgain(Asked before, List<Edit> edits) {
        if (asked.get().filter(before::equals).isPresent() && whatIf.get().isEmpty()) {
            tryEdits(edits);
        }
    }

    private void tryEdits(List<Edit> edits) {
        if (edits.isEmpty() || answer.get().isEmpty()) {
            return;
        }
        WorkState on = open.get().orElseThrow();
        Answer before = answer.get().get();
        asking.start(
                "Trying the change",
                progress -> PendingWhatIf.of(on, before, edits, progress),
                tried -> whatIf.set(Optional.of(tried)));
    }

    /** Whether the user has accepted what the what-if does on the board. */
    ObjectProperty<Boolean> boundAccepted() {
        return accepted;
    }

    /** Drops the what-if; nothing is changed. */
    void drop() {
        whatIf.set(Optional.empty());
    }

    /** The selection in the answer. */
    AnswerSelection focus() {
        return focus;
    }

    /** The survey of the net. */
    SurveyModel survey() {
        return survey;
    }

    /** Text of the net field. */
    public StringProperty netTextProperty() {
        return netText;
    }

    /** Text of the pad field. */
    public StringProperty padTextProperty() {
        return padText;
    }

    /** The corner that is asked for. */
    ObjectProperty<Corner> cornerProperty() {
        return corner;
    }

    /** What was asked last. */
    ReadOnlyObjectProperty<Optional<Asked>> askedProperty() {
        return asked;
    }

    /** Whether the fields say what was asked; also when nothing was. */
    public ReadOnlyBooleanProperty asAskedProperty() {
        return asAsked.getReadOnlyProperty();
    }

    /** The answer to what was asked. */
    public ReadOnlyObjectProperty<Optional<Answer>> answerProperty() {
        return answer;
    }

    /** The what-if that waits to be kept or dropped. */
    public ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIfProperty() {
        return whatIf;
    }

    /** Whether it is being answered or tried out. */
    public ReadOnlyBooleanProperty busyProperty() {
        return busy.getReadOnlyProperty();
    }

    /** For the question that is shown, which is bound to these. */
    ObjectProperty<Optional<Answer>> boundAnswer() {
        return answer;
    }

    /** For the question that is shown, which is bound to these. */
    ObjectProperty<Optional<PendingWhatIf>> boundWhatIf() {
        return whatIf;
    }
}
