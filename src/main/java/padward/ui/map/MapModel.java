package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.breakout.ask.Answer;
import padward.breakout.ask.DelayField;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.model.ExplorerModel;
import padward.ui.model.PendingWhatIf;
import padward.ui.scene.BandWidth;
import padward.ui.scene.Layer;
import padward.ui.scene.MapOptions;
import padward.ui.scene.MapScene;
import padward.ui.scene.NetReach;
import padward.ui.scene.Overlay;
import padward.ui.work.OneJob;

/**
 * What the map shows of what the window knows: its layers, the obstacle that is chosen, on map,
 * strip map and list alike, the thing that is pinned, and how far the net gets. No control, no
 * canvas.
 */
public final class MapModel {
    private final ExplorerModel model;
    private final OneJob sweeping;
    private final MapOptions options = new MapOptions();
    private final ObjectProperty<Optional<Obstacle>> chosenObstacle =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Pointed>> pinned =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<NetReach>> reach =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Integer>> found =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Overlay>> overlay =
            new SimpleObjectProperty<>(Optional.empty());

    /** Follows the design and the question that are in front. */
    public MapModel(ExplorerModel model) {
        this.model = model;
        this.sweeping = new OneJob(model.jobs(), this);
        model.openedProperty()
                .addListener(
                        (p, old, now) -> {
                            pinned.set(Optional.empty());
                            found.set(Optional.empty());
                        });
        model.shown()
                .answerProperty()
                .addListener(
                        (p, old, now) -> {
                            chosenObstacle.set(Optional.empty());
                            sweepAnew();
                        });
        model.shown()
                .optionProperty()
                .addListener(
                        (p, old, now) -> {
                            model.shown().selectedHopProperty().set(Optional.empty());
                            chosenObstacle.set(Optional.empty());
                        });
        model.shown()
                .whatIfProperty()
                .addListener((p, old, now) -> chosenObstacle.set(Optional.empty()));
        model.shown().selectedHopProperty().addListener((p, old, now) -> followHop(now));
        options.shown(Layer.DELAY).addListener((p, old, now) -> sweepIfWanted());
        options.shown(Layer.FRONTIER).addListener((p, old, now) -> sweepIfWanted());
        options.bandWidthProperty()
                .addListener((p, old, now) -> reach.set(reach.get().map(r -> r.inBandsOf(now))));
    }

    /** What the window knows. */
    public ExplorerModel explorer() {
        return model;
    }

    /** What is shown, and how. */
    public MapOptions options() {
        return options;
    }

    /** The obstacle that is chosen. */
    public ReadOnlyObjectProperty<Optional<Obstacle>> chosenObstacleProperty() {
        return chosenObstacle;
    }

    /** Chooses an obstacle; where it stands on the way, its first hop is selected with it. */
    public void choose(Obstacle obstacle) {
        if (!isOnSelectedHop(obstacle)) {
            model.shown().selectedHopProperty().set(obstacle.hops().stream().findFirst());
        }
        chosenObstacle.set(Optional.of(obstacle));
    }

    private boolean isOnSelectedHop(Obstacle obstacle) {
        return model.shown()
                .selectedHopProperty()
                .get()
                .filter(obstacle.hops()::contains)
                .isPresent();
    }

    /** A hop that is held means the obstacle that holds it. */
    private void followHop(Optional<Integer> hop) {
        chosenObstacle.set(
                hop.flatMap(
                        h ->
                                model.shown().obstacles().stream()
                                        .filter(o -> o.hops().contains(h))
                                        .findFirst()));
    }

    /** The thing that is pinned. */
    public ObjectProperty<Optional<Pointed>> pinnedProperty() {
        return pinned;
    }

    /** The vertex that was searched for last. */
    ObjectProperty<Optional<Integer>> foundProperty() {
        return found;
    }

    /** What is painted over the map; a new one is set for each change. */
    public ObjectProperty<Optional<Overlay>> overlayProperty() {
        return overlay;
    }

    /** How far the net of the question gets; empty until it is asked for and worked out. */
    ReadOnlyObjectProperty<Optional<NetReach>> reachProperty() {
        return reach;
    }

