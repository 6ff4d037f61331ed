package padward.ui.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.breakout.ask.Answer;
import padward.breakout.group.Bus;
import padward.breakout.group.RouteMatrix;
import padward.breakout.text.AnswerText;
import padward.breakout.text.Headline;
import padward.design.PadNames;
import padward.fabric.Pad;
import padward.format.tables.csv.CsvText;
import padward.ui.control.Controls;
import padward.ui.control.ThingMenu;
import padward.ui.draw.Palette;
import padward.ui.model.AppearanceModel;

/**
 * Nets against pads. A cell is filled when the pair is open, in another colour when a port would
 * lose the pad, hatched when it is blocked, empty when there is no route, and has a question mark
 * where a stop came before it was asked about; the chosen pad of a net has a disc, a pinned one a
 * ring around it. To pin a cell: click it, drag along the row to it, or move to it with the arrow
 * keys and press Enter.
 */
final class GroupMatrix extends Canvas {
    private static final double CELL = 20;
    private static final double NAMES = 150;
    private static final double HEADS = 64;
    private static final double WIDEST_TIP = 460;
    private static final KeyCombination COPY =
            new KeyCodeCombination(KeyCode.C, KeyCombination.SHORTCUT_DOWN);

    private final GroupModel group;
    private final AppearanceModel look;
    private final Label message;
    private final Tooltip tip = new Tooltip();
    private String filter = "";

    /** The nets and pads that are listed, by their numbers in the matrix. */
    private List<Integer> nets = List.of();

    private List<Integer> pads = List.of();

    /** Where the keys are, among those that are listed. */
    private int row;

    private int column;

    GroupMatrix(GroupModel group, AppearanceModel look, Label message) {
        this.group = group;
        this.look = look;
        this.message = message;
        setId("group-matrix");
        setFocusTraversable(true);
        setAccessibleText("Nets against pads; arrows move, Enter pins");
        setOnMousePressed(this::point);
        setOnMouseDragged(this::drag);
        setOnMouseReleased(this::release);
        setOnKeyPressed(this::key);
        setOnMouseMoved(this::hover);
        setOnMouseExited(e -> tell(""));
        tip.setWrapText(true);
        tip.setMaxWidth(WIDEST_TIP);
        setOnContextMenuRequested(
                e -> {
                    boolean pair = e.isKeyboardTrigger() || isPair(e.getX(), e.getY());
                    matrix().ifPresent(
                                    m -> menu(m, pair).show(this, e.getScreenX(), e.getScreenY()));
                    e.consume();
                });
        focusedProperty().addListener((p, old, now) -> draw());
    }

    /** Lists only the nets and pads that have the words of a text, each word in its own kind. */
    void filter(String text) {
        filter = text.strip().toLowerCase(Locale.ROOT);
        draw();
    }

    /** What is listed, as a text such as {@code 3 of 8 nets, 4 of 52 pads}; empty for all. */
    String listed() {
        int allNets = matrix().map(m -> m.nets().size()).orElse(0);
        int allPads = matrix().map(m -> m.pads().size()).orElse(0);
        return nets.size() == allNets && pads.size() == allPads
                ? ""
                : nets.size()
                        + " of "
                        + allNets
                        + " nets, "
                        + pads.size()
                        + " of "
                        + allPads
                        + " pads";
    }

    private void list(RouteMatrix seen) {
        List<String> netTexts =
                seen.nets().stream().map(n -> n.name().toLowerCase(Locale.ROOT)).toList();
        List<String> padTexts =
                IntStream.range(0, seen.pads().size()).mapToObj(j -> padText(seen, j)).toList();
        nets = fitting(netTexts, padTexts);
        pads = fitting(padTexts, netTexts);
    }

