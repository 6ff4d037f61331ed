package padward.ui.map;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.breakout.Hop;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.ui.scene.Extent;
import padward.ui.scene.Opened;

/** What can be shown whole on the map, and where it lies. */
final class Extents {
    private static final double AROUND_FABRIC = 0.5;

    private final MapModel map;

    Extents(MapModel map) {
        this.map = map;
    }

    private Optional<Opened> opened() {
        return map.explorer().openedProperty().get();
    }

    /** A whole fabric, with its pads. */
    static Extent of(Fabric fabric) {
        return new Extent(
                -AROUND_FABRIC,
                -AROUND_FABRIC,
                fabric.columns() + AROUND_FABRIC,
                fabric.rows() + AROUND_FABRIC);
    }

    /** The whole fabric of the open design. */
    Optional<Extent> fabric() {
        return opened().map(o -> of(o.design().fabric()));
    }

    /** The way that is looked at; where there is none, the net and the pad that was asked for. */
    Optional<Extent> way() {
        Optional<IntStream> way =
                map.explorer().shown().way().map(w -> w.hops().stream().mapToInt(Hop::vertex));
        return opened().flatMap(o -> way.or(this::apart).map(v -> Extent.of(o.layout(), v)));
    }

    private Optional<IntStream> apart() {
        return map.noWayTo()
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
    Optional<Extent> net() {
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
                                                Extent.of(
                                                        o.layout(),
                                                        Arrays.stream(n.route().toVertices()))));
    }

    /** The tile of what is pinned, or else the one at a place. */
    Optional<Extent> tile(double worldX, double worldY) {
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
                            return new Extent(x, y, x + 1, y + 1);
                        });
    }
}
