package padward.ui.map;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.breakout.ask.Hop;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.scene.WorldRectangle;

/** The rectangles of what can be fitted into the view: fabric, route, net, tile. */
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

    /** The present route; if there is none, the net and the pad of the question. */
    Optional<WorldRectangle> route() {
        Optional<IntStream> route =
                map.explorer().shown().route().map(w -> w.hops().stream().mapToInt(Hop::vertex));
        return opened().flatMap(
                        o -> route.or(this::netAndPad).map(v -> WorldRectangle.of(o.layout(), v)));
    }

    private Optional<IntStream> netAndPad() {
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

    /** All wires of the net of the pinned thing, or else of the question. */
    Optional<WorldRectangle> net() {
        Optional<Net> net =
                map.pinnedProperty()
                        .get()
                        .flatMap(MapItem::net)
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

    /** The middle of the switch box of that tile. */
    Optional<TileLayout.Point> box(double worldX, double worldY) {
        Optional<Integer> pinned = map.pinnedProperty().get().map(MapItem::tile);
        return opened().map(
                        o -> {
                            Fabric f = o.design().fabric();
                            return o.layout()
                                    .box(
                                            pinned.orElseGet(
                                                    () ->
                                                            within(worldY, f.rows()) * f.columns()
                                                                    + within(worldX, f.columns())));
                        });
    }

    private static int within(double world, int count) {
        return (int) Math.max(0, Math.min(count - 1.0, Math.floor(world)));
    }

    /** The tile of the pinned thing, or else the one at a place. */
    Optional<WorldRectangle> tile(double worldX, double worldY) {
        return opened().map(o -> o.design().fabric())
                .map(
                        f -> {
                            Optional<Integer> pinned =
                                    map.pinnedProperty().get().map(MapItem::tile);
                            double x =
                                    pinned.map(t -> (double) f.column(t))
                                            .orElse(Math.floor(worldX));
                            double y =
                                    pinned.map(t -> (double) f.row(t)).orElse(Math.floor(worldY));
                            return new WorldRectangle(x, y, x + 1, y + 1);
                        });
    }
}
