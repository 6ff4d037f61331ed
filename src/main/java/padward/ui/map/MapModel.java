package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.value.ObservableValue;
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
import padward.ui.model.PendingWhatIf;
import padward.ui.model.WindowModel;
import padward.ui.paint.SwitchesOfWire;
import padward.ui.scene.DelayBandWidth;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOptions;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapScene;
import padward.ui.scene.NetReach;
import padward.ui.work.JobSlot;

/**
 * What the map shows: its layers, the chosen obstacle (the same on map, strip map and list), the
 * pinned thing, and how far the net gets. Has no controls and no canvas.
 */
public final class MapModel {
    private final WindowModel model;
    private final JobSlot reachJob;
    private final MapOptions options = new MapOptions();
    private final ObjectProperty<Optional<Obstacle>> chosenObstacle =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<MapItem>> pinned =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<NetReach>> reach =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Integer>> found =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<MapOverlay>> overlay =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<MapOverlay>> backgroundOverlay =
            new SimpleObjectProperty<>(Optional.empty());
    private final List<ObservableValue<Optional<MapOverlay>>> panelOverlays = new ArrayList<>();
    private final ObjectProperty<Optional<Integer>> pointed =
            new SimpleObjectProperty<>(Optional.empty());

    /** The net that was found last, until another question is answered. */
    private Optional<Net> foundNet = Optional.empty();

    private final MeasureModel measure;
    private final QuestionRoutes others;

    /** Follows the open design and the present question. */
    public MapModel(WindowModel model) {
        this.model = model;
        this.reachJob = new JobSlot(model.jobs(), this);
        this.measure = new MeasureModel(model);
        this.others = new QuestionRoutes(model.questions(), options.shown(MapLayer.QUESTIONS));
        model.openedProperty()
                .addListener(
                        (p, old, now) -> {
                            pinned.set(Optional.empty());
                            foundNet = Optional.empty();
                            found.set(Optional.empty());
                            pointed.set(Optional.empty());
                        });
        model.shown()
                .answerProperty()
                .addListener(
                        (p, old, now) -> {
                            chosenObstacle.set(Optional.empty());
                            foundNet = Optional.empty();
                            recalculateReach();
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
        options.shown(MapLayer.DELAY).addListener((p, old, now) -> calculateReachIfShown());
        options.shown(MapLayer.FRONTIER).addListener((p, old, now) -> calculateReachIfShown());
        options.bandWidthProperty()
                .addListener((p, old, now) -> reach.set(reach.get().map(r -> r.inBandsOf(now))));
    }

    /** The model of the window. */
    public WindowModel explorer() {
        return model;
    }

    /** The layers shown, and the width of delay bands. */
    public MapOptions options() {
        return options;
    }

    /** The chosen obstacle. */
    public ReadOnlyObjectProperty<Optional<Obstacle>> chosenObstacleProperty() {
        return chosenObstacle;
    }

    /** Chooses an obstacle; if it is on the route, its first hop is selected, too. */
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

    /** Selecting a hop in use chooses the obstacle that uses it. */
    private void followHop(Optional<Integer> hop) {
        chosenObstacle.set(
                hop.flatMap(
                        h ->
                                model.shown().obstacles().stream()
                                        .filter(o -> o.hops().contains(h))
                                        .findFirst()));
    }

    /** The pinned thing. */
    public ObjectProperty<Optional<MapItem>> pinnedProperty() {
        return pinned;
    }

    /** Marks what was found, until something else is; of a net, all wires. */
    void showFound(FoundPlace place) {
        foundNet = place.net();
        found.set(place.vertex().stream().boxed().findFirst());
    }

    /** The vertex that was found last. */
    ObjectProperty<Optional<Integer>> foundProperty() {
        return found;
    }

    /** The wire or pin under the pointer, where the map shows the inside of boxes. */
    ObjectProperty<Optional<Integer>> pointedProperty() {
        return pointed;
    }

    /** The overlay painted over the map; each change sets a new one. */
    public ObjectProperty<Optional<MapOverlay>> overlayProperty() {
        return overlay;
    }

    /**
     * Adds something that a panel paints over the map while no search is played there, such as the
     * routes of a group; several are painted in the order in which they were added.
     *
     * @param shown what is to be painted now, if anything
     */
    public void addPanelOverlay(ObservableValue<Optional<MapOverlay>> shown) {
        panelOverlays.add(shown);
        shown.addListener((p, old, now) -> choosePanelOverlay());
        choosePanelOverlay();
    }

    private void choosePanelOverlay() {
        backgroundOverlay.set(
                MapOverlay.together(
                        panelOverlays.stream()
                                .map(ObservableValue::getValue)
                                .flatMap(Optional::stream)
                                .toList()));
    }

    /** Measures between two tiles. */
    MeasureModel measure() {
        return measure;
    }

    /**
     * What is painted over the map: a search that is played; or the routes of other questions and
     * what the panels paint; then the ruler.
     */
    private Optional<MapOverlay> overlays() {
        return MapOverlay.together(
                Stream.of(
                                overlay.get().isPresent()
                                        ? Optional.<MapOverlay>empty()
                                        : others.overlayProperty().get(),
                                overlay.get().or(backgroundOverlay::get),
                                pointed.get().map(v -> (MapOverlay) new SwitchesOfWire(v)),
                                measure.rulerProperty().get())
                        .flatMap(Optional::stream)
                        .toList());
    }

    /** How far the net of the question gets; empty until it is needed and calculated. */
    ReadOnlyObjectProperty<Optional<NetReach>> reachProperty() {
        return reach;
    }

    private void recalculateReach() {
        reachJob.cancel();
        reach.set(Optional.empty());
        calculateReachIfShown();
    }

    private void calculateReachIfShown() {
        boolean wanted =
                options.shown(MapLayer.DELAY).get() || options.shown(MapLayer.FRONTIER).get();
        Optional<Answer> answer = model.shown().answerProperty().get();
        if (!wanted || reach.get().isPresent() || answer.isEmpty()) {
            return;
        }
        Question question = answer.get().question();
        DelayBandWidth width = options.bandWidthProperty().get();
        reachJob.start(
                "Calculating delays from the net",
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
                        pointed,
                        overlay,
                        backgroundOverlay,
                        others.overlayProperty(),
                        measure.rulerProperty())
                .forEach(p -> p.addListener((q, old, now) -> changed.run()));
        model.shown().optionProperty().addListener((p, old, now) -> changed.run());
        model.look().lettersProperty().addListener(p -> changed.run());
        options.addListener(p -> changed.run());
    }

    /**
     * The picture of the map.
     *
     * @param cells all tiles, one pixel each, in the colours of the palette
     */
    public MapScene scene(OpenDesign opened, Viewport view, Palette palette, TileImage cells) {
        Optional<PendingWhatIf> whatIf = model.shown().whatIfProperty().get();
        Optional<Route> before = whatIf.flatMap(t -> routeBefore(t.before()));
        Optional<Net> net =
                pinned.get()
                        .flatMap(MapItem::net)
                        .or(() -> foundNet)
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
                overlays());
    }

    /** The route of the chosen option to unblock, without the what-if. */
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

    /** The pad of the question, when there is no route to it. */
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
        pinned.get().map(MapItem::vertex).filter(v -> v != Fabric.NOTHING).ifPresent(result::add);
        return result.stream().distinct().toList();
    }
}
