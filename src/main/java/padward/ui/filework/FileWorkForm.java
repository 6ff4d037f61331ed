package padward.ui.filework;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.BooleanBinding;
import javafx.beans.property.StringProperty;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import padward.ui.control.Controls;

/** The fields of a tool, one below the other: label, field, and a button that chooses a file. */
final class FileWorkForm extends GridPane {
    private static final double FIELD_COLUMNS = 34;

    private final String id;
    private final List<StringProperty> required = new ArrayList<>();
    private int rows;

    /**
     * An empty form.
     *
     * @param id begins the ids of all its controls
     * @param about what the tool does
     */
    FileWorkForm(String id, String about) {
        this.id = id;
        setHgap(8);
        setVgap(8);
        ColumnConstraints labels = new ColumnConstraints();
        labels.setMinWidth(Region.USE_PREF_SIZE);
        ColumnConstraints fields = new ColumnConstraints();
        fields.setHgrow(Priority.ALWAYS);
        getColumnConstraints().addAll(labels, fields);
        Label text = Controls.text(about, "faint");
        text.setMaxWidth(Double.MAX_VALUE);
        add(text, 0, rows++, 3, 1);
    }

    /**
     * Adds a field for a file that must be stated.
     *
     * @param chooser opens the dialog that chooses it
     */
    TextField file(
            String name, String label, StringProperty value, Supplier<Optional<Path>> chooser) {
        required.add(value);
        return row(name, label, "", value, chooser);
    }

    /** Adds a field for a file that can be left out. */
    TextField optional(
            String name, String label, StringProperty value, Supplier<Optional<Path>> chooser) {
        return row(name, label, "may stay empty", value, chooser);
    }

    private TextField row(
            String name,
            String label,
            String prompt,
            StringProperty value,
            Supplier<Optional<Path>> chooser) {
        Button choose =
                Controls.button(
                        id + "-" + name + "-choose",
                        "Choose…",
                        "Opens a dialog for the field “" + label + "”",
                        () -> chooser.get().ifPresent(p -> value.set(p.toString())));
        choose.setAccessibleText("Choose: " + label);
        TextField field = field(name, label, prompt, value);
        add(choose, 2, rows - 1);
        return field;
    }

    /**
     * Adds a field for text that can be left out.
     *
     * @param example what it says while it is empty
     * @param purpose what is stated there, and when it is needed
     */
    void text(String name, String label, String example, String purpose, StringProperty value) {
        TextField field = field(name, label, example, value);
        field.setTooltip(new Tooltip(purpose));
        field.setAccessibleHelp(purpose);
    }

    private TextField field(String name, String label, String prompt, StringProperty value) {
        TextField field = new TextField();
        field.setId(id + "-" + name);
        field.setPromptText(prompt);
        field.setAccessibleText(label);
        field.setPrefColumnCount((int) FIELD_COLUMNS);
        field.textProperty().bindBidirectional(value);
        add(label, field);
        return field;
    }

    /** Adds any control with a label. */
    void add(String label, Node control) {
        Label named = new Label(label);
        named.setLabelFor(control);
        addRow(rows++, named, control);
    }

    /** Adds a control without a label. */
    void add(Region control) {
        control.setMinWidth(Region.USE_PREF_SIZE);
        add(control, 1, rows++, 2, 1);
    }

    /** Whether a field that must be stated is empty. */
    BooleanBinding incomplete() {
        return Bindings.createBooleanBinding(
                () -> required.stream().anyMatch(v -> v.get().isBlank()),
                required.toArray(StringProperty[]::new));
    }
}
