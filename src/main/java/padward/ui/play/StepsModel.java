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
import padward.lesson.recording.SearchMethod;
import padward.ui.map.MapModel;
import padward.ui.model.ExplorerModel;

/**
 * Plays what is recorded: which of it, at which step, how quickly. A* and Dijkstra go side by side,
 * as many settled vertices in the one as in the other. No control, no canvas.
 */
public final class StepsModel {
    /** Vertices settled, labels looked at, or rounds, in a second. */
    static final int MOST_SPEED = 60;

    private static final int USUAL_SPEED = 8;

    private final ExplorerModel model;
    private final MapModel map;
    private final Recordings recordings;
    private final ObjectProperty<PlayKind> kind = new SimpleObjectProperty<>(PlayKind.A_STAR);
    private final IntegerProperty part = new SimpleIntegerProperty(0);
    private final IntegerProperty moment = new SimpleIntegerProperty(0);
    private final BooleanProperty playing = new SimpleBooleanProperty(false);
    private final IntegerProperty speed = new SimpleIntegerProperty(USUAL_SPEED);

    /** Plays the searches of the question that is in front, as an overlay of the map. */
    public StepsModel(ExplorerModel model, MapModel map) {
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

    /** What there is to be played. */
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

    /** Plays how three nets that want the same wires settle it, in a tiny invented design. */
    void playWorkedExample() {
        kind.set(PlayKind.ROUNDS);
        recordings.recordWorkedExample();
    }

    /** What is played now; empty when there is nothing yet. */
    Optional<Player> player() {
        if (kind.get() == PlayKind.ROUNDS) {
            return recordings.roundsProperty().get().map(r -> r);
        }
        if (kind.get() == PlayKind.LABELS) {
            return played().flatMap(PlayedSearches::labels).map(l -> l);
        }
        return search(kind.get().method().orElseThrow()).map(s -> s);
    }

    /** The search of a method in the part that is shown. */
    Optional<SearchPlayer> search(SearchMethod method) {
        return played().flatMap(p -> p.search(method, part.get()));
    }

    private Optional<PlayedSearches> played() {
        return recordings.searchesProperty().get();
    }

    /** Something else is played, from where it stands. */
    private void changed() {
        playing.set(false);
        moved();
    }

    private void moved() {
        if (player().orElse(null) instanceof SearchPlayer shown) {
            int settled = shown.replay().settledCount();
            for (SearchMethod method : SearchMethod.values()) {
                search(method).filter(s -> s != shown).ifPresent(s -> s.goToSettled(settled));
            }
        }
        moment.set(-1);
        moment.set(player().map(Player::done).orElse(0));
        show();
    }

    private void show() {
        map.overlayProperty()
                .set(
                        recordings.wantedProperty().get()
                                ? player().filter(p -> p.done() > 0).map(Player::overlay)
                                : Optional.empty());
    }

    /** Goes to the moment after so many steps. */
    void goTo(int steps) {
        player().ifPresent(
                        p -> {
                            p.goTo(steps);
                            moved();
                        });
    }

    /** Goes on to the next step that people count. */
    void step() {
        player().ifPresent(p -> goTo(p.next()));
    }

    /** Goes on by one edge, label or round. */
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

    /** Whether there is a first time that an occupied site is touched. */
    OptionalInt firstOccupiedSite() {
        if (!(player().orElse(null) instanceof SearchPlayer search)) {
            return OptionalInt.empty();
        }
        return played().orElseThrow().firstOccupiedSite(search);
    }

    /** Goes to the first time that the search touches an occupied site. */
    void toFirstOccupiedSite() {
        OptionalInt at = firstOccupiedSite();
        if (at.isEmpty()) {
            model.notes().tell(this, "This search touches no occupied site.");
            return;
        }
        goTo(at.getAsInt());
    }

    /** Plays on, or pauses. */
    void playOrPause() {
        boolean on = !playing.get();
        if (on && player().filter(p -> p.done() >= p.size()).isPresent()) {
            toStart();
        }
        playing.set(on && player().isPresent());
    }

    /** A step of the play; at the end it stops. */
    void tick() {
        player().ifPresent(p -> goTo(p.next(p.stride())));
        if (player().filter(p -> p.done() < p.size()).isEmpty()) {
            playing.set(false);
        }
    }

    /** What A* settles less than Dijkstra on this question, as a sentence; empty without both. */
    String saved() {
        return played().map(p -> p.saved(part.get())).orElse("");
    }

    /** What is played. */
    ObjectProperty<PlayKind> kindProperty() {
        return kind;
    }

    /** Which search of the question: over what is free, or at a price. */
    IntegerProperty partProperty() {
        return part;
    }

    /** How many steps have been taken; changes whenever the moment may have changed. */
    ReadOnlyIntegerProperty momentProperty() {
        return moment;
    }

    /** Whether it plays on by itself. */
    BooleanProperty playingProperty() {
        return playing;
    }

    /** Steps in a second. */
    IntegerProperty speedProperty() {
        return speed;
    }
}
