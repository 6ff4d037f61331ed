package padward.ui.play;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.geometry.Rectangle2D;
import javafx.scene.paint.Color;
import padward.fabric.Fabric;
import padward.lesson.recording.RecordingReplay;
import padward.lesson.recording.SearchStep;
import padward.route.cost.ObstacleCost;
import padward.route.search.VertexPath;
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
 * Paints a search at one moment over the map: settled wires solid, the frontier dashed with rings,
 * refused wires crossed, the route to the vertex of the last step; zoomed in, cost so far and
 * estimate.
 */
final class SearchPainter implements MapOverlay {
    /** As many lines as can be painted within a frame. */
    private static final int MAX_LINES = 5_000;

    /** With more settled vertices than this, lines are thin. */
    private static final int MANY = 150;

    private static final int MAX_LABELS = 160;
    private static final double LETTERS = 10;

    private final RecordingReplay replay;

    SearchPainter(RecordingReplay replay) {
        this.replay = replay;
    }

    @Override
    public void paint(MapScene scene, Surface out) {
        out.group("search", () -> new Picture(scene, out).paint());
    }

    @Override
    public void tint(MapScene scene, Surface out) {
        out.group("search tint", () -> new Picture(scene, out).tint());
    }

    private final class Picture {
        private final MapScene scene;
        private final Surface out;
        private final MapPen pen;
        private final TileLayout layout;
        private final Viewport view;
        private final List<Rectangle2D> labels = new ArrayList<>();
        private int lines;

        Picture(MapScene scene, Surface out) {
            this.scene = scene;
            this.out = out;
            this.pen = new MapPen(scene, out);
            this.layout = scene.opened().layout();
            this.view = scene.view();
        }

        void paint() {
            Palette colors = scene.palette();
            if (isCloud()) {
                replay.last().ifPresent(this::paintLast);
                return;
            }
            boolean near = view.scale() >= ZoomScales.WIRES;
            boolean many = replay.settledCount() > MANY;
            Surface.Line settled = new Surface.Line(colors.delayLine(), near && !many ? 3 : 1.5);
            Surface.Line waits = new Surface.Line(colors.frontier(), near ? 2.5 : 1.5, 4, 4);
            replay.forReached(
                    r -> {
                        if (lines < MAX_LINES && isSeen(r.vertex())) {
                            lines++;
                            draw(r, replay.isSettled(r.vertex()) ? settled : waits);
                        }
                    });
            if (near) {
                replay.forFrontier(v -> ring(v, waits.color()));
                replay.forRefused(this::cross);
            }
            replay.last().ifPresent(this::paintLast);
            if (view.scale() >= ZoomScales.NAMES) {
                // The label of the last step is placed first.
                replay.last().flatMap(l -> replay.findReach(l.vertex())).ifPresent(this::label);
                replay.forReached(this::label);
            }
        }

        /** Zoomed out, a large search is a tint of the tiles: the more is settled, the stronger. */
        private boolean isCloud() {
            return view.scale() < ZoomScales.WIRES && replay.reachedCount() > MAX_LINES;
        }

        void tint() {
            if (isCloud()) {
                cloud(scene.palette());
            }
        }

        private void cloud(Palette colors) {
            Fabric fabric = scene.opened().design().fabric();
            int[] settled = new int[fabric.tileCount()];
            int[] waiting = new int[fabric.tileCount()];
            replay.forReachedVertices(
                    v -> (replay.isSettled(v) ? settled : waiting)[fabric.tile(v)]++);
            scene.tilesSeen()
                    .forEach(
                            tile -> {
                                if (settled[tile] + waiting[tile] > 0) {
                                    tint(fabric, tile, settled[tile], waiting[tile], colors);
                                }
                            });
        }

        private void tint(Fabric fabric, int tile, int settled, int waiting, Palette colors) {
            double share = (double) settled / (settled + waiting);
            Color color = settled == 0 ? colors.frontier() : colors.delayLine();
            double opacity = settled == 0 ? 0.3 : 0.25 + 0.4 * share;
            out.fillRect(
                    view.screenX(fabric.column(tile)),
                    view.screenY(fabric.row(tile) + 1.0),
                    view.scale(),
                    view.scale(),
                    0,
                    color.deriveColor(0, 1, 1, opacity));
        }

        private boolean isSeen(int vertex) {
            TileLayout.Point at = layout.end(vertex);
            double x = view.screenX(at.x());
            double y = view.screenY(at.y());
            double margin = view.scale();
            return x > -margin
                    && y > -margin
                    && x < view.width() + margin
                    && y < view.height() + margin;
        }

        private void draw(SearchStep.Reached step, Surface.Line line) {
            if (step.from() >= 0) {
                pen.onward(step.from(), step.vertex(), line);
            } else {
                pen.vertex(step.vertex(), line);
            }
        }

        private void ring(int vertex, Color color) {
            if (isSeen(vertex)) {
                TileLayout.Point at = layout.end(vertex);
                double x = view.screenX(at.x());
                double y = view.screenY(at.y());
                out.fillDisc(x, y, 4, scene.palette().paper());
                out.outlineDisc(x, y, 4, new Surface.Line(color, 1.5));
            }
        }

        private void cross(int vertex) {
            if (isSeen(vertex)) {
                TileLayout.Point at = layout.start(vertex);
                double x = view.screenX(at.x());
                double y = view.screenY(at.y());
                Surface.Line line = new Surface.Line(scene.palette().obstacle(), 2);
                out.line(x - 4, y - 4, x + 4, y + 4, line);
                out.line(x - 4, y + 4, x + 4, y - 4, line);
            }
        }

        private void paintLast(SearchStep step) {
            Optional<VertexPath> route = replay.findRouteTo(step.vertex());
            Surface.Line line = new Surface.Line(scene.palette().ink(), 2.5);
            route.ifPresent(r -> pen.route(r.toVertices(), line));
            TileLayout.Point at = layout.end(step.vertex());
            out.outlineDisc(
                    view.screenX(at.x()),
                    view.screenY(at.y()),
                    10,
                    new Surface.Line(scene.palette().selection(), 3));
        }

        /** Cost so far + estimate, where there is room; labels never overlap. */
        private void label(SearchStep.Reached step) {
            if (labels.size() >= MAX_LABELS || !isSeen(step.vertex())) {
                return;
            }
            String text =
                    String.format(
                            Locale.ROOT, "%.3f + %.3f", nanos(step.cost()), nanos(step.ahead()));
            TileLayout.Point at = layout.end(step.vertex());
            Tag tag = new Tag(text, scene.letters(LETTERS), scene.palette().faint());
            Rectangle2D place =
                    new Rectangle2D(
                            view.screenX(at.x()) + 5,
                            view.screenY(at.y()) + 2,
                            tag.width(),
                            tag.height());
            if (labels.stream().anyMatch(place::intersects)) {
                return;
            }
            labels.add(place);
            tag.paint(out, scene.palette(), place.getMinX(), place.getMinY());
        }

        /** The delay in a cost, without the price of obstacles, ns. */
        private static double nanos(long cost) {
            return cost % ObstacleCost.PRICE / 1000.0;
        }
    }
}
