package padward.ui.play;

import java.util.Optional;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.format.design.Demo;
import padward.lesson.recording.RecordedRounds;
import padward.ui.design.OpenDesign;
import padward.ui.model.GroupFieldsParser;
import padward.ui.model.WindowModel;
import padward.ui.work.JobSlot;

/**
 * The recordings to play: the searches of the present question, recorded while the panel is
 * visible, and the rounds in which a group was routed. Has no controls and no canvas.
 */
final class Recordings {
    /** The group of the worked example. */
    static final String EXAMPLE_NETS = "signal*";

    static final String EXAMPLE_PADS = "D*";

    private final WindowModel model;
    private final JobSlot job;
    private final JobSlot routing;
    private final BooleanProperty wanted = new SimpleBooleanProperty(false);
    private final ObjectProperty<Optional<PlayedSearches>> searches =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<NegotiationPlayer>> rounds =
            new SimpleObjectProperty<>(Optional.empty());
    private boolean example;

    Recordings(WindowModel model) {
        this.model = model;
        this.job = new JobSlot(model.jobs(), this);
        this.routing = new JobSlot(model.jobs(), rounds);
        wanted.addListener((p, old, now) -> recordIfWanted());
        model.shown()
                .answerProperty()
                .addListener(
                        (p, old, now) -> {
                            job.cancel();
                            searches.set(Optional.empty());
                            recordIfWanted();
                        });
        model.openedProperty().addListener((p, old, now) -> opened());
    }

    private void recordIfWanted() {
        Optional<Answer> answer = model.shown().answerProperty().get();
        if (wanted.get() && answer.isPresent() && searches.get().isEmpty()) {
            job.start(
                    "Recording the searches",
                    progress -> PlayedSearches.of(answer.get(), progress),
                    result -> searches.set(Optional.of(result)));
        }
    }

    /**
     * Opens a tiny invented design in which three nets want the same wires, and records their
     * negotiation.
     */
    void recordWorkedExample() {
        example = true;
        model.openLesson(progress -> Demo.openNarrows());
    }

    private void opened() {
        routing.cancel();
        rounds.set(Optional.empty());
        boolean record =
                example
                        && model.openedProperty()
                                .get()
                                .filter(o -> o.design().name().equals("narrows"))
                                .isPresent();
        example = false;
        if (record) {
            recordGroup(EXAMPLE_NETS, EXAMPLE_PADS);
        }
    }

    /** Brings several nets out together and records the rounds. */
    void recordGroup(String nets, String pads) {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            return;
        }
        Design design = opened.get().design();
        routing.start(
                "Routing the nets together",
                progress ->
                        RecordedRounds.of(
                                design,
                                GroupFieldsParser.nets(design, nets),
                                GroupFieldsParser.pads(design, pads),
                                progress),
                result -> rounds.set(Optional.of(new NegotiationPlayer(result))));
    }

    /** Whether the panel is visible: only then are searches recorded. */
    BooleanProperty wantedProperty() {
        return wanted;
    }

    /** The searches of the question; empty until they are recorded. */
    ReadOnlyObjectProperty<Optional<PlayedSearches>> searchesProperty() {
        return searches;
    }

    /** The rounds of a group of the open design; empty until one has been routed. */
    ReadOnlyObjectProperty<Optional<NegotiationPlayer>> roundsProperty() {
        return rounds;
    }
}