    /** Those that have all words but the ones that only the others have. */
    private List<Integer> fitting(List<String> texts, List<String> others) {
        List<String> words = new ArrayList<>(List.of(filter.split("[\\s,]+")));
        words.removeIf(
                w ->
                        texts.stream().noneMatch(t -> t.contains(w))
                                && others.stream().anyMatch(t -> t.contains(w)));
        return IntStream.range(0, texts.size())
                .filter(i -> words.stream().allMatch(texts.get(i)::contains))
                .boxed()
                .toList();
    }

    private static String padText(RouteMatrix seen, int index) {
        Pad pad = seen.design().fabric().pads().get(seen.pads().get(index));
        return String.join(" ", padName(seen, index), pad.name(), "bank", pad.bank())
                .toLowerCase(Locale.ROOT);
    }

    /** Why there is no answer for a pair. */
    private String notAsked() {
        return group.growing().get()
                ? "not asked about yet"
                : "not asked about, as the search was stopped";
    }

    private Optional<RouteMatrix> matrix() {
        return group.matrixProperty().get();
    }

    private void point(MouseEvent event) {
        requestFocus();
        int at = rowAt(event.getY());
        if (matrix().isPresent() && at >= 0 && at < nets.size()) {
            row = at;
            drag(event);
        }
    }

    private void drag(MouseEvent event) {
        int at = columnAt(event.getX());
        if (matrix().isPresent() && at >= 0 && at < pads.size()) {
            column = at;
            describe();
            draw();
        }
    }

    private void release(MouseEvent event) {
        if (event.getButton() == MouseButton.PRIMARY
                && columnAt(event.getX()) >= 0
                && rowAt(event.getY()) >= 0) {
            pin();
        }
    }

    /** Names are cut in the heads, and a cell has no text: the pointer is told. */
    private void hover(MouseEvent event) {
        tell(matrix().map(m -> textAt(m, event.getX(), event.getY())).orElse(""));
    }

    private void tell(String text) {
        if (text.equals(tip.getText())) {
            return;
        }
        tip.setText(text);
        if (text.isEmpty()) {
            Tooltip.uninstall(this, tip);
        } else {
            Tooltip.install(this, tip);
        }
    }

    /** The row at a height, pixels; negative above the rows. */
    private int rowAt(double y) {
        return (int) Math.floor((y / letters() - HEADS) / CELL);
    }

    /** The column at a place, pixels from the left; negative left of the columns. */
    private int columnAt(double x) {
        return (int) Math.floor((x / letters() - NAMES) / CELL);
    }

    /** By how much all is larger than at the usual size of text. */
    private double letters() {
        return look.lettersProperty().get();
    }

    /** Whether there is a pair of a net and a pad at a point. */
    private boolean isPair(double x, double y) {
        int i = rowAt(y);
        int j = columnAt(x);
        return matrix().isPresent() && i >= 0 && i < nets.size() && j >= 0 && j < pads.size();
    }

    /** What is at a point: a net's or pad's whole name, or the answer of a pair. */
    private String textAt(RouteMatrix seen, double x, double y) {
        int i = rowAt(y);
        int j = columnAt(x);
        boolean net = i >= 0 && i < nets.size();
        boolean pad = j >= 0 && j < pads.size();
        if (net && pad) {
            return seen.nets().get(nets.get(i)).name()
                    + ": "
                    + seen.known(nets.get(i), pads.get(j))
                            .map(a -> AnswerText.word(a) + " " + Headline.of(a))
                            .orElse(notAsked());
        }
        if (net && j < 0) {
            return seen.nets().get(nets.get(i)).name();
        }
        return pad && i < 0 ? AnswerText.padText(seen.question(0, pads.get(j))) : "";
    }

    /**
     * What can be done.
     *
     * @param pair whether with the pair of the row and the column too
     */
    private ContextMenu menu(RouteMatrix seen, boolean pair) {
        ContextMenu menu = new ContextMenu();
        if (pair && isThere()) {
            boolean pinned = pads.get(column).equals(group.pinned().get(nets.get(row)));
            menu.getItems()
                    .add(ThingMenu.item(pinned ? "Unpin this pair" : "Pin this pair", this::pin));
            menu.getItems()
                    .add(
                            ThingMenu.item(
                                    "Copy the answer",
                                    () ->
                                            ThingMenu.copy(
                                                    sentence(
                                                            seen,
                                                            nets.get(row),
                                                            pads.get(column)))));
        }
        menu.getItems().add(ThingMenu.item("Copy all with heads", () -> ThingMenu.copy(csv(seen))));
        return menu;
    }

