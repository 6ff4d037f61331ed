package padward.ui;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.BadInput;
import padward.breakout.Answer;
import padward.breakout.Asker;
import padward.breakout.Question;
import padward.breakout.Way;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.Corner;
import padward.format.DesignReader;

/** What the window knows: the design, the question, the answer, a note. No control, no canvas. */
public final class ExplorerModel {
    private final Background background;
    private final ObjectProperty<Optional<Opened>> opened =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> answer =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Integer>> selectedHop =
            new SimpleObjectProperty<>(Optional.empty());
    private final StringProperty netText = new SimpleStringProperty("");
    private final StringProperty padText = new SimpleStringProperty("");
    private final ObjectProperty<Corner> corner = new SimpleObjectProperty<>(Corner.SLOW);
    private final StringProperty note = new SimpleStringProperty("");
    private final BooleanProperty busy = new SimpleBooleanProperty(false);
    private Background.Job running = () -> {};

    ExplorerModel(Background background) {
        this.background = background;
    }

    /** Opens a design's file in place of the present one, which stays if the file is at fault. */
    public void open(Path file) {
        start(progress -> new Opened(DesignReader.read(file, progress)), this::show);
    }

    /** Opens what a reader yields. */
    void openFrom(Background.Work<Design> reader) {
        start(progress -> new Opened(reader.run(progress)), this::show);
    }

    private void show(Opened next) {
        opened.set(Optional.of(next));
        answer.set(Optional.empty());
        selectedHop.set(Optional.empty());
        netText.set("");
        padText.set("");
    }

    /** Asks the question that the fields state. A question still being answered is given up. */
    public void ask() {
        if (opened.get().isEmpty()) {
            note.set("Open a design first (Ctrl+O), then ask.");
            return;
        }
        Design design = opened.get().get().design();
        try {
            Question question = new Question(design, net(design), pad(design), corner.get());
            start(
                    progress -> Asker.ask(question, progress),
                    result -> {
                        selectedHop.set(Optional.empty());
                        answer.set(Optional.of(result));
                    });
        } catch (BadInput fault) {
            answer.set(Optional.empty());
            note.set(fault.getMessage());
        }
    }

    private Net net(Design design) throws BadInput {
        String text = netText.get().strip();
        Optional<Net> exact = design.findNet(text);
        if (exact.isPresent()) {
            return exact.get();
        }
        List<String> fitting = Suggestions.of(text, opened.get().orElseThrow().netNames());
        if (fitting.size() == 1 && !text.isEmpty()) {
            netText.set(fitting.get(0));
            return design.findNet(fitting.get(0)).orElseThrow();
        }
        throw new BadInput(
                "net",
                "",
                "the name of a net, or a pattern that fits only one",
                found(text, fitting.size()));
    }

    private int pad(Design design) throws BadInput {
        String text = padText.get().strip();
        List<Integer> fitting = PadNames.find(design, text);
        if (fitting.size() == 1) {
            return fitting.get(0);
        }
        throw new BadInput(
                "pad",
                "",
                "one pad, by its name, package pin, port, board net or header pin",
                found(text, fitting.size()));
    }

    private static String found(String text, int fitting) {
        if (text.isEmpty()) {
            return "nothing";
        }
        return "“" + text + "”" + (fitting > 1 ? ", which fits several" : ", which fits none");
    }

    /** Stops what is running. */
    public void cancel() {
        running.cancel();
        busy.set(false);
    }

    private <T> void start(Background.Work<T> work, Consumer<T> then) {
        running.cancel();
        note.set("");
        busy.set(true);
        running =
                background.start(
                        work,
                        result -> {
                            busy.set(false);
                            then.accept(result);
                        },
                        fault -> {
                            busy.set(false);
                            note.set(plain(fault));
                        });
    }

    private static String plain(Exception fault) {
        return fault instanceof BadInput
                ? fault.getMessage()
                : "Something went wrong in Padward itself: " + fault;
    }

    /** The way of the present answer. */
    Optional<Way> way() {
        return answer.get()
                .flatMap(
                        a -> {
                            if (a instanceof Answer.Open open) {
                                return Optional.of(open.way());
                            }
                            return a instanceof Answer.Blocked blocked
                                    ? Optional.of(blocked.way())
                                    : Optional.empty();
                        });
    }

    ReadOnlyObjectProperty<Optional<Opened>> openedProperty() {
        return opened;
    }

    /** The present answer. */
    public ReadOnlyObjectProperty<Optional<Answer>> answerProperty() {
        return answer;
    }

    /** Index of the hop that is selected in the way. */
    ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
    }

    /** What stands in the net's field. */
    public StringProperty netTextProperty() {
        return netText;
    }

    /** What stands in the pad's field. */
    public StringProperty padTextProperty() {
        return padText;
    }

    /** The corner that is asked for. */
    public ObjectProperty<Corner> cornerProperty() {
        return corner;
    }

    /** A message about something that did not work; empty when all is well. */
    public StringProperty noteProperty() {
        return note;
    }

    /** Whether work is going on. */
    public BooleanProperty busyProperty() {
        return busy;
    }
}
