package padward.ui.map;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import padward.ui.control.CompletingField;
import padward.ui.control.NamesOfDesign;
import padward.ui.design.OpenDesign;
import padward.ui.model.Suggestions;
import padward.ui.model.WindowModel;
import padward.ui.work.Background;

/** The field that finds a name on the map; the map flies there. */
public final class FindField extends HBox {
    /** Wide enough for its prompt. */
    private static final double WIDTH = 214;

    private static final double LEAST_WIDTH = 130;

    private final WindowModel model;
    private final MapView map;
    private final CompletingField field;
    private Background.Job finding = () -> {};

    /** Finds things of the open design on this map. */
    public FindField(WindowModel model, MapView map) {
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
        field.setPromptText("find a name on the map");
        field.setAccessibleText("Find a net, cell, pad, site, wire or tile on the map");
        field.prefWidthProperty().bind(model.look().sized(WIDTH));
        // It makes room where the text is large and the window small.
        field.minWidthProperty().bind(model.look().sized(LEAST_WIDTH));
        field.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        find();
                        e.consume();
                    }
                });
        setAlignment(Pos.CENTER_LEFT);
        getChildren().add(field);
    }

    /** Puts the caret into the field. */
    public void enter() {
        field.requestFocus();
        field.selectAll();
    }

    private void find() {
        finding.cancel();
        Optional<OpenDesign> opened = model.openedProperty().get();
        String text = field.getText();
        if (opened.isEmpty() || text.isBlank()) {
            return;
        }
        finding =
                model.jobs()
                        .background()
                        .start(
                                progress -> find(opened.get(), text),
                                place -> {
                                    boolean same = text.equals(field.getText());
                                    if (same && model.openedProperty().get().equals(opened)) {
                                        show(place);
                                    }
                                },
                                fault -> model.notes().add(this, fault));
    }

    /** Where what is named is; looks at all names if need be. */
    private static Optional<FoundPlace> find(OpenDesign opened, String text) {
        Optional<FoundPlace> place = NameFinder.find(opened, text);
        if (place.isPresent()) {
            return place;
        }
        // A part of a name that fits only one thing means that thing.
        List<String> fitting = Suggestions.of(text, opened.placeNames(), List.of());
        return fitting.size() == 1 ? NameFinder.find(opened, fitting.get(0)) : place;
    }

    private void show(Optional<FoundPlace> place) {
        model.notes().dismissAbout(this);
        if (place.isPresent()) {
            map.navigation().flyTo(place.get());
        } else {
            model.notes()
                    .add(
                            this,
                            "Nothing on the map is named “"
                                    + field.getText().strip()
                                    + "”. Enter the name of a net, cell, pad, site, wire or tile, or"
                                    + " choose one from the list.");
        }
    }
}
