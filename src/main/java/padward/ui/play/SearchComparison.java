package padward.ui.play;

import java.util.Locale;
import java.util.Optional;
import javafx.geometry.HPos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.base.Counts;
import padward.lesson.recording.PlayedSearch;
import padward.lesson.recording.Recording;
import padward.route.search.SearchOutcome;
import padward.ui.control.Controls;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.model.WindowModel;

/**
 * A* and Dijkstra on the same question, after the same number of settled vertices, with their
 * counts.
 */
final class SearchComparison extends VBox {
    private final WindowModel model;
    private final StepsModel steps;
    private final Side star = new Side(PlayedSearch.A_STAR);
    private final Side plain = new Side(PlayedSearch.DIJKSTRA);
    private final Label saved = new Label();

    /** One of the two. */
    private static final class Side {
        private final PlayedSearch method;
        private final Label title;
        private final SearchThumbnail thumb;
        private final Label settled = new Label();
        private final Label frontier = new Label();
        private final Label end = new Label();

        Side(PlayedSearch method) {
            this.method = method;
            this.title = new Label(method.label());
            this.title.getStyleClass().add("side-title");
            this.thumb = new SearchThumbnail("Picture of what " + method.label() + " has settled");
            String id = "steps-" + method.name().toLowerCase(Locale.ROOT).replace('_', '-');
            settled.setId(id + "-settled");
            frontier.setId(id + "-frontier");
            end.setId(id + "-end");
        }
    }

    SearchComparison(WindowModel model, StepsModel steps) {
        super(6);
        this.model = model;
        this.steps = steps;
        saved.setId("steps-saved");
        saved.setWrapText(true);
        saved.setMinHeight(Region.USE_PREF_SIZE);
        GridPane grid = new GridPane();
        grid.setHgap(10);
        grid.setVgap(3);
        ColumnConstraints names = new ColumnConstraints();
        names.setMinWidth(66);
        grid.getColumnConstraints().addAll(names, column(), column());
        rows(grid, star, 1);
        rows(grid, plain, 2);
        String[] heads = {"", "", "settled", "frontier", "at the end"};
        for (int row = 0; row < heads.length; row++) {
            Label head = new Label(heads[row]);
            head.getStyleClass().addAll("faint", "small");
            grid.add(head, 0, row);
        }
        getChildren().addAll(grid, saved);
    }

    private static ColumnConstraints column() {
        ColumnConstraints half = new ColumnConstraints();
        half.setHgrow(Priority.ALWAYS);
        half.setPercentWidth(41);
        half.setHalignment(HPos.LEFT);
        return half;
    }

    private static void rows(GridPane grid, Side side, int column) {
        Node[] cells = {side.title, side.thumb, side.settled, side.frontier, side.end};
        for (int row = 0; row < cells.length; row++) {
            grid.add(cells[row], column, row);
        }
        side.end.setWrapText(true);
        side.end.setMinHeight(Region.USE_PREF_SIZE);
    }

    void refresh() {
        refresh(star);
        refresh(plain);
        saved.setText(steps.savedText());
    }

    private void refresh(Side side) {
        Optional<SearchPlayer> player = steps.search(side.method);
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (player.isEmpty() || opened.isEmpty()) {
            side.thumb.clear();
            return;
        }
        Recording recording = player.get().replay().recording();
        Palette colors = model.look().darkProperty().get() ? Palette.DARK : Palette.LIGHT;
        side.thumb.show(opened.get(), player.get().replay(), colors);
        side.settled.setText(Counts.text(player.get().replay().settledCount()));
        side.frontier.setText(Counts.text(player.get().replay().frontierCount()));
        side.end.setText(Controls.withUnits(end(recording.outcome())));
    }

    private static String end(SearchOutcome outcome) {
        String settled = Counts.text(outcome.settled()) + " settled";
        return outcome instanceof SearchOutcome.Found found
                ? settled + ", " + SearchPlayer.cost(found.cost())
                : settled + ", no route";
    }
}
