package padward.ui.map;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import javafx.geometry.Pos;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import padward.ui.control.CompletingField;
import padward.ui.design.OpenDesign;
import padward.ui.design.SearchableNames;
import padward.ui.model.Suggestions;
import padward.ui.model.WindowModel;

/** The field that finds a name on the map; the map flies there. */
public final class FindField extends HBox {
    /** Wide enough for its prompt. */
    private static final double WIDTH = 214;

    private final WindowModel model;
    private final MapView map;
    private final CompletingField field;

    /** Finds things of the open design on this map. */
    public FindField(WindowModel model, MapView map) {
        this.model = model;
        this.map = map;
        this.field = new CompletingField(this::names);
        field.setId("find-field");
        field.setPromptText("find a name on the map");
        field.setAccessibleText("Find a net, cell, pad, site, wire or tile on the map");
        field.prefWidthProperty().bind(model.look().sized(WIDTH));
        field.minWidthProperty().bind(field.prefWidthProperty());
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

    private SearchableNames names() {
        return model.openedProperty()
                .get()
                .map(OpenDesign::placeNames)
                .orElse(SearchableNames.NONE);
    }

    private void find() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty() || field.getText().isBlank()) {
            return;
        }
        OptionalInt vertex = NameFinder.find(opened.get(), field.getText());
        if (vertex.isEmpty()) {
            // A part of a name that fits only one thing means that thing.
            List<String> fitting = Suggestions.of(field.getText(), names(), List.of());
            if (fitting.size() == 1) {
                vertex = NameFinder.find(opened.get(), fitting.get(0));
            }
        }
        model.notes().dismissAbout(this);
        if (vertex.isPresent()) {
            map.navigation().flyTo(vertex.getAsInt());
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
