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
        TextField file = named(new TextField(), "watch-netlist", "File of the netlist");
        binder.bind(file, fields.netlistProperty(), "a file, .v or .edf");
        TextField types = named(new TextField(), "watch-mapping", "File of the mapping");
        binder.bind(types, fields.mappingProperty(), "a file, .json");
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
                        "Top module of the netlist; empty for the only one");
        binder.bind(module, fields.topProperty(), "if several are possible");
        top = module;
        TextField inputs =
                named(
                        new CompletingField(watch.words()::forNets, OwnFields::isInName),
                        "watch-bind",
                        "What the netlist's inputs are; others are the nets of the same names");
        binder.bind(inputs, fields.bindingsProperty(), "those of the same names, or in=net, …");
        bindings = inputs;
    }

    private static boolean isInName(String text, int at) {
        return ",= ".indexOf(text.charAt(at)) < 0;
    }

    private static TextField named(TextField field, String id, String name) {
        field.setId(id);
        field.setAccessibleText(name);
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
