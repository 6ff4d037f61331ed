package padward.ui.watch;

import java.util.List;
import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.beans.value.ObservableValue;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import padward.base.BadInput;
import padward.breakout.text.PriceText;
import padward.ui.control.CautionLines;
import padward.ui.control.Controls;
import padward.ui.control.LinkedText;
import padward.ui.map.MapModel;
import padward.ui.model.AppearanceModel;
import padward.ui.scene.MapOverlay;
import padward.watch.place.WatchResult;

/** The panel for watch circuits: what is asked, the answer, the diagram, and what it costs. */
public final class WatchView extends ScrollPane {
    private static final double BAR = 14;

    private final WatchModel watch;
    private final WatchForm form;
    private final VBox answer = new VBox();
    private final Label changed = Controls.text("", "faint", "small");
    private final CheckBox accept = new CheckBox();
    private final VBox details = new VBox(3);
    private final VBox cautions = new VBox(2);
    private final DiagramCanvas diagram;
    private final ScrollPane picture;
    private final Button keep;
    private final Button drop;
    private final Hyperlink smaller;
    private final Hyperlink fewer;
    private final Hyperlink moving;

    /** Shows one circuit in the colours of the window, while it waits to be kept on the map too. */
    public WatchView(WatchModel watch, MapModel map) {
        this.watch = watch;
        AppearanceModel look = map.explorer().look();
        setId("watch");
        getStyleClass().addAll("side-part", "plain-scroll");
        setFitToWidth(true);
        this.form = new WatchForm(watch, look);
        this.diagram = new DiagramCanvas(look);
        this.picture = new ScrollPane(diagram);
        picture.getStyleClass().add("plain-scroll");
        picture.setFocusTraversable(false);
        picture.setVbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        picture.widthProperty().addListener((p, old, now) -> diagram.fit(now.doubleValue() - 2));
        picture.minHeightProperty().bind(diagram.heightProperty().add(BAR));
        Button ask =
                Controls.button(
                        "watch-ask",
                        "Ask",
                        "Places the circuit on unused cells and wires; nothing is changed yet",
                        this::ask);
        keep =
                Controls.button(
                        "watch-keep", "Keep", "Keeps the circuit; it can be undone", watch::keep);
        drop =
                Controls.button(
                        "watch-drop",
                        "Drop",
                        "Takes the circuit off the map; nothing was changed",
                        watch::drop);
        smaller =
                link(
                        "watch-smaller",
                        "Ask without a register",
                        "Asks for the same circuit without a register before the pad",
                        watch::askWithoutRegister);
        fewer =
                link(
                        "watch-fewer",
                        "Ask with the first nets",
                        "Asks for the same circuit with as many of the first nets as fit",
                        watch::askWithFewerNets);
        moving =
                link(
                        "watch-moving",
                        "Ask with others moved",
                        "Asks for the same circuit with other nets and cells moved to make room",
                        watch::askMoving);
        answer.setId("watch-answer");
        changed.setId("watch-changed");
        details.setId("watch-details");
        cautions.setId("watch-cautions");
        accept.setId("watch-accept");
        accept.setWrapText(true);
        accept.selectedProperty().bindBidirectional(watch.acceptedProperty());
        HBox buttons = new HBox(8, ask, keep, drop);
        buttons.setAlignment(Pos.CENTER_LEFT);
        VBox all =
                new VBox(
                        8, form, buttons, changed, answer, smaller, fewer, moving, accept, picture,
                        details, cautions);
        all.setPadding(new Insets(10, 12, 10, 12));
        setContent(all);
        watch.outcomeProperty().addListener((p, old, now) -> show());
        watch.asAskedProperty().addListener((p, old, now) -> show());
        watch.acceptedProperty().addListener((p, old, now) -> show());
        watch.keptProperty().addListener((p, old, now) -> show());
        form.onAsk(this::ask);
        ObservableValue<Boolean> seen =
                parentProperty().flatMap(Node::visibleProperty).orElse(false);
        map.addPanelOverlay(
                Bindings.createObjectBinding(
                        () ->
                                watch.fitting()
                                        .filter(f -> seen.getValue())
                                        .map(WatchOutcome.Fits::result)
                                        .<MapOverlay>map(CircuitOverlay::new),
                        watch.outcomeProperty(),
                        seen));
        show();
    }