    /** Nets against pads: the word of each answer, with its delay where there is a route. */
    private String csv(RouteMatrix seen) {
        List<String> heads = new ArrayList<>(List.of("net"));
        for (int j = 0; j < seen.pads().size(); j++) {
            heads.add(padName(seen, j));
        }
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < seen.nets().size(); i++) {
            List<String> line = new ArrayList<>(List.of(seen.nets().get(i).name()));
            for (int j = 0; j < seen.pads().size(); j++) {
                line.add(seen.known(i, j).map(GroupMatrix::csv).orElse(notAsked()));
            }
            rows.add(line);
        }
        return CsvText.of(heads, rows);
    }

    private static String csv(Answer answer) {
        return AnswerText.word(answer)
                + answer.findRoute().map(r -> " " + r.total().toText()).orElse("");
    }

    private String sentence(RouteMatrix seen, int net, int pad) {
        return seen.known(net, pad)
                .map(AnswerText::sentence)
                .orElse(
                        seen.nets().get(net).name()
                                + " on "
                                + AnswerText.padText(seen.question(net, pad))
                                + ": "
                                + notAsked()
                                + ".");
    }

    private void key(KeyEvent event) {
        if (matrix().isEmpty()) {
            return;
        }
        if (COPY.match(event)) {
            ThingMenu.copy(csv(matrix().get()));
            event.consume();
            return;
        }
        int rows = nets.size();
        int columns = pads.size();
        switch (event.getCode()) {
            case UP -> row = Math.max(0, row - 1);
            case DOWN -> row = Math.max(0, Math.min(rows - 1, row + 1));
            case LEFT -> column = Math.max(0, column - 1);
            case RIGHT -> column = Math.max(0, Math.min(columns - 1, column + 1));
            case ENTER, SPACE -> pin();
            default -> {
                return;
            }
        }
        event.consume();
        describe();
        draw();
    }

    private void pin() {
        Optional<RouteMatrix> seen = matrix();
        if (seen.isEmpty() || !isThere()) {
            return;
        }
        int net = nets.get(row);
        int pad = pads.get(column);
        // What is not known yet is asked when it is pinned.
        if (seen.get().isKnownRoutable(net, pad) || seen.get().known(net, pad).isEmpty()) {
            group.pin(net, pad);
        }
    }

    private boolean isThere() {
        return row < nets.size() && column < pads.size();
    }

    private void describe() {
        RouteMatrix seen = matrix().orElseThrow();
        if (isThere()) {
            message.setText(Controls.withUnits(sentence(seen, nets.get(row), pads.get(column))));
        }
    }

    /** Draws everything. */
    void draw() {
        Optional<RouteMatrix> seen = matrix();
        nets = List.of();
        pads = List.of();
        seen.ifPresent(this::list);
        int rows = nets.size();
        int columns = pads.size();
        row = Math.min(row, Math.max(0, rows - 1));
        column = Math.min(column, Math.max(0, columns - 1));
        setWidth(seen.isEmpty() ? 1 : (NAMES + columns * CELL + 8) * letters());
        setHeight(seen.isEmpty() ? 1 : (HEADS + rows * CELL + 4) * letters());
        GraphicsContext g = getGraphicsContext2D();
        g.clearRect(0, 0, getWidth(), getHeight());
        if (seen.isEmpty()) {
            return;
        }
        Palette palette = look.darkProperty().get() ? Palette.DARK : Palette.LIGHT;
        g.save();
        g.scale(letters(), letters());
        g.setFont(Font.font(11));
        g.setTextBaseline(VPos.CENTER);
        for (int i = 0; i < rows; i++) {
            g.setFill(palette.ink());
            g.setTextAlign(TextAlignment.RIGHT);
            g.fillText(
                    ending(seen.get().nets().get(nets.get(i)).name()),
                    NAMES - 6,
                    HEADS + (i + 0.5) * CELL,
                    NAMES - 10);
            for (int j = 0; j < columns; j++) {
                cell(g, palette, seen.get(), i, j);
            }
        }
        heads(g, palette, seen.get());
        g.restore();
    }

    private void heads(GraphicsContext g, Palette palette, RouteMatrix seen) {
        g.setTextAlign(TextAlignment.LEFT);
        g.setFill(palette.ink());
        for (int j = 0; j < pads.size(); j++) {
            g.save();
            g.translate(NAMES + (j + 0.5) * CELL, HEADS - 5);
            g.rotate(-90);
            g.fillText(padName(seen, pads.get(j)), 0, 0, HEADS - 8);
            g.restore();
        }
    }

    private static String padName(RouteMatrix seen, int index) {
        return PadNames.placeOf(seen.design(), seen.pads().get(index));
    }

    /** The end of a long name, where the members of a vector differ. */
    private static String ending(String name) {
        int most = 24;
        return name.length() <= most ? name : "…" + name.substring(name.length() - most);
    }

    private void cell(GraphicsContext g, Palette palette, RouteMatrix seen, int i, int j) {
        double x = NAMES + j * CELL;
        double y = HEADS + i * CELL;
        Optional<Answer> known = seen.known(nets.get(i), pads.get(j));
        Color fill = palette.paper();
        if (known.filter(a -> a instanceof Answer.Open).isPresent()) {
            fill = palette.paper().interpolate(palette.route(), 0.22);
        } else if (known.filter(a -> a instanceof Answer.TakesPort).isPresent()) {
            fill = palette.paper().interpolate(palette.obstacle(), 0.22);
        }
        g.setFill(fill);
        g.fillRect(x + 1, y + 1, CELL - 2, CELL - 2);
        if (known.filter(a -> a instanceof Answer.Blocked).isPresent()) {
            g.setStroke(palette.obstacle());
            g.setLineWidth(1);
            g.strokeLine(x + 3, y + CELL - 3, x + CELL - 3, y + 3);
            g.strokeLine(x + 3, y + CELL / 2, x + CELL / 2, y + 3);
            g.strokeLine(x + CELL / 2, y + CELL - 3, x + CELL - 3, y + CELL / 2);
        }
        if (known.isEmpty()) {
            g.setFill(palette.faint());
            g.setTextAlign(TextAlignment.CENTER);
            g.fillText("?", x + CELL / 2, y + CELL / 2);
            g.setTextAlign(TextAlignment.RIGHT);
        }
        g.setStroke(palette.faint().deriveColor(0, 1, 1, 0.4));
        g.setLineWidth(1);
        g.strokeRect(x + 0.5, y + 0.5, CELL - 1, CELL - 1);
        if (isChosen(seen, nets.get(i), pads.get(j))) {
            g.setFill(palette.route());
            g.fillOval(x + 5, y + 5, CELL - 10, CELL - 10);
        }
        if (pads.get(j).equals(group.pinned().get(nets.get(i)))) {
            g.setStroke(palette.selection());
            g.setLineWidth(2);
            g.strokeOval(x + 3, y + 3, CELL - 6, CELL - 6);
        }
        if (isFocused() && i == row && j == column) {
            g.setStroke(palette.ink());
            g.setLineWidth(2);
            g.strokeRect(x + 1, y + 1, CELL - 2, CELL - 2);
        }
    }

    private boolean isChosen(RouteMatrix seen, int i, int j) {
        String net = seen.nets().get(i).name();
        int pad = seen.pads().get(j);
        return group.busProperty().get().map(Bus::lines).orElse(List.of()).stream()
                .anyMatch(l -> l.pad() == pad && l.net().name().equals(net));
    }
}
