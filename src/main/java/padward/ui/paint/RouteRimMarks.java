package padward.ui.paint;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Point2D;
import javafx.geometry.Rectangle2D;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Route;
import padward.design.Design;
import padward.design.PadNames;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;

/**
 * Marks of a route at the rim of the map: arrowheads where it comes into the picture and leaves it,
 * and where it comes from and leads to, where its ends are not in the picture.
 */
final class RouteRimMarks {
    private static final double LETTERS = 12;
    private static final double MARGIN = 4;

    /** A longer name would cover much of a small map. */
    private static final int MOST_LETTERS = 32;

    /** Distance of a tag from its line, pixels. */
    private static final double BESIDE = 9;

    /** The part of a leg that is in the picture, pixels, and which of its ends are at the rim. */
    private record Part(Point2D from, Point2D to, boolean isCutBefore, boolean isCutAfter) {}

    private final MapScene scene;
    private final Surface out;
    private final Viewport view;
    private final Rectangle2D picture;

    RouteRimMarks(MapScene scene, Surface out) {
        this.scene = scene;
        this.out = out;
        this.view = scene.view();
        double ruler = scene.shows(MapLayer.RULERS) ? RulerPainter.breadth(scene) : 0;
        this.picture =
                new Rectangle2D(
                        0,
                        0,
                        Math.max(0, view.width() - RulerPainter.WIDER * ruler),
                        Math.max(0, view.height() - ruler));
    }

    /** Paints what is needed, tags beside what is taken, and adds their places to it. */
    void paint(Route route, List<Rectangle2D> taken) {
        List<Part> parts = parts(route);
        if (parts.isEmpty()) {
            return;
        }
        parts.forEach(this::arrowheads);
        Part first = parts.get(0);
        Part last = parts.get(parts.size() - 1);
        if (first.isCutBefore()) {
            scene.net()
                    .map(n -> "from " + SitePainter.shortened(n.name(), MOST_LETTERS))
                    .ifPresent(t -> tag(t, first.from(), first, taken));
        }
        if (last.isCutAfter()) {
            Design design = scene.opened().design();
            int end = route.hops().get(route.hops().size() - 1).vertex();
            design.fabric()
                    .findPadAt(end)
                    .map(p -> PadNames.placeOf(design, design.fabric().pads().indexOf(p)))
                    .ifPresent(p -> tag("to " + p, last.to(), last, taken));
        }
    }

    private void arrowheads(Part part) {
        Point2D along = part.to().subtract(part.from());
        if (along.magnitude() < 2 * Arrowhead.LENGTH) {
            return;
        }
        Point2D step = along.normalize().multiply(0.7 * Arrowhead.LENGTH);
        if (part.isCutBefore()) {
            arrowhead(part.from().add(step), along);
        }
        if (part.isCutAfter()) {
            arrowhead(part.to().subtract(step), along);
        }
    }

    private void arrowhead(Point2D at, Point2D along) {
        Arrowhead.paint(
                out,
                scene.palette(),
                at.getX(),
                at.getY(),
                along.getX(),
                along.getY(),
                scene.palette().route());
    }

    /** What is in the picture of the legs of a route, in the signal's order. */
    private List<Part> parts(Route route) {
        List<Part> result = new ArrayList<>();
        new MapPen(scene, out)
                .route(
                        route.hops().stream().mapToInt(Hop::vertex).toArray(),
                        (x0, y0, x1, y1) ->
                                clip(
                                                new Point2D(view.screenX(x0), view.screenY(y0)),
                                                new Point2D(view.screenX(x1), view.screenY(y1)),
                                                picture)
                                        .ifPresent(result::add));
        return result;
    }

    /** The part of a leg in a rectangle: Liang and Barsky, ACM Transactions on Graphics 3, 1984. */
    private static Optional<Part> clip(Point2D from, Point2D to, Rectangle2D within) {
        double dx = to.getX() - from.getX();
        double dy = to.getY() - from.getY();
        double[] steps = {-dx, dx, -dy, dy};
        double[] rooms = {
            from.getX() - within.getMinX(),
            within.getMaxX() - from.getX(),
            from.getY() - within.getMinY(),
            within.getMaxY() - from.getY()
        };
        double enters = 0;
        double leaves = 1;
        for (int side = 0; side < steps.length; side++) {
            double share = rooms[side] / steps[side];
            if (steps[side] == 0 && rooms[side] < 0) {
                return Optional.empty();
            } else if (steps[side] < 0) {
                enters = Math.max(enters, share);
            } else if (steps[side] > 0) {
                leaves = Math.min(leaves, share);
            }
        }
        return enters > leaves
                ? Optional.empty()
                : Optional.of(
                        new Part(
                                from.interpolate(to, enters),
                                from.interpolate(to, leaves),
                                enters > 0,
                                leaves < 1));
    }

    /** Beside a point at the rim, over nothing that is taken and, if there is room, not its leg. */
    private void tag(String text, Point2D at, Part leg, List<Rectangle2D> taken) {
        Tag tag = new Tag(text, scene.letters(LETTERS), scene.palette().route());
        List<Rectangle2D> places = new ArrayList<>();
        for (double top : new double[] {at.getY() - BESIDE - tag.height(), at.getY() + BESIDE}) {
            for (double left :
                    new double[] {at.getX() + BESIDE, at.getX() - BESIDE - tag.width()}) {
                places.add(
                        new Rectangle2D(
                                clamp(left, picture.getWidth() - tag.width()),
                                clamp(top, picture.getHeight() - tag.height()),
                                tag.width(),
                                tag.height()));
            }
        }
        places.removeIf(p -> taken.stream().anyMatch(p::intersects));
        places.stream()
                .filter(p -> clip(leg.from(), leg.to(), p).isEmpty())
                .findFirst()
                .or(() -> places.stream().findFirst())
                .ifPresent(
                        p -> {
                            taken.add(p);
                            tag.paint(out, scene.palette(), p.getMinX(), p.getMinY());
                        });
    }

    private static double clamp(double wanted, double most) {
        return Math.max(MARGIN, Math.min(wanted, most - MARGIN));
    }
}
