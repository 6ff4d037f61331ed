package padward.ui.question;

import java.util.Optional;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.ui.control.Actions;
import padward.ui.model.NameOffers;
import padward.ui.model.WindowModel;

/** Names to choose from, where a name in the question does not mean one thing. */
final class OfferBar extends VBox {
    private final WindowModel model;
    private final Actions actions;
    private final Label sentence = new Label();
    private final FlowPane names = new FlowPane(6, 6);

    OfferBar(WindowModel model, Actions actions) {
        super(6);
        this.model = model;
        this.actions = actions;
        setId("offers");
        sentence.setId("offer-sentence");
        sentence.setWrapText(true);
        sentence.setMinHeight(Region.USE_PREF_SIZE);
        names.setId("offered-names");
        getChildren().addAll(sentence, names);
        model.shown().offersProperty().addListener((p, old, now) -> show(now));
        show(model.shown().offersProperty().getValue());
    }

    private void show(Optional<NameOffers> offers) {
        setVisible(offers.isPresent());
        setManaged(offers.isPresent());
        names.getChildren().clear();
        sentence.setText(offers.map(NameOffers::sentence).orElse(""));
        if (offers.isEmpty()) {
            return;
        }
        for (String name : offers.get().names()) {
            Button button = new Button(name);
            button.setMnemonicParsing(false);
            button.setOnAction(e -> choose(offers.get(), name));
            names.getChildren().add(button);
        }
        offers.get()
                .group()
                .ifPresent(
                        text -> {
                            Button group = new Button("As a group");
                            group.setId("as-group");
                            group.setOnAction(e -> group(text));
                            names.getChildren().add(group);
                        });
        names.setVisible(!names.getChildren().isEmpty());
        names.setManaged(names.isVisible());
    }

    private void choose(NameOffers offers, String name) {
        if (offers.forPad()) {
            model.shown().padTextProperty().set(name);
        } else {
            model.shown().netTextProperty().set(name);
        }
        model.shown().ask();
    }

    private void group(String nets) {
        model.groupNetsProperty().set(nets);
        actions.get("show-group").run();
    }
}