    private static Hyperlink link(String id, String name, String purpose, Runnable work) {
        Hyperlink link = new Hyperlink(name);
        link.setId(id);
        link.setAccessibleText(purpose);
        link.setTooltip(new Tooltip(purpose));
        link.setOnAction(
                e -> {
                    link.setVisited(false);
                    work.run();
                });
        return link;
    }

    private void ask() {
        if (!form.goToFault()) {
            watch.ask();
        }
    }

    private void show() {
        Optional<WatchOutcome.Fits> fits = watch.fitting();
        boolean asAsked = watch.asAskedProperty().get();
        keep.setDisable(fits.isEmpty() || !asAsked || !watch.isAccepted());
        drop.setDisable(watch.outcomeProperty().get().isEmpty());
        changed.setText(
                asAsked
                        ? ""
                        : "This is the circuit as it was asked for. You have changed the fields:"
                                + " press Enter to ask again.");
        present(changed, !asAsked);
        Optional<WatchOutcome> outcome = watch.outcomeProperty().get();
        answer.getChildren()
                .setAll(
                        new LinkedText(
                                watch.window(), outcome.map(this::text).orElseGet(this::empty)));
        // The links promise the same circuit: they ask for what the fields say.
        Optional<WatchOutcome.DoesNotFit> not =
                outcome.filter(o -> asAsked)
                        .filter(WatchOutcome.DoesNotFit.class::isInstance)
                        .map(WatchOutcome.DoesNotFit.class::cast);
        present(smaller, not.flatMap(WatchOutcome.DoesNotFit::smaller).isPresent());
        present(fewer, not.flatMap(WatchOutcome.DoesNotFit::fewer).isPresent());
        present(moving, not.flatMap(WatchOutcome.DoesNotFit::moving).isPresent());
        boolean consent = fits.filter(f -> !f.price().toAccept().isEmpty()).isPresent();
        accept.setText(fits.map(f -> PriceText.acceptance(f.price())).orElse(""));
        present(accept, consent);
        showDiagram(fits);
        details.getChildren()
                .setAll(
                        fits.map(WatchOutcome.Fits::details).orElse(List.of()).stream()
                                .map(t -> new LinkedText(watch.window(), t, "small"))
                                .toList());
        cautions.getChildren()
                .setAll(fits.map(f -> CautionLines.ofShared(f.cautions())).orElse(List.of()));
    }

    private String empty() {
        String kept = watch.keptProperty().get();
        return kept.isEmpty()
                ? "Say what the pin is to show and on which pad, then press Enter. Nets can be dragged"
                        + " here from the list under Nets."
                : kept;
    }

    private String text(WatchOutcome outcome) {
        if (outcome instanceof WatchOutcome.Fits fits) {
            return fits.sentence();
        }
        if (outcome instanceof WatchOutcome.DoesNotFit not) {
            return not.sentence()
                    + not.smaller().map(s -> " " + s).orElse("")
                    + not.fewer().map(f -> " " + f.text()).orElse("")
                    + not.moving().map(s -> " " + s).orElse("");
        }
        BadInput fault = ((WatchOutcome.Faulty) outcome).fault();
        return WatchForm.nameOf(fault.source(), watch.fields().sortProperty().get())
                + ": "
                + lowered(ConditionField.text(fault));
    }

    private static String lowered(String text) {
        return Character.toLowerCase(text.charAt(0)) + text.substring(1);
    }

    private void showDiagram(Optional<WatchOutcome.Fits> fits) {
        present(picture, fits.isPresent());
        diagram.show(
                fits.map(
                        f ->
                                DiagramLayout.of(
                                        f.result().question().circuit(),
                                        f.result().legs().stream()
                                                .map(WatchView::padOf)
                                                .toList())));
    }

    private static String padOf(WatchResult.Leg leg) {
        String pin = leg.answer().question().padValue().packagePin();
        return pin.isEmpty() ? leg.pad() : pin;
    }

    private static void present(Node node, boolean there) {
        node.setVisible(there);
        node.setManaged(there);
    }
}
