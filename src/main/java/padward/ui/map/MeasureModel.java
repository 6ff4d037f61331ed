package padward.ui.map;

import java.util.Optional;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.Counts;
import padward.breakout.survey.FreeWireDelay;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapOverlay;
import padward.ui.work.BackgroundWork;
import padward.ui.work.JobSlot;

/**
 * Measures between two tiles of the map: how many columns and rows they are apart, and how soon a
 * signal could be there over free wires. One ruler at a time, until it is put away or another
 * design is shown.
 */
final class MeasureModel {
    private static final int PATIENCE_MILLIS = 150;

    private final WindowModel model;
    private final JobSlot job;
    private final BooleanProperty on = new SimpleBooleanProperty(false);
    private final ObjectProperty<Optional<MapOverlay>> ruler =
            new SimpleObjectProperty<>(Optional.empty());
    private Optional<TileLayout.Point> from = Optional.empty();
    private TileLayout.Point to = new TileLayout.Point(0, 0);
    private boolean followsMiddle;
    private boolean calculating;
    private BackgroundWork.Job patience = () -> {};

    MeasureModel(WindowModel model) {
        this.model = model;
        this.job = new JobSlot(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> end());
    }

    /** Whether dragging measures instead of moving the map. */
    ReadOnlyBooleanProperty onProperty() {
        return on;
    }

    /** The ruler, while there is one. */
    ReadOnlyObjectProperty<Optional<MapOverlay>> rulerProperty() {
        return ruler;
    }

    /** Starts at the middle of the map, which the other end follows; ends what is measured. */
    void toggle(TileLayout.Point middle) {
        if (ruler.get().isPresent() || on.get()) {
            end();
        } else if (model.openedProperty().get().isPresent()) {
            on.set(true);
            begin(middle);
            followsMiddle = true;
        }
    }

    /** The view has moved: a ruler that is drawn by the keys ends at its new middle. */
    void middleMoved(TileLayout.Point middle) {
        if (followsMiddle && from.isPresent() && !middle.equals(to)) {
            extend(middle);
            finish();
        }
    }

    /** Starts at a place. */
    void begin(TileLayout.Point start) {
        job.cancel();
        followsMiddle = false;
        from = Optional.of(start);
        extend(start);
    }

    /** Extends the ruler to a place. */
    void extend(TileLayout.Point end) {
        job.cancel();
        to = end;
        show(Optional.empty());
    }

    /** Calculates the delay between the ends. */
    void finish() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (from.isEmpty() || opened.isEmpty()) {
            return;
        }
        Design design = opened.get().design();
        int start = tile(design.fabric(), from.get());
        int end = tile(design.fabric(), to);
        if (start == end) {
            return;
        }
        calculating = true;
        job.start(
                "Measuring the delay between two tiles",
                progress -> FreeWireDelay.between(design, start, end, progress),
                least -> {
                    calculating = false;
                    show(
                            Optional.of(
                                    least.map(Delay::toText)
                                            .map(t -> "at least " + t + " over free wires")
                                            .orElse("no free wires lead there")));
                });
        patience.cancel();
        patience = model.jobs().background().after(PATIENCE_MILLIS, this::tellThatItWorks);
    }

    /** An answer that comes at once is shown at once, and nothing before it. */
    private void tellThatItWorks() {
        if (calculating && job.busyProperty().get()) {
            show(Optional.of("measuring …"));
        }
    }

    /** Puts the ruler away. */
    void end() {
        job.cancel();
        on.set(false);
        followsMiddle = false;
        from = Optional.empty();
        ruler.set(Optional.empty());
    }

    private void show(Optional<String> delay) {
        Fabric fabric = model.openedProperty().get().orElseThrow().design().fabric();
        ruler.set(
                from.map(
                        f ->
                                new MeasurePainter(
                                        f,
                                        to,
                                        apart(fabric) + delay.map(d -> "; " + d).orElse(""))));
    }

    private String apart(Fabric fabric) {
        int start = tile(fabric, from.orElseThrow());
        int end = tile(fabric, to);
        int columns = Math.abs(fabric.column(start) - fabric.column(end));
        int rows = Math.abs(fabric.row(start) - fabric.row(end));
        if (columns == 0 && rows == 0) {
            return "To measure, drag to another tile or move there with the arrow keys";
        }
        return fabric.tileName(start)
                + " to "
                + fabric.tileName(end)
                + ": "
                + Counts.text(columns, "column")
                + ", "
                + Counts.text(rows, "row");
    }

    /** The tile at a place; outside the fabric, the nearest. */
    private static int tile(Fabric fabric, TileLayout.Point at) {
        int column = (int) Math.max(0, Math.min(fabric.columns() - 1, Math.floor(at.x())));
        int row = (int) Math.max(0, Math.min(fabric.rows() - 1, Math.floor(at.y())));
        return row * fabric.columns() + column;
    }
}
