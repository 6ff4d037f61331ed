package padward.ui.play;

import java.util.List;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.lesson.recording.LabelSearchStep;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints labels over the map: at each vertex the number of obstacles to remove; zoomed in, which.
 */
record LabelSearchPainter(List<LabelSearchStep> labels, int last) implements MapOverlay {
    private static final int MAX_LABELS = 3_000;

    @Override
    public void paint(MapScene scene, Surface out) {
        out.group("labels", () -> paintAll(scene, out));
    }

    private void paintAll(MapScene scene, Surface out) {
        int painted = 0;
        for (LabelSearchStep label : labels) {
            if (painted++ < MAX_LABELS) {
                paint(label, scene, out);
            }
        }
        if (last != Fabric.NOTHING) {
            TileLayout.Point at = scene.opened().layout().end(last);
            out.outlineDisc(
                    scene.view().screenX(at.x()),
                    scene.view().screenY(at.y()),
                    11,
                    new Surface.Line(scene.palette().selection(), 3));
        }
    }

    private void paint(LabelSearchStep label, MapScene scene, Surface out) {
        Palette colors = scene.palette();
        Viewport view = scene.view();
        TileLayout.Point to = scene.opened().layout().end(label.vertex());
        double x = view.screenX(to.x());
        double y = view.screenY(to.y());
        boolean free = label.removed().isEmpty();
        Surface.Line line =
                free
                        ? new Surface.Line(colors.delayLine(), 2.5)
                        : new Surface.Line(colors.obstacle(), 2.5, 6, 3);
        new MapPen(scene, out).vertex(label.vertex(), line);
        if (view.scale() >= ZoomScales.WIRES) {
            out.fillDisc(x, y, scene.letters(6), colors.paper());
            out.outlineDisc(x, y, scene.letters(6), new Surface.Line(line.color(), 1.2));
            out.text(
                    String.valueOf(label.removed().size()),
                    x,
                    y,
                    new Surface.Lettering(scene.letters(9), Surface.Align.CENTER, colors.ink()));
        }
        boolean named = label.vertex() == last || view.scale() >= ZoomScales.SWITCHES;
        if (named && !free) {
            String names = String.join(", ", label.removed().stream().map(Occupant::name).toList());
            Tag tag = new Tag(names, scene.letters(10), line.color());
            tag.paint(out, colors, x + 9, y - tag.height() / 2);
        }
    }
}
