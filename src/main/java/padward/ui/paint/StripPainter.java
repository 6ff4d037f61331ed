package padward.ui.paint;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import javafx.scene.paint.Color;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Route;
import padward.fabric.VertexKind;
import padward.fabric.delay.Delay;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.scene.StripLayout;
import padward.ui.scene.StripScene;

/** Paints the strip map: the route as a line to the scale of delay, with a mark for each hop. */
public final class StripPainter {
    // Lengths in pixels for letters of the usual size; they grow with the letters.
    private static final double HEIGHT = 150;
    private static final double LEAST_HEIGHT = 90;

    /** Below this, the names need the caption's place. */
    private static final double CAPTION_HEIGHT = 106;

    private static final double MARGIN = 70;
    private static final double LEAST_STEP = 26;
    private static final double BELOW_LINE = 56;
    private static final double TITLE = 18;
    private static final double NO_TITLE = 4;
    private static final double ABOVE_MARK = 14;
    private static final double LETTERS = 11;
    private static final double DELAY_ROW = 13;

    private static final double LABEL_ANGLE = -32;
    private static final int LABEL_ROOM = 18;

    /** Space beside a text, pixels, and the height of its lines in letters. */
    private static final double EDGE = 8;

    private static final double LINE = 1.4;

    private static final int DELAY_ROWS = 3;

    /** Between two delays of a row, pixels. */
    private static final double APART = 6;

    private final StripScene scene;
    private final Palette colors;
    private final Surface out;
    private final double height;

    /** Height of the line with the marks. */
    private final double level;

    /** From where to where each row has delays, so that no two overlap. */
    private final List<List<double[]>> rows = new ArrayList<>();

    /**
     * Paints one scene on one surface.
     *
     * @param height height of the picture, pixels, at least {@link #leastHeight}
     */
    public StripPainter(StripScene scene, Surface out, double height) {
        this.scene = scene;
        this.colors = scene.palette();
        this.out = out;
        this.height = height;
        this.level = height - scene.letters(BELOW_LINE);
    }

    /** Height in which names have enough room, pixels. */
    public static double height(double letters) {
        return HEIGHT * letters;
    }

    /** Height in which names are shortened and the caption is left out, pixels. */
    public static double leastHeight(double letters) {
        return LEAST_HEIGHT * letters;
    }

    /**
     * Where the marks of a scene's route are, given the available width; wider when the marks need
     * more.
     */
    public static Optional<StripLayout> layout(StripScene scene, double width) {
        return scene.route()
                .map(
                        w ->
                                new StripLayout(
                                        w,
                                        scene.corner(),
                                        width,
                                        scene.letters(MARGIN),
                                        scene.letters(LEAST_STEP)));
    }

    /** Width of the whole picture. */
    public static double width(StripScene scene, Optional<StripLayout> layout, double width) {
        double margin = scene.letters(MARGIN);
        return Math.max(width, layout.map(l -> l.end() + margin).orElse(width));
    }

    /**
     * Paints everything, or only the text for an empty strip map when there is no route.
     *
     * @param layout where the hops are; empty when there is no route
     * @param width width of the picture, pixels
     */
    public void paint(Optional<StripLayout> layout, double width) {
        out.fillRect(0, 0, width(scene, layout, width), height, 0, colors.paper());
        if (layout.isEmpty()) {
            paintEmpty(width);
            return;
        }
        rows.clear();
        for (int row = 0; row < DELAY_ROWS; row++) {
            rows.add(new ArrayList<>());
        }
        paintRoute(scene.route().orElseThrow(), layout.get());
    }

    /** The text, in as many lines as the width asks for. */
    private void paintEmpty(double width) {
        Surface.Lettering letters =
                new Surface.Lettering(scene.letters(13), Surface.Align.CENTER, colors.faint());
        List<String> lines =
                Surface.Lettering.lines(scene.empty(), letters.size(), width - 2 * EDGE);
        double step = LINE * letters.size();
        double top = (height - (lines.size() - 1) * step) / 2;
        for (int i = 0; i < lines.size(); i++) {
            out.text(lines.get(i), width / 2, top + i * step, letters);
        }
    }

    private void paintRoute(Route route, StripLayout places) {
        // For a net that is already on the pad, its own wires are the whole route.
        int branch = route.branchHop() < route.hops().size() - 1 ? route.branchHop() : 0;
        for (int i = 1; i < places.count(); i++) {
            boolean own = i <= branch;
            Surface.Line line =
                    own ? new Surface.Line(colors.net(), 2) : new Surface.Line(colors.route(), 4);
            out.line(places.position(i - 1), level, places.position(i), level, line);
        }
        for (int i = 0; i < places.count(); i++) {
            paintMark(route, i, places.position(i));
        }
        places.broken().ifPresent(i -> paintBreak(places.position(i - 1), places.position(i)));
        // The ends and what is selected before the others, which give way to them.
        IntStream.range(0, places.count())
                .boxed()
                .filter(i -> hasDelay(route, i))
                .sorted(Comparator.comparing(i -> isUsed(route, i) && !isSelected(i)))
                .forEach(i -> delay(route, i, places.position(i)));
        caption(places);
    }

