package padward.ui;

import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.Pane;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.breakout.Answer;
import padward.breakout.Hop;
import padward.breakout.Way;
import padward.fabric.Corner;
import padward.fabric.Delay;

/** The strip map: the way as a line to the scale of delay, each hop a mark. */
final class StripMapView extends ScrollPane {
    private static final double HEIGHT = 150;
    private static final double LINE = 96;
    private static final double MARGIN = 70;
    private static final double LABEL_ANGLE = -32;

    private final ExplorerModel model;
    private final Canvas canvas = new Canvas(100, HEIGHT);
    private final ObjectProperty<Palette> palette = new SimpleObjectProperty<>(Palette.LIGHT);
    private Optional<StripLayout> layout = Optional.empty();

    StripMapView(ExplorerModel model) {
        this.model = model;
        setId("strip-map");
        setAccessibleText(
                "Strip map of the way. Left and right choose a hop; the map flies there.");
        setContent(new Pane(canvas));
        setFitToHeight(true);
        setVbarPolicy(ScrollBarPolicy.NEVER);
        setMinHeight(HEIGHT + 16);
        setPrefHeight(HEIGHT + 16);
        getStyleClass().add("strip-map");
        model.answerProperty().addListener((p, old, now) -> paint());
        model.selectedHopProperty().addListener((p, old, now) -> paint());
        model.optionProperty().addListener((p, old, now) -> paint());
        model.trialProperty().addListener((p, old, now) -> paint());
        viewportBoundsProperty().addListener((p, old, now) -> paint());
        palette.addListener((p, old, now) -> paint());
        canvas.setOnMouseClicked(e -> layout.ifPresent(l -> select(l.nearest(e.getX()))));
        addEventFilter(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.LEFT || e.getCode() == KeyCode.RIGHT) {
                        step(e.getCode() == KeyCode.RIGHT ? 1 : -1);
                        e.consume();
                    }
                });
    }

    ObjectProperty<Palette> paletteProperty() {
        return palette;
    }

    private void step(int by) {
        int now = model.selectedHopProperty().get().orElse(by > 0 ? -1 : 0);
        select(now + by);
    }

    private void select(int mark) {
        model.way()
                .ifPresent(
                        w -> {
                            int last = w.hops().size() - 1;
                            int hop = Math.max(0, Math.min(last, mark));
                            model.selectedHopProperty().set(Optional.of(hop));
                        });
    }

    private void paint() {
        Optional<Way> way = model.way();
        double visible = Math.max(100, getViewportBounds().getWidth());
        Corner corner =
                model.answerProperty().get().map(a -> a.question().corner()).orElse(Corner.SLOW);
        layout = way.map(w -> new StripLayout(w, corner, visible, MARGIN));
        double width = Math.max(visible, layout.map(l -> l.end() + MARGIN).orElse(visible));
        canvas.setWidth(width);
        GraphicsContext g = canvas.getGraphicsContext2D();
        g.setFill(palette.get().paper());
        g.fillRect(0, 0, width, HEIGHT);
        if (way.isEmpty()) {
            paintEmpty(g, visible);
        } else {
            paintWay(g, way.get(), layout.get(), corner);
        }
    }

    private void paintEmpty(GraphicsContext g, double visible) {
        boolean noWay =
                model.answerProperty().get().filter(a -> a instanceof Answer.NoWay).isPresent();
        g.setFill(palette.get().faint());
        g.setFont(Font.font(13));
        g.setTextAlign(TextAlignment.CENTER);
        g.setTextBaseline(VPos.CENTER);
        g.fillText(
                noWay
                        ? "There is no way to draw. Try another pad."
                        : "Ask a question, and its way is drawn here to the scale of delay.",
                visible / 2,
                HEIGHT / 2);
    }

    private void paintWay(GraphicsContext g, Way way, StripLayout places, Corner corner) {
        Palette colors = palette.get();
        g.setLineWidth(4);
        for (int i = 1; i < places.count(); i++) {
            boolean own = i <= way.branchHop();
            g.setStroke(own ? colors.net() : colors.way());
            g.setLineWidth(own ? 2 : 4);
            g.strokeLine(places.position(i - 1), LINE, places.position(i), LINE);
        }
        for (int i = 0; i < places.count(); i++) {
            paintMark(g, way, i, places.position(i), corner);
        }
        String basis = "To the scale of " + corner.label() + " delay; marks keep a least distance.";
        g.setFont(Font.font(11));
        g.setFill(colors.faint());
        g.setTextAlign(TextAlignment.LEFT);
        g.fillText(basis, 8, HEIGHT - 8);
    }

    private void paintMark(GraphicsContext g, Way way, int mark, double x, Corner corner) {
        Palette colors = palette.get();
        boolean isHop = mark < way.hops().size();
        Optional<Hop> hop = isHop ? Optional.of(way.hops().get(mark)) : Optional.empty();
        boolean obstacle = hop.flatMap(Hop::obstacle).isPresent();
        boolean selected = model.selectedHopProperty().get().equals(Optional.of(mark));
        g.setFill(obstacle ? colors.obstacle() : colors.paper());
        g.setStroke(obstacle ? colors.obstacle() : colors.ink());
        g.setLineWidth(1.5);
        shape(g, hop, x, obstacle ? 8 : 5);
        if (obstacle) {
            g.setStroke(colors.paper());
            g.setLineWidth(2.5);
            g.strokeLine(x - 4, LINE, x + 4, LINE);
        }
        if (selected) {
            g.setStroke(colors.selection());
            g.setLineWidth(3);
            g.strokeOval(x - 12, LINE - 12, 24, 24);
        }
        String name = hop.map(Hop::name).orElse("pad driver");
        g.save();
        g.translate(x + 2, LINE - 14);
        g.rotate(LABEL_ANGLE);
        g.setFont(Font.font(11));
        g.setTextAlign(TextAlignment.LEFT);
        g.setTextBaseline(VPos.CENTER);
        g.setFill(obstacle ? colors.obstacle() : colors.ink());
        g.fillText(PartPainter.shortened(name, 18), 0, 0);
        g.restore();
        boolean tell = mark == 0 || selected || mark == way.hops().size() - 1 || !isHop || obstacle;
        if (tell) {
            Delay total = hop.map(Hop::total).orElse(way.total());
            g.setFill(colors.ink());
            g.setTextAlign(TextAlignment.CENTER);
            double drop = 20 + 13 * (mark % 3);
            g.fillText(total.toText(), x, LINE + drop);
        }
    }

    /** Wires are dots, pins squares, pads lozenges: the kind shows without a colour. */
    private static void shape(GraphicsContext g, Optional<Hop> hop, double x, double r) {
        switch (hop.map(h -> h.kind().name()).orElse("PAD")) {
            case "WIRE" -> {
                g.fillOval(x - r, LINE - r, 2 * r, 2 * r);
                g.strokeOval(x - r, LINE - r, 2 * r, 2 * r);
            }
            case "PIN" -> {
                g.fillRect(x - r, LINE - r, 2 * r, 2 * r);
                g.strokeRect(x - r, LINE - r, 2 * r, 2 * r);
            }
            default -> {
                double[] xs = {x - r - 2, x, x + r + 2, x};
                double[] ys = {LINE, LINE - r - 2, LINE, LINE + r + 2};
                g.fillPolygon(xs, ys, 4);
                g.strokePolygon(xs, ys, 4);
            }
        }
    }
}
