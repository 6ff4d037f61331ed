package padward.ui.group;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import padward.base.Listing;
import padward.breakout.group.Bus;
import padward.breakout.text.PriceText;
import padward.design.PadNames;
import padward.handover.Calibration;
import padward.ui.control.CautionLines;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.control.FileDialogs;
import padward.ui.control.NumberSpinners;

/** The steps of a calibration, one below the other. */
final class CalibrationView extends VBox {
    private static final double MOST_MHZ = 1_000_000;

    /** So many pads are named; the tooltip names all. */
    private static final int MOST_PADS = 12;

    private final CalibrationModel calibration;
    private final Label outcome = Controls.text("");
    private final CheckBox accept = new CheckBox();
    private final VBox cautions = new VBox(2);
    private final Button keep;
    private final Label found = Controls.text("");
    private final GridPane readings = new GridPane();
    private final Button use;

    CalibrationView(CalibrationModel calibration) {
        super(8);
        this.calibration = calibration;
        setId("calibration");
        keep =
                Controls.button(
                        "calibration-keep",
                        "Keep",
                        "Keeps the net on these pads; it can be undone",
                        calibration::keep);
        use =
                Controls.button(
                        "calibration-use",
                        "Use in the ledger",
                        "Gives the kept lines on these pads their measured delays, which the bench"
                                + " sheet and deskew then prefer; it can be undone",
                        calibration::use);
        outcome.setId("calibration-outcome");
        accept.setId("calibration-accept");
        accept.setWrapText(true);
        accept.selectedProperty().bindBidirectional(calibration.acceptedProperty());
        found.setId("calibration-found");
        readings.setId("calibration-readings");
        readings.setHgap(16);
        readings.setVgap(2);
        getChildren()
                .addAll(
                        Controls.text(
                                "1. Bring one net that toggles often out on all pads of the group"
                                        + " (the field Pads above), and keep it.",
                                "small"),
                        net(),
                        outcome,
                        accept,
                        cautions,
                        keep,
                        Controls.text(
                                "2. Load the design, connect all leads as they will stay, capture"
                                        + " the net, and choose the file.",
                                "small"),
                        capture(),
                        found,
                        readings,
                        use,
                        Controls.text(
                                "3. Undo the calibration, keep the real group on the same pads, and"
                                        + " use the measured delays once more.",
                                "small"));
        calibration.routedProperty().addListener((p, old, now) -> showRouted());
        calibration.acceptedProperty().addListener((p, old, now) -> showRouted());
        calibration.readProperty().addListener((p, old, now) -> showRead());
        showRouted();
        showRead();
    }

    private Node net() {
        TextField field = new CompletingField(calibration.names());
        field.setId("calibration-net");
        field.setPromptText("a net that toggles often");
        field.setAccessibleText("Net that is brought out on all pads of the group");
        field.textProperty().bindBidirectional(calibration.netProperty());
        field.setOnAction(e -> calibration.route());
        HBox.setHgrow(field, Priority.ALWAYS);
        return new HBox(
                8,
                field,
                Controls.button(
                        "calibration-route",
                        "Route to all",
                        "Routes the net to every pad of the group",
                        calibration::route));
    }

    private Node capture() {
        TextField file = new TextField();
        file.setId("calibration-capture");
        file.setPromptText("a capture, .vcd or .csv");
        file.setAccessibleText("File of the capture");
        file.textProperty().bindBidirectional(calibration.captureProperty());
        file.setOnAction(e -> calibration.read());
        FileDialogs dialogs = new FileDialogs(file);
        HBox.setHgrow(file, Priority.ALWAYS);
        Button choose =
                Controls.button(
                        "calibration-choose",
                        "Choose…",
                        "Chooses the file of the capture",
                        () -> dialogs.capture().ifPresent(p -> file.setText(p.toString())));
        Spinner<Double> sample =
                NumberSpinners.decimal(0, MOST_MHZ, calibration.sampleMhzProperty().get(), 100);
        sample.getStyleClass().add("medium");
        sample.setId("calibration-sample");
        sample.setAccessibleText("Sample rate of the instrument in megasamples per second");
        sample.setTooltip(
                new Tooltip("Sample rate of the instrument; 0: what it adds is not counted"));
        NumberSpinners.bind(sample, calibration.sampleMhzProperty());
        Label label = new Label("Sample rate, MS/s");
        label.setLabelFor(sample);
        Button read =
                Controls.button(
                        "calibration-read",
                        "Read",
                        "Reads from the capture by how much the lines differ",
                        calibration::read);
        return new VBox(6, new HBox(8, file, choose), new FlowPane(8, 6, label, sample, read));
    }