    private void sweepAnew() {
        sweeping.cancel();
        reach.set(Optional.empty());
        sweepIfWanted();
    }

    private void sweepIfWanted() {
        boolean wanted = options.shown(Layer.DELAY).get() || options.shown(Layer.FRONTIER).get();
        Optional<Answer> answer = model.shown().answerProperty().get();
        if (!wanted || reach.get().isPresent() || answer.isEmpty()) {
            return;
        }
        Question question = answer.get().question();
        BandWidth width = options.bandWidthProperty().get();
        sweeping.start(
                "Finding how far the net gets",
                progress ->
                        NetReach.of(
                                DelayField.of(
                                        question.design(),
                                        question.net(),
                                        question.corner(),
                                        progress),
                                width,
                                question.padValue().vertex(),
                                progress),
                result ->
                        reach.set(
                                Optional.of(result.inBandsOf(options.bandWidthProperty().get()))));
    }

    /** Calls a listener whenever the picture of the map may change. */
    void addListener(Runnable changed) {
        List.of(
                        model.openedProperty(),
                        model.shown().answerProperty(),
                        model.shown().selectedHopProperty(),
                        model.shown().previewProperty(),
                        model.shown().whatIfProperty(),
                        chosenObstacle,
                        pinned,
                        reach,
                        found,
                        overlay)
                .forEach(p -> p.addListener((q, old, now) -> changed.run()));
        model.shown().optionProperty().addListener((p, old, now) -> changed.run());
        model.look().lettersProperty().addListener(p -> changed.run());
        options.addListener(p -> changed.run());
    }

    /**
     * The picture of the map.
     *
     * @param cells all tiles from afar, in the palette's colours
     */
    public MapScene scene(OpenDesign opened, Viewport view, Palette palette, TileImage cells) {
        Optional<PendingWhatIf> whatIf = model.shown().whatIfProperty().get();
        Optional<Route> before = whatIf.flatMap(t -> routeBefore(t.before()));
        Optional<Net> net =
                pinned.get()
                        .flatMap(Pointed::net)
                        .or(
                                () ->
                                        model.shown()
                                                .answerProperty()
                                                .get()
                                                .map(a -> a.question().net()));
        return new MapScene(
                opened,
                view,
                palette,
                model.look().lettersProperty().get(),
                options.shownLayers(),
                cells,
                net,
                model.shown().route(),
                whatIf.isPresent() ? List.of() : alternatives(),
                before,
                whatIf.isPresent() ? model.shown().obstaclesOfChosen() : model.shown().obstacles(),
                chosenObstacle.get(),
                marked(),
                reach.get(),
                overlay.get());
    }

    /** The way of the chosen clearance, as it is without the trial. */
    private Optional<Route> routeBefore(Answer before) {
        return model.shown()
                .chosenOption()
                .map(WhyBlocked.Option::route)
                .or(() -> before.findRoute());
    }

    private List<Route> alternatives() {
        List<Route> result = new ArrayList<>();
        model.shown().options().stream()
                .map(WhyBlocked.Option::route)
                .filter(w -> !model.shown().route().equals(Optional.of(w)))
                .forEach(result::add);
        model.shown().previewProperty().get().flatMap(Answer::findRoute).ifPresent(result::add);
        return result;
    }

    /** The pad that was asked for, where no way leads to it. */
    Optional<Integer> noRouteTo() {
        return model.shown()
                .answerProperty()
                .get()
                .filter(a -> a instanceof Answer.NoRoute)
                .map(a -> a.question().padValue().vertex());
    }

    private List<Integer> marked() {
        List<Integer> result = new ArrayList<>();
        model.shown().findSelectedHop().map(Hop::vertex).ifPresent(result::add);
        noRouteTo().ifPresent(result::add);
        found.get().ifPresent(result::add);
        pinned.get().map(Pointed::vertex).filter(v -> v != Fabric.NOTHING).ifPresent(result::add);
        return result.stream().distinct().toList();
    }
}