    /** What the lengths mean; in short where there is no room. */
    private void caption(StripLayout places) {
        if (!hasCaption()) {
            return;
        }
        double size = scene.letters(LETTERS);
        String text =
                "To the scale of the "
                        + scene.corner().label()
                        + " delays"
                        + (places.broken().isPresent() ? ", but for the broken line" : "");
        String more = text + "; marks keep a minimum distance.";
        boolean fits =
                Surface.Lettering.width(more, size) < places.end() + scene.letters(MARGIN) - 16;
        out.text(
                fits ? more : text + ".",
                8,
                scene.letters(9),
                new Surface.Lettering(size, Surface.Align.LEFT, colors.faint()));
    }

    /** Two strokes across a gap: the line is shorter than its delay. */
    private void paintBreak(double from, double to) {
        double x = (from + to) / 2;
        out.line(x - 4, level, x + 4, level, new Surface.Line(colors.paper(), 6));
        for (double at : new double[] {x - 4, x + 4}) {
            out.line(at - 3, level + 8, at + 3, level - 8, new Surface.Line(colors.ink(), 1.5));
        }
    }

    private static Optional<Hop> hop(Route route, int mark) {
        return mark < route.hops().size() ? Optional.of(route.hops().get(mark)) : Optional.empty();
    }

    private boolean isSelected(int mark) {
        return scene.selected().filter(s -> s == mark).isPresent() || scene.chosen().contains(mark);
    }

    private static boolean isUsed(Route route, int mark) {
        return hop(route, mark).flatMap(Hop::obstacle).isPresent();
    }

    private void paintMark(Route route, int mark, double x) {
        Optional<Hop> hop = hop(route, mark);
        boolean used = isUsed(route, mark);
        shape(hop.map(Hop::kind).orElse(VertexKind.PAD), x, used);
        if (used) {
            out.line(x - 4, level, x + 4, level, new Surface.Line(colors.paper(), 2.5));
        }
        if (isSelected(mark)) {
            out.outlineDisc(x, level, 12, new Surface.Line(colors.selection(), 3));
        }
        String name = hop.map(Hop::name).orElse("pad driver");
        out.text(
                SitePainter.shortened(name, labelRoom()),
                x + 2,
                level - ABOVE_MARK,
                new Surface.Lettering(
                        scene.letters(LETTERS),
                        Surface.Align.LEFT,
                        used ? colors.obstacleInk() : colors.ink(),
                        LABEL_ANGLE));
    }

    private boolean hasCaption() {
        return height >= scene.letters(CAPTION_HEIGHT);
    }

    /** Number of letters that fit between a mark and the caption. */
    private int labelRoom() {
        double rise = level - ABOVE_MARK - scene.letters(hasCaption() ? TITLE : NO_TITLE);
        double length = rise / Math.sin(Math.toRadians(-LABEL_ANGLE));
        return Math.min(LABEL_ROOM, Surface.Lettering.room(length, scene.letters(LETTERS)));
    }

    /** Wires are discs, pins squares, pads lozenges: the kind can be seen without colours. */
    private void shape(VertexKind kind, double x, boolean used) {
        double r = used ? 8 : 5;
        Color fill = used ? colors.obstacle() : colors.paper();
        Surface.Line line = new Surface.Line(used ? colors.obstacle() : colors.ink(), 1.5);
        switch (kind) {
            case WIRE -> {
                out.fillDisc(x, level, r, fill);
                out.outlineDisc(x, level, r, line);
            }
            case PIN -> {
                out.fillRect(x - r, level - r, 2 * r, 2 * r, 0, fill);
                out.outlineRect(x - r, level - r, 2 * r, 2 * r, 0, line);
            }
            case PAD -> {
                double[] xs = {x - r - 2, x, x + r + 2, x};
                double[] ys = {level, level - r - 2, level, level + r + 2};
                out.polygon(xs, ys, fill, line);
            }
        }
    }

    private boolean hasDelay(Route route, int mark) {
        boolean end = mark == 0 || mark >= route.hops().size() - 1;
        return end || isSelected(mark) || isUsed(route, mark);
    }

    /** The delay up to a mark, in the first row where it overlaps no other; else left out. */
    private void delay(Route route, int mark, double x) {
        Delay total = hop(route, mark).map(Hop::total).orElse(route.total());
        String text = total.toText();
        double half = Surface.Lettering.width(text, scene.letters(LETTERS)) / 2;
        int row = 0;
        while (row < DELAY_ROWS
                && rows.get(row).stream().anyMatch(r -> x - half < r[1] && x + half > r[0])) {
            row++;
        }
        if (row == DELAY_ROWS) {
            return;
        }
        rows.get(row).add(new double[] {x - half - APART, x + half + APART});
        out.text(
                text,
                x,
                level + 12 + scene.letters(8 + DELAY_ROW * row),
                new Surface.Lettering(scene.letters(LETTERS), Surface.Align.CENTER, colors.ink()));
    }
}
