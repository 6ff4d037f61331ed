package padward.ui.play;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.BadInput;
import padward.breakout.Answer;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.format.Demo;
import padward.lesson.PlayedRounds;
import padward.lesson.SearchMethod;
import padward.ui.map.MapModel;
import padward.ui.model.ExplorerModel;
import padward.ui.model.OneJob;
import padward.ui.scene.Opened;

/**
 * Searches of the question that is shown, recorded and played: which one, at which step, how
 * quickly. A* and Dijkstra go side by side, as many settled vertices in the one as in the other. No
 * control, no canvas.
 */
public final class StepsModel {
    /** Vertices settled, labels looked at, or rounds, in a second. */
    static final int MOST_SPEED = 60;

    /** The group of the worked example. */
    static final String EXAMPLE_NETS = "signal*";

    static final String EXAMPLE_PADS = "D*";

    private static final int USUAL_SPEED = 8;

    private final ExplorerModel model;
    private final MapModel map;
    private final OneJob recording;
    private final ObjectProperty<Optional<PlayedSearches>> played =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<RoundPlayer>> rounds =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<PlayKind> kind = new SimpleObjectProperty<>(PlayKind.A_STAR);
    private final IntegerProperty part = new SimpleIntegerProperty(0);
    private final IntegerProperty moment = new SimpleIntegerProperty(0);
    private final BooleanProperty playing = new SimpleBooleanProperty(false);
    private final IntegerProperty speed = new SimpleIntegerProperty(USUAL_SPEED);
    private boolean example;
    private final BooleanProperty wanted = new SimpleBooleanProperty(false);

    /** Plays the searches of the question that is in front, as an overlay of the map. */
    public StepsModel(ExplorerModel model, MapModel map) {
        this.model = model;
        this.map = map;
        this.recording = new OneJob(model.jobs(), this);
        wanted.addListener((p, old, now) -> wantedOrNot(now));
        model.shown()
                .answerProperty()
                .addListener(
                        (p, old, now) -> {
                            putAway();
                            recordIfWanted();
                        });
        model.openedProperty().addListener((p, old, now) -> opened());
        kind.addListener((p, old, now) -> changed());
        part.addListener((p, old, now) -> changed());
    }

    /** Whether somebody looks: only then is anything recorded, or painted over the map. */
    BooleanProperty wantedProperty() {
        return wanted;
    }

    private void wantedOrNot(boolean now) {
        playing.set(false);
        if (now) {
            recordIfWanted();
        }
        show();
    }

    private void putAway() {
        recording.cancel();
        playing.set(false);
        played.set(Optional.empty());
        show();
    }

    private void recordIfWanted() {
        Optional<Answer> answer = model.shown().answerProperty().get();
        if (!wanted.get() || answer.isEmpty() || played.get().isPresent()) {
            return;
        }
        recording.start(
                "Recording the searches",
                progress -> PlayedSearches.of(answer.get(), progress),
                result -> {
                    played.set(Optional.of(result));
                    part.set(Math.max(0, result.parts().size() - 1));
                    if (kind.get() == PlayKind.LABELS && result.labels().isEmpty()) {
                        kind.set(PlayKind.A_STAR);
                    }
                    changed();
                });
    }

    /**
     * Opens a tiny invented design in which three nets want the same wires, and plays how they
     * settle it.
     */
    void playWorkedExample() {
        kind.set(PlayKind.ROUNDS);
        example = true;
        model.openFrom(progress -> Demo.openNarrows());
    }

    private void opened() {
        rounds.set(Optional.empty());
        boolean play =
                example
                        && model.openedProperty()
                                .get()
                                .filter(o -> o.design().name().equals("narrows"))
                                .isPresent();
        example = false;
        if (play) {
            playGroup(EXAMPLE_NETS, EXAMPLE_PADS);
        }
    }

    /** Brings several nets out at once, and plays the rounds. */
    void playGroup(String nets, String pads) {
        Optional<Opened> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            return;
        }
        Design design = opened.get().design();
        try {
            List<Net> meant = GroupText.nets(design, nets);
            List<Integer> allowed = GroupText.pads(design, pads);
            recording.start(
                    "Laying the nets together",
                    progress -> PlayedRounds.of(design, meant, allowed, progress),
                    result -> {
                        rounds.set(Optional.of(new RoundPlayer(result)));
                        changed();
                    });
        } catch (BadInput fault) {
            model.notes().tell(this, fault);
        }
    }

    /** What is played now; empty when there is nothing yet. */
    Optional<Player> player() {
        if (kind.get() == PlayKind.ROUNDS) {
            return rounds.get().map(r -> r);
        }
        if (kind.get() == PlayKind.LABELS) {
            return played.get().flatMap(PlayedSearches::labels).map(l -> l);
        }
        return search(kind.get().method().orElseThrow()).map(s -> s);
    }

    /** The search of a method in the part that is shown. */
    Optional<SearchPlayer> search(SearchMethod method) {
        return played.get()
                .map(p -> p.searches().get(method))
                .filter(all -> !all.isEmpty())
                .map(all -> all.get(Math.min(part.get(), all.size() - 1)));
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
                        wanted.get()
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
        Design design = played.get().orElseThrow().question().design();
        return search.first(
                v ->
                        design.fabric().siteOf(v) != Fabric.NOTHING
                                && design.occupancy().isOccupied(v)
                                && !isOwn(design, v));
    }

    /** Where the net itself is, it all begins: that is not in the way. */
    private boolean isOwn(Design design, int vertex) {
        Net net = played.get().orElseThrow().question().net();
        int own = design.fabric().siteOf(net.route().root());
        return net.route().placeOf(vertex) != Fabric.NOTHING
                || own == design.fabric().siteOf(vertex);
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
        Optional<SearchPlayer> star = search(SearchMethod.A_STAR);
        Optional<SearchPlayer> plain = search(SearchMethod.DIJKSTRA);
        if (star.isEmpty() || plain.isEmpty()) {
            return "";
        }
        int with = star.get().replay().recording().outcome().settled();
        int without = plain.get().replay().recording().outcome().settled();
        if (with >= without) {
            return "Here the estimate saves nothing: both have to settle "
                    + (with == without ? "" : "about ")
                    + without
                    + ".";
        }
        return "The estimate saves %,d of %,d settled vertices (%.1f %%)."
                .formatted(without - with, without, 100.0 * (without - with) / without);
    }

    ReadOnlyObjectProperty<Optional<PlayedSearches>> playedProperty() {
        return played;
    }

    ReadOnlyObjectProperty<Optional<RoundPlayer>> roundsProperty() {
        return rounds;
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
