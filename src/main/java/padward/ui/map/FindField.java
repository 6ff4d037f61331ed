package padward.ui.map;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import padward.ui.control.Action;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.control.NamesOfDesign;
import padward.ui.design.NameRemark;
import padward.ui.design.OpenDesign;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/**
 * The field that finds a name on the map; the map flies there. Where several names fit, it says
 * which of how many is shown, and goes from one to the next.
 */
public final class FindField extends HBox {
    /** Wide enough for its prompt. */
    private static final double WIDTH = 214;

    private static final double LEAST_WIDTH = 130;

    private final WindowModel model;
    private final MapView map;
    private final CompletingField field;
    private final HBox steps = new HBox(4);
    private final Label count = new Label();
    private BackgroundWork.Job finding = () -> {};
    private Optional<Sought> sought = Optional.empty();

    /** What was sought last, where, and what was found. */
    private record Sought(String text, OpenDesign in, FindMatches matches) {}

    /** A match and where it is. */
    private record Shown(FindMatches matches, Optional<FoundPlace> place) {}

    /** Finds things of the open design on this map. */
    public FindField(WindowModel model, MapView map) {
        super(4);
        this.model = model;
        this.map = map;
        this.field =
                new CompletingField(
                        new NamesOfDesign(
                                model.jobs().background(),
                                model.openedProperty()::get,
                                OpenDesign::placeNames,
                                List::of,
                                PlaceOffers::of));
        field.setId("find-field");
        field.setRemarks(
                name ->
                        model.openedProperty()
                                .get()
                                .map(opened -> NameRemark.of(opened, name))
                                .orElse(""));
        field.setPromptText("find on the map");
        field.setAccessibleText("Find a net, cell, pad, site, wire or tile on the map");
        field.prefWidthProperty().bind(model.look().sized(WIDTH));
        // It makes room where the text is large and the window small.
        field.minWidthProperty().bind(model.look().sized(LEAST_WIDTH));
        field.textProperty().addListener((p, old, now) -> forgetUnless(now));
        model.openedProperty().addListener((p, old, now) -> forget());
        field.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        step(e.isShiftDown() ? -1 : 1);
                        e.consume();
                    }
                });
        count.setId("find-count");
        count.getStyleClass().add("faint");
        count.setMinWidth(Region.USE_PREF_SIZE);
        count.setTooltip(new Tooltip());
        steps.setAlignment(Pos.CENTER_LEFT);
        forget();
        setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(field, steps);
    }

    /** Its actions, with their keys. */
    public List<Action> actions() {
        Action previous =
                Action.of(
                        "find-previous",
                        Action.Group.MAP,
                        "Previous match",
                        "Shift+F3",
                        "Shows the match before, where several names fit what is sought",
                        () -> step(-1));
        Action next =
                Action.of(
                        "find-next",
                        Action.Group.MAP,
                        "Next match",
                        "F3",
                        "Shows the next match, where several names fit what is sought; in the"
                                + " field, Enter does the same",
                        () -> step(1));
        Button back = Controls.button(previous, "▲");
        Button further = Controls.button(next, "▼");
        steps.getChildren().setAll(count, back, further);
        return List.of(
                Action.of(
                        "find",
                        Action.Group.MAP,
                        "Find…",
                        "Shortcut+F",
                        "Finds a net, cell, pad, site, wire or tile and shows it on the map",
                        this::enter),
                next,
                previous);
    }

    /** Puts the caret into the field. */
    private void enter() {
        field.requestFocus();
        field.selectAll();
    }

    private void forgetUnless(String text) {
        if (sought.filter(s -> s.text().equals(text)).isEmpty()) {
            forget();
        }
    }

    private void forget() {
        sought = Optional.empty();
        steps.setVisible(false);
        steps.setManaged(false);
    }

    /** Finds what is typed, or shows another match of it when it was found already. */
    private void step(int by) {
        finding.cancel();
        Optional<OpenDesign> opened = model.openedProperty().get();
        String text = field.getText();
        if (opened.isEmpty() || text.isBlank()) {
            enter();
            return;
        }
        OpenDesign in = opened.get();
        Optional<FindMatches> before =
                sought.filter(s -> s.text().equals(text) && s.in() == in).map(Sought::matches);
        finding =
                model.jobs()
                        .background()
                        .start(
                                progress ->
                                        before.map(m -> m.step(by))
                                                .or(() -> FindMatches.find(in, text))
                                                .map(m -> shown(in, m)),
                                shown -> {
                                    boolean same = text.equals(field.getText());
                                    if (same && model.openedProperty().get().equals(opened)) {
                                        show(text, in, shown);
                                    }
                                },
                                fault -> model.notes().add(this, fault));
    }

    private static Shown shown(OpenDesign in, FindMatches matches) {
        return new Shown(matches, NameFinder.find(in, matches.name()));
    }

    private void show(String text, OpenDesign in, Optional<Shown> shown) {
        model.notes().dismissAbout(this);
        if (shown.isEmpty()) {
            forget();
            model.notes()
                    .add(
                            this,
                            "Nothing on the map is named “"
                                    + text.strip()
                                    + "”. Enter the name of a net, cell, pad, site, wire or tile,"
                                    + " or choose one from the list.");
            return;
        }
        FindMatches matches = shown.get().matches();
        sought = Optional.of(new Sought(text, in, matches));
        boolean several = matches.names().size() > 1;
        steps.setVisible(several);
        steps.setManaged(several);
        count.setText(matches.count());
        count.getTooltip().setText(matches.name());
        count.setAccessibleText("Match " + matches.count() + ": " + matches.name());
        if (several) {
            model.notes().done("Found " + matches.name() + ", " + matches.count() + ".");
        }
        shown.get().place().ifPresent(map.navigation()::flyTo);
    }
}
