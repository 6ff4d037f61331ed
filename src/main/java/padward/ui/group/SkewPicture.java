package padward.ui.group;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.breakout.group.Bus;
import padward.breakout.group.MatchedGroup;
import padward.fabric.delay.Delay;
import padward.ui.draw.Palette;
import padward.ui.model.AppearanceModel;

/**
 * When each line of a group arrives at the instrument, on one axis of time: a bar from the fast
 * corner to the slow. After matching, a thin dashed line above the bar shows the arrival before.
 */
final class SkewPicture extends Canvas {
    private static final double ROW = 20;
    private static final double NAMES = 150;
    private static final double AXIS = 26;
    private static final double END = 12;

    private final GroupModel group;
    private final AppearanceModel look;

    SkewPicture(GroupModel group, AppearanceModel look) {
        this.group = group;
        this.look = look;
        setId("group-skew");
    }

    /** Draws everything in this width, pixels. */
    void draw(double width) {
        List<Bus.Line> lines = group.busProperty().get().map(Bus::lines).orElse(List.of());
        double letters = look.lettersProperty().get();
        double wide = Math.max(NAMES + 120, width / letters);
        setWidth(wide * letters);
        setHeight(lines.isEmpty() ? 1 : (lines.size() * ROW + AXIS) * letters);
        GraphicsContext g = getGraphicsContext2D();
        g.clearRect(0, 0, getWidth(), getHeight());
        if (lines.isEmpty()) {
            return;
        }
        Palette palette = look.darkProperty().get() ? Palette.DARK : Palette.LIGHT;
        int last = 0;
        int first = Integer.MAX_VALUE;
        for (int i = 0; i < lines.size(); i++) {
            Delay now = group.atInstrument(lines.get(i));
            Delay was = before(i).orElse(now);
            last = Math.max(last, Math.max(now.slowPs(), was.slowPs()));
            first = Math.min(first, Math.min(now.fastPs(), was.fastPs()));
        }
        int from = first / 500 * 500;
        double scale = (wide - NAMES - END) / Math.max(1, last - from);
        g.save();
        g.scale(letters, letters);
        g.setFont(Font.font(11));
        g.setTextBaseline(VPos.CENTER);
        axis(g, palette, from, last, scale, lines.size() * ROW);
        for (int i = 0; i < lines.size(); i++) {
            double y = i * ROW;
            g.setFill(palette.ink());
            g.setTextAlign(TextAlignment.RIGHT);
            String name = lines.get(i).net().name();
            g.fillText(
                    name.length() <= 24 ? name : "…" + name.substring(name.length() - 24),
                    NAMES - 6,
                    y + ROW / 2,
                    NAMES - 10);
            Delay now = group.atInstrument(lines.get(i));
            g.setFill(palette.route());
            g.fillRoundRect(x(now.fastPs(), from, scale), y + 7, width(now, scale), 9, 4, 4);
            Optional<Delay> was = before(i).filter(d -> !d.equals(now));
            if (was.isPresent()) {
                g.setStroke(palette.obstacle());
                g.setLineWidth(2);
                g.setLineDashes(5, 3);
                double x = x(was.get().fastPs(), from, scale);
                g.strokeLine(x, y + 3.5, x + width(was.get(), scale), y + 3.5);
                g.setLineDashes();
            }
        }
        g.restore();
    }

    private Optional<Delay> before(int index) {
        return group.matchedProperty()
                .get()
                .map(MatchedGroup::before)
                .map(b -> group.atInstrument(b.lines().get(index)));
    }

    private static double x(int ps, int from, double scale) {
        return NAMES + (ps - from) * scale;
    }

    private static double width(Delay delay, double scale) {
        return Math.max(2, delay.spreadPs() * scale);
    }

    private static void axis(
            GraphicsContext g, Palette palette, int from, int last, double scale, double bottom) {
        int step = 500;
        while ((last - from) / step > 5) {
            step *= 2;
        }
        for (int ps = from; ps <= last; ps += step) {
            double x = x(ps, from, scale);
            g.setStroke(palette.faint().deriveColor(0, 1, 1, 0.4));
            g.setLineWidth(1);
            g.strokeLine(x, 0, x, bottom + 4);
            g.setFill(palette.faint());
            g.setTextAlign(TextAlignment.CENTER);
            g.fillText(String.format(Locale.ROOT, "%.1f ns", ps / 1000.0), x, bottom + 14);
        }
    }
}