    private static void present(Node node, boolean shown) {
        node.setVisible(shown);
        node.setManaged(shown);
    }

    private void showRouted() {
        Optional<CalibrationModel.Routed> routed = calibration.routedProperty().get();
        outcome.setText(routed.map(r -> text(r)).orElse(""));
        outcome.setTooltip(routed.map(r -> new Tooltip(String.join(", ", pads(r)))).orElse(null));
        present(outcome, routed.isPresent());
        boolean ask = routed.filter(r -> !r.price().toAccept().isEmpty()).isPresent();
        accept.setText(routed.map(r -> PriceText.acceptance(r.price())).orElse(""));
        present(accept, ask);
        cautions.getChildren()
                .setAll(routed.map(r -> CautionLines.ofShared(r.cautions())).orElse(List.of()));
        present(cautions, routed.isPresent());
        present(keep, routed.isPresent());
        keep.setDisable(!calibration.canKeep());
    }

    private static String text(CalibrationModel.Routed routed) {
        Bus bus = routed.bus();
        int all = bus.lines().size() + bus.left().size();
        StringBuilder text = new StringBuilder();
        text.append(routed.net())
                .append(" reaches ")
                .append(bus.lines().size())
                .append(" of ")
                .append(all)
                .append(all == 1 ? " pad" : " pads");
        if (!bus.lines().isEmpty()) {
            text.append(": ")
                    .append(Listing.first(pads(routed), MOST_PADS))
                    .append(". What it costs: ")
                    .append(PriceText.sentences(routed.price()));
        }
        bus.notServed().forEach(t -> text.append("\nNot served: ").append(t).append('.'));
        return text.toString();
    }

    private static List<String> pads(CalibrationModel.Routed routed) {
        return routed.bus().lines().stream()
                .map(l -> PadNames.placeOf(routed.design(), l.pad()))
                .toList();
    }

    private void showRead() {
        Optional<Calibration> read = calibration.readProperty().get();
        present(found, read.isPresent());
        present(readings, read.isPresent());
        present(use, read.isPresent());
        readings.getChildren().clear();
        if (read.isEmpty()) {
            return;
        }
        List<Calibration.Reading> rows = read.get().readings();
        found.setText(
                String.format(
                        Locale.ROOT,
                        "Read from %d changes of %s. Each line is later than %s by (negative:"
                                + " earlier):",
                        read.get().changes(),
                        read.get().net(),
                        calibration.place(rows.get(0))));
        readings.addRow(
                0,
                Controls.text("pad", "faint"),
                Controls.text("calculated", "faint"),
                Controls.text("measured", "faint"));
        for (int i = 0; i < rows.size(); i++) {
            Calibration.Reading row = rows.get(i);
            int calculated = row.range().middlePs() - rows.get(0).range().middlePs();
            int measured = row.measured().ps() - rows.get(0).measured().ps();
            readings.addRow(
                    i + 1,
                    new Label(calibration.place(row)),
                    new Label(String.format(Locale.ROOT, "%+.3f ns", calculated / 1000.0)),
                    new Label(
                            String.format(
                                    Locale.ROOT,
                                    "%+.3f ns ± %.3f ns",
                                    measured / 1000.0,
                                    row.measured().tolerancePs() / 1000.0)));
        }
    }
}
