package padward.ui.watch;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.beans.property.StringProperty;
import javafx.scene.Node;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.control.FileDialogs;

/** The fields for a netlist of the user's own: its file, its mapping, and what its inputs are. */
final class OwnFields {
    private final Node netlist;
    private final Node mapping;
    private final Node top;
    private final Node bindings;

    /** Ties a field to its text, with what it says while it is empty. */
    interface Binder {
        void bind(TextField field, StringProperty text, String prompt);
    }

    OwnFields(WatchModel watch, Binder binder) {
        WatchFields fields = watch.fields();
        TextField file = named(new TextField(), "watch-netlist", "File of the netlist, .v or .edf");
        binder.bind(file, fields.netlistProperty(), "such as circuit.v");
        TextField types =
                named(
                        new TextField(),
                        "watch-mapping",
                        "File that states the kind of cell of each type in the netlist, .json");
        binder.bind(types, fields.mappingProperty(), "such as mapping.json");
        FileDialogs dialogs = new FileDialogs(file);
        netlist =
                withChoice(
                        file,
                        "watch-choose-netlist",
                        "Chooses the file of the netlist",
                        dialogs::netlist);
        mapping =
                withChoice(
                        types,
                        "watch-choose-mapping",
                        "Chooses the file that says what the netlist's types are",
                        dialogs::mapping);
        TextField module =
                named(
                        new TextField(),
                        "watch-top",
                        "The module that contains all others; needed where more than one could be the top");
        binder.bind(module, fields.topProperty(), "such as counter");
        top = module;
        TextField inputs =
                named(
                        new CompletingField(watch.words()::forNets, OwnFields::isInName),
                        "watch-bind",
                        "Which net each input of the netlist is, separated by commas; inputs that are not named"
                                + " are the nets of the same names");
        binder.bind(inputs, fields.bindingsProperty(), "such as noisy = float_hi");
        bindings = inputs;
    }

    private static boolean isInName(String text, int at) {
        return ",= ".indexOf(text.charAt(at)) < 0;
    }

    private static TextField named(TextField field, String id, String purpose) {
        WatchForm.named(field, id, purpose);
        return field;
    }

    private static Node withChoice(
            TextField field, String id, String purpose, Supplier<Optional<Path>> chosen) {
        HBox.setHgrow(field, Priority.ALWAYS);
        return new HBox(
                8,
                field,
                Controls.button(
                        id,
                        "Choose…",
                        purpose,
                        () -> chosen.get().ifPresent(p -> field.setText(p.toString()))));
    }

    Node netlist() {
        return netlist;
    }

    Node mapping() {
        return mapping;
    }

    Node top() {
        return top;
    }

    Node bindings() {
        return bindings;
    }
}
