package padward.ui.map;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.breakout.ask.Hop;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.scene.WorldRectangle;

/** What can be shown whole on the map, and where it lies. */
final class ViewTargets {
    private static final double AROUND_FABRIC = 0.5;

    private final MapModel map;

    ViewTargets(MapModel map) {
        this.map = map;
    }

    private Optional<OpenDesign> opened() {
        return map.explorer().openedProperty().get();
    }

    /** A whole fabric, with its pads. */
    static WorldRectangle of(Fabric fabric) {
        return new WorldRectangle(
                -AROUND_FABRIC,
                -AROUND_FABRIC,
                fabric.columns() + AROUND_FABRIC,
                fabric.rows() + AROUND_FABRIC);
    }

    /** The whole fabric of the open design. */
    Optional<WorldRectangle> fabric() {
        return opened().map(o -> of(o.design().fabric()));
    }

    /** The way that is looked at; where there is none, the net and the pad that was asked for. */
    Optional<WorldRectangle> route() {
        Optional<IntStream> route =
                map.explorer().shown().route().map(w -> w.hops().stream().mapToInt(Hop::vertex));
        return opened().flatMap(
                        o -> route.or(this::apart).map(v -> WorldRectangle.of(o.layout(), v)));
    }

    private Optional<IntStream> apart() {
        return map.noRouteTo()
                .flatMap(
                        pad ->
                                map.explorer()
                                        .shown()
                                        .answerProperty()
                                        .get()
                                        .map(a -> a.question().net().route().toVertices())
                                        .map(
                                                net ->
                                                        IntStream.concat(
                                                                Arrays.stream(net),
                                                                IntStream.of(pad))));
    }

    /** All wires of the net of what is pinned, or else of the question. */
    Optional<WorldRectangle> net() {
        Optional<Net> net =
                map.pinnedProperty()
                        .get()
                        .flatMap(Pointed::net)
                        .or(
                                () ->
                                        map.explorer()
                                                .shown()
                                                .answerProperty()
                                                .get()
                                                .map(a -> a.question().net()));
        return opened().flatMap(
                        o ->
                                net.map(
                                        n ->
                                                WorldRectangle.of(
                                                        o.layout(),
                                                        Arrays.stream(n.route().toVertices()))));
    }

    /** The tile of what is pinned, or else the one at a place. */
    Optional<WorldRectangle> tile(double worldX, double worldY) {
        return opened().map(o -> o.design().fabric())
                .map(
                        f -> {
                            Optional<Integer> pinned =
                                    map.pinnedProperty().get().map(Pointed::tile);
                            double x =
                                    pinned.map(t -> (double) f.column(t))
                                            .orElse(Math.floor(worldX));
                            double y =
                                    pinned.map(t -> (double) f.row(t)).orElse(Math.floor(worldY));
                            return new WorldRectangle(x, y, x + 1, y + 1);
                        });
    }
}
