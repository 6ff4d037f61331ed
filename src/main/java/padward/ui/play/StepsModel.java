package padward.ui.play;

import java.util.Optional;
import java.util.OptionalInt;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.lesson.recording.PlayedSearch;
import padward.ui.map.MapModel;
import padward.ui.model.WindowModel;

/**
 * What is played: which recording, at which step, at which speed. A* and Dijkstra are played side
 * by side, with the same number of settled vertices in both. Has no controls and no canvas.
 */
public final class StepsModel {
    /** Highest speed: settled vertices, expanded labels or rounds per second. */
    static final int MAX_SPEED = 60;

    private static final int USUAL_SPEED = 8;

    private final WindowModel model;
    private final MapModel map;
    private final Recordings recordings;
    private final ObjectProperty<PlayKind> kind = new SimpleObjectProperty<>(PlayKind.A_STAR);
    private final IntegerProperty part = new SimpleIntegerProperty(0);
    private final IntegerProperty moment = new SimpleIntegerProperty(0);
    private final BooleanProperty playing = new SimpleBooleanProperty(false);
    private final IntegerProperty speed = new SimpleIntegerProperty(USUAL_SPEED);

    /** Plays the searches of the present question as an overlay of the map. */
    public StepsModel(WindowModel model, MapModel map) {
        this.model = model;
        this.map = map;
        this.recordings = new Recordings(model);
        recordings.wantedProperty().addListener((p, old, now) -> stopHere());
        recordings.searchesProperty().addListener((p, old, now) -> now.ifPresent(this::begin));
        recordings.roundsProperty().addListener((p, old, now) -> changed());
        model.shown().answerProperty().addListener((p, old, now) -> stopHere());
        kind.addListener((p, old, now) -> changed());
        part.addListener((p, old, now) -> changed());
    }

    /** The recordings to play. */
    Recordings recordings() {
        return recordings;
    }

    private void stopHere() {
        playing.set(false);
        show();
    }

    private void begin(PlayedSearches searches) {
        part.set(Math.max(0, searches.parts().size() - 1));
        if (kind.get() == PlayKind.LABELS && searches.labels().isEmpty()) {
            kind.set(PlayKind.A_STAR);
        }
        changed();
    }

    /** Plays how three nets negotiate for the same wires, in a tiny invented design. */
    void playWorkedExample() {
        kind.set(PlayKind.ROUNDS);
        recordings.recordWorkedExample();
    }

    /** The player in use; empty when there is nothing to play yet. */
    Optional<StepPlayer> player() {
        if (kind.get() == PlayKind.ROUNDS) {
            return recordings.roundsProperty().get().map(r -> r);
        }
        if (kind.get() == PlayKind.LABELS) {
            return played().flatMap(PlayedSearches::labels).map(l -> l);
        }
        return search(kind.get().method().orElseThrow()).map(s -> s);
    }

    /** The search of a method in the part that is shown. */
    Optional<SearchPlayer> search(PlayedSearch method) {
        return played().flatMap(p -> p.search(method, part.get()));
    }

    private Optional<PlayedSearches> played() {
        return recordings.searchesProperty().get();
    }

    /** Another recording is played, from its present moment. */
    private void changed() {
        playing.set(false);
        moved();
    }

    private void moved() {
        if (player().orElse(null) instanceof SearchPlayer shown) {
            int settled = shown.replay().settledCount();
            for (PlayedSearch method : PlayedSearch.values()) {
                search(method).filter(s -> s != shown).ifPresent(s -> s.goToSettled(settled));
            }
        }
        moment.set(-1);
        moment.set(player().map(StepPlayer::done).orElse(0));
        show();
    }

    private void show() {
        map.overlayProperty()
                .set(
                        recordings.wantedProperty().get()
                                ? player().filter(p -> p.done() > 0).map(StepPlayer::overlay)
                                : Optional.empty());
    }

    /** Goes to the moment after a number of steps. */
    void goTo(int steps) {
        player().ifPresent(
                        p -> {
                            p.goTo(steps);
                            moved();
                        });
    }

    /** Goes forward to the next settled vertex, expanded label or round. */
    void step() {
        player().ifPresent(p -> goTo(p.next()));
    }

    /** Goes forward by one edge, label or round. */
    void stepFinely() {
        player().ifPresent(p -> goTo(p.done() + 1));
    }

    /** Goes back by a step. */
    void back() {
        player().ifPresent(p -> goTo(p.previous()));
    }

    /** Goes back to before the first step. */
    void toStart() {
        goTo(0);
    }

    /** Goes to the end. */
    void toEnd() {
        player().ifPresent(p -> goTo(p.size()));
    }

    /** The first moment at which an occupied site is touched, if there is one. */
    OptionalInt firstOccupiedSite() {
        if (!(player().orElse(null) instanceof SearchPlayer search)) {
            return OptionalInt.empty();
        }
        return played().orElseThrow().firstOccupiedSite(search);
    }

    /** Goes to the first moment at which the search touches an occupied site. */
    void toFirstOccupiedSite() {
        OptionalInt at = firstOccupiedSite();
        if (at.isEmpty()) {
            model.notes().add(this, "This search touches no occupied site.");
            return;
        }
        goTo(at.getAsInt());
    }

    /** Plays, or pauses. */
    void playOrPause() {
        boolean on = !playing.get();
        if (on && player().filter(p -> p.done() >= p.size()).isPresent()) {
            toStart();
        }
        playing.set(on && player().isPresent());
    }

    /** Plays the next steps; stops at the end. */
    void tick() {
        player().ifPresent(p -> goTo(p.next(p.stride())));
        if (player().filter(p -> p.done() < p.size()).isEmpty()) {
            playing.set(false);
        }
    }

    /** How many vertices fewer A* settles than Dijkstra, as a sentence; empty without both. */
    String savedText() {
        return played().map(p -> p.savedText(part.get())).orElse("");
    }

    /** The kind of what is played. */
    ObjectProperty<PlayKind> kindProperty() {
        return kind;
    }

    /** Which search of the question: over free resources only, or also over used ones. */
    IntegerProperty partProperty() {
        return part;
    }

    /** Number of steps taken; changes whenever the moment may have changed. */
    ReadOnlyIntegerProperty momentProperty() {
        return moment;
    }

    /** Whether it is playing. */
    BooleanProperty playingProperty() {
        return playing;
    }

    /** Steps per second. */
    IntegerProperty speedProperty() {
        return speed;
    }
}
