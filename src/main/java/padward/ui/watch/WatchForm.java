package padward.ui.watch;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.StringProperty;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.DragEvent;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import padward.ui.control.Choices;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.control.NumberSpinners;
import padward.ui.model.AppearanceModel;
import padward.watch.request.CircuitSort;
import padward.watch.request.CircuitSort.Part;

/** The fields that state a circuit; only those that belong to its sort are there. */
final class WatchForm extends VBox {
    private static final int MOST = 65_536;
    private static final double NAMES = 84;

    private final WatchModel watch;
    private final AppearanceModel look;
    private final Label purpose = Controls.text("", "faint", "small");
    private final Map<Part, Node> rows = new EnumMap<>(Part.class);
    private final ConditionField when;
    private final ConditionField reset;
    private final Label padName = new Label();
    private Runnable asking = () -> {};

    WatchForm(WatchModel watch, AppearanceModel look) {
        super(6);
        this.watch = watch;
        this.look = look;
        WatchFields fields = watch.fields();
        when =
                new ConditionField(
                        "watch-when",
                        "Condition that the circuit shows",
                        watch.words(),
                        watch.whenFaultProperty());
        reset =
                new ConditionField(
                        "watch-reset",
                        "Condition under which it begins again",
                        watch.words(),
                        watch.resetFaultProperty());
        bind(when.field(), fields.whenProperty(), "such as sample[1:0] == 2b11");
        bind(reset.field(), fields.resetProperty(), "such as !run/hold");
        CompletingField nets =
                new CompletingField(watch.words()::forNets, WatchForm::isBetweenCommas);
        named(nets, "watch-nets", "Nets that the circuit observes: names or patterns");
        bind(nets, fields.netsProperty(), "such as level/sample*");
        CompletingField steer =
                new CompletingField(watch.words()::forPadsAndNets, WatchForm::isBetweenCommas);
        named(steer, "watch-by", "Nets or pads whose levels choose, the lowest bit first");
        bind(steer, fields.steerProperty(), "such as J2.1, J2.2");
        CompletingField clock = new CompletingField(watch.words()::forNet, (text, at) -> true);
        named(
                clock,
                "watch-clock",
                "Clock of the circuit's registers; where it is left out, that of the registers that"
                        + " drive the nets, or the only one of the design");
        bind(clock, fields.clockProperty(), "such as clk12");
        CompletingField pads =
                new CompletingField(watch.words()::forPads, WatchForm::isBetweenCommas);
        named(
                pads,
                "watch-pad",
                "Pad for the output: a pad, a pin, a port or a pin of a header; for count, a second"
                        + " one for the marker");
        bind(pads, fields.padsProperty(), "such as J1.3");
        rows.put(Part.NETS, row(Part.NETS, nets));
        rows.put(Part.WHEN, row(Part.WHEN, when));
        rows.put(Part.RESET, row(Part.RESET, reset));
        rows.put(Part.STEER, row(Part.STEER, steer));
        rows.put(
                Part.DIVISOR,
                row(Part.DIVISOR, number("watch-divisor", "Divisor", fields.divisorProperty())));
        rows.put(
                Part.CYCLES,
                row(
                        Part.CYCLES,
                        number("watch-cycles", "Cycles of the clock", fields.cyclesProperty())));
        rows.put(Part.REGISTERED, row(new Label(), registered()));
        OwnFields own = new OwnFields(watch, this::bind);
        rows.put(Part.NETLIST, row(Part.NETLIST, own.netlist()));
        rows.put(Part.MAPPING, row(Part.MAPPING, own.mapping()));
        rows.put(Part.TOP, row(Part.TOP, own.top()));
        rows.put(Part.BIND, row(Part.BIND, own.bindings()));
        getChildren().addAll(row(new Label("Circuit"), sorts()), purpose);
        for (Part part : Part.values()) {
            getChildren().add(rows.get(part));
        }
        getChildren()
                .addAll(
                        row(new Label("Clock"), clock),
                        row(padName, pads),
                        row(new Label(), mayMove()));
        setOnDragOver(WatchForm::dragOver);
        setOnDragDropped(this::dropped);
        fields.sortProperty().addListener((p, old, now) -> show());
        show();
    }

    /** What Enter in a field does. */
    void onAsk(Runnable work) {
        asking = work;
    }

    /** Puts the caret to the first fault in a condition; false when there is none to go to. */
    boolean goToFault() {
        CircuitSort sort = watch.fields().sortProperty().get();
        return sort.has(Part.WHEN) && when.goToFault() || sort.has(Part.RESET) && reset.goToFault();
    }

    private static boolean isBetweenCommas(String text, int at) {
        char c = text.charAt(at);
        return c != ',' && c != ' ';
    }

