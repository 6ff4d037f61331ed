package padward.ui.control;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.scene.Node;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Hyperlink;
import javafx.scene.text.Text;
import javafx.scene.text.TextFlow;
import padward.design.Design;
import padward.ui.design.OpenDesign;
import padward.ui.model.NamedThing;
import padward.ui.model.WindowModel;

/**
 * A sentence in which every net, cell, pad, site, wire and tile of the open design is a link: a
 * click shows it on the map, its context menu copies it or puts it into the question.
 */
public final class LinkedText extends TextFlow {
    /** A word without the punctuation around it; brackets belong to names. */
    private static final Pattern WORD = Pattern.compile("[^\\s,;:()“”]*[^\\s,;:()“”.]");

    private final WindowModel model;
    private final String text;

    /** Links the names that the design has which is open now. */
    public LinkedText(WindowModel model, String text, String... styles) {
        this.model = model;
        this.text = text;
        getStyleClass().add("linked-text");
        getStyleClass().addAll(styles);
        model.openedProperty()
                .get()
                .map(OpenDesign::design)
                .ifPresentOrElse(this::fill, () -> add(text));
    }

    private void fill(Design design) {
        String before = "";
        int done = 0;
        Matcher word = WORD.matcher(text);
        while (word.find()) {
            Optional<NamedThing> named = NamedThing.find(design, before, word.group());
            if (named.isPresent()) {
                add(text.substring(done, word.start()));
                getChildren().add(link(word.group(), named.get()));
                done = word.end();
            }
            before = word.group().toLowerCase(Locale.ROOT);
        }
        add(text.substring(done));
    }

    private void add(String plain) {
        if (!plain.isEmpty()) {
            Text part = new Text(Controls.withUnits(plain));
            part.getStyleClass().add("plain-text");
            getChildren().add(part);
        }
    }

    private Node link(String shown, NamedThing thing) {
        Hyperlink link = new Hyperlink(shown);
        link.setMnemonicParsing(false);
        link.setAccessibleText("Show " + thing.kind().word() + " " + thing.name() + " on the map");
        link.setOnAction(
                e -> {
                    link.setVisited(false);
                    model.showOnMap(thing.name());
                });
        ContextMenu menu = new ContextMenu();
        menu.getItems().setAll(ThingMenu.items(model, thing));
        link.setContextMenu(menu);
        return link;
    }

    /** The whole sentence. */
    public String text() {
        return text;
    }
}
