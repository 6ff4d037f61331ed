package padward.ui.paint;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileRange;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;

/**
 * Paints one picture of the map: first the part of the fabric in view, then what is highlighted.
 * Each part has its own painter; only tiles in view are visited.
 */
public final class MapPicture {
    private MapPicture() {}

    /** The scene of a design without a question, as the map shows it at the start. */
    public static MapScene plain(OpenDesign opened, Viewport view, Palette palette) {
        Set<MapLayer> layers = MapLayer.shownFirst();
        boolean heat = layers.contains(MapLayer.OCCUPANCY);
        return new MapScene(
                opened,
                view,
                palette,
                1,
                layers,
                new TileColors(opened, palette, heat, Optional.empty()).toImage(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.empty());
    }

    /** Paints the whole scene, from the bottom to the top. */
    public static void paint(MapScene scene, Surface out) {
        Viewport view = scene.view();
        Fabric fabric = scene.opened().design().fabric();
        TileRange seen = scene.tilesSeen();
        TilePainter ground = new TilePainter(scene, out);
        SitePainter parts = new SitePainter(scene);
        DelayPainter delays = new DelayPainter(scene);
        RoutePainter marks = new RoutePainter(scene, out);
        out.group(
                "fabric",
                () -> {
                    ground.paint(seen);
                    scene.overlay().ifPresent(o -> o.tint(scene, out));
                    out.marks(
                            m -> {
                                new ChannelPainter(scene, m).paint(seen);
                                new WirePainter(scene, m).paint(seen);
                                delays.paintLines(m, seen);
                                parts.paintBoxes(m, seen);
                                new SwitchPainter(scene, m).paint(seen);
                                parts.paintSites(m, seen);
                            });
                    ground.names(seen);
                    parts.names(out, seen);
                });
        StructurePainter structure = new StructurePainter(scene, out);
        if (structure.isWanted()) {
            out.group("structure", structure::paint);
        }
        out.group("delay", () -> delays.paintLabels(out, seen));
        out.group("routes", marks::paint);
        scene.overlay().ifPresent(o -> out.group("overlay", () -> o.paint(scene, out)));
        if (scene.shows(MapLayer.RULERS)) {
            out.group("rulers", () -> new RulerPainter(scene, out).paint());
        }
        out.group(
                "legend",
                () -> {
                    delays.paintLegend(out);
                    new LegendPainter(scene, out).paint();
                });
        scene.overlay().ifPresent(o -> out.group("tags", () -> o.paintTags(scene, out)));
    }

    /** Paints the overview on top, which belongs to the screen and not into a file. */
    public static void paintOverview(MapScene scene, Surface out) {
        if (scene.shows(MapLayer.OVERVIEW)) {
            out.group("overview", () -> new OverviewPainter(scene, out).paint());
        }
    }
}