    /**
     * Gives a field its id and its purpose, for those who point at it and those who hear it: its
     * name is how the purpose begins.
     */
    static void named(TextField field, String id, String purpose) {
        field.setId(id);
        field.setAccessibleText(purpose.split("[:;,]", 2)[0]);
        field.setAccessibleHelp(purpose);
        field.setTooltip(new Tooltip(purpose));
    }

    private void bind(TextField field, StringProperty text, String prompt) {
        field.setPromptText(prompt);
        field.textProperty().bindBidirectional(text);
        field.setOnAction(e -> asking.run());
    }

    private Node sorts() {
        ChoiceBox<CircuitSort> box = Choices.box();
        box.getItems().setAll(CircuitSort.values());
        box.setConverter(new SortNames());
        box.valueProperty().bindBidirectional(watch.fields().sortProperty());
        box.setId("watch-sort");
        box.setAccessibleText("Sort of circuit");
        return box;
    }

    private Node number(String id, String name, IntegerProperty value) {
        Spinner<Integer> spinner = NumberSpinners.whole(2, MOST, value.get(), 1);
        spinner.setId(id);
        spinner.setAccessibleText(name);
        spinner.prefWidthProperty().bind(look.sized(110));
        spinner.valueProperty().addListener((p, old, now) -> value.set(now));
        value.addListener((p, old, now) -> spinner.getValueFactory().setValue(now.intValue()));
        return spinner;
    }

    private Node registered() {
        CheckBox box = new CheckBox("through a register before the pad");
        box.setId("watch-registered");
        box.setWrapText(true);
        box.setTooltip(
                new Tooltip("With it the pin shows no glitches, and is a cycle of the clock late"));
        box.selectedProperty().bindBidirectional(watch.fields().registeredProperty());
        return box;
    }

    private Node mayMove() {
        CheckBox box = new CheckBox("other nets and cells may be moved");
        box.setId("watch-may-move");
        box.setWrapText(true);
        box.setTooltip(
                new Tooltip(
                        "Where it does not fit otherwise, nets are rerouted and cells relocated;"
                                + " the answer names them and what that delays"));
        box.selectedProperty().bindBidirectional(watch.fields().mayMoveProperty());
        return box;
    }

    private HBox row(Part part, Node field) {
        return row(new Label(nameOf(part)), field);
    }

    private HBox row(Label name, Node field) {
        name.setMinWidth(Region.USE_PREF_SIZE);
        name.prefWidthProperty().bind(look.sized(NAMES));
        name.setPadding(new Insets(8, 0, 0, 0));
        HBox.setHgrow(field, Priority.ALWAYS);
        return new HBox(8, name, field);
    }

    private static String nameOf(Part part) {
        return switch (part) {
            case NETS -> "Nets";
            case WHEN -> "When";
            case RESET -> "Reset when";
            case STEER -> "Chosen by";
            case DIVISOR -> "Divided by";
            case CYCLES -> "Cycles";
            case REGISTERED -> "Register";
            case NETLIST -> "Netlist";
            case MAPPING -> "Mapping";
            case TOP -> OwnFiles.TOP;
            case BIND -> "Inputs";
        };
    }

    /** The name on screen of what an option states. */
    static String nameOf(String option, CircuitSort sort) {
        return switch (option) {
            case "--pad" -> "Pad";
            case "--clock" -> "Clock";
            default ->
                    List.of(Part.values()).stream()
                            .filter(p -> p.option().equals(option) && sort.has(p))
                            .findFirst()
                            .map(WatchForm::nameOf)
                            .orElse(option);
        };
    }

    private void show() {
        CircuitSort sort = watch.fields().sortProperty().get();
        purpose.setText("The pin is " + sort.purpose() + ".");
        padName.setText(sort.hasSeveralPads() ? "Pads" : "Pad");
        rows.forEach(
                (part, row) -> {
                    row.setVisible(sort.has(part));
                    row.setManaged(sort.has(part));
                });
    }

    private static void dragOver(DragEvent event) {
        if (event.getDragboard().hasString()) {
            event.acceptTransferModes(TransferMode.COPY);
            event.consume();
        }
    }

    private void dropped(DragEvent event) {
        if (event.getDragboard().hasString()) {
            watch.fields().add(WatchFields.words(event.getDragboard().getString()));
            event.setDropCompleted(true);
            event.consume();
        }
    }

    private static final class SortNames extends StringConverter<CircuitSort> {
        @Override
        public String toString(CircuitSort sort) {
            return sort == null ? "" : sort.label();
        }

        @Override
        public CircuitSort fromString(String text) {
            throw new UnsupportedOperationException("nothing is typed there");
        }
    }
}
