package padward.ui.control;

import java.util.stream.Collectors;
import javafx.animation.PauseTransition;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.util.Duration;
import padward.ui.work.JobSlot;
import padward.ui.work.Jobs;

/** Progress of the running work, with a button to stop it; shown when it takes a while. */
public final class WorkBar extends HBox {
    private static final double MOST_TEXT = 380;
    private static final Duration PATIENCE = Duration.millis(150);

    private final Jobs jobs;
    private final ProgressBar bar = new ProgressBar();

    /** Named in full: what is kept makes room. Only very long texts are cut. */
    private final Label doing =
            new Label() {
                @Override
                protected double computeMinWidth(double height) {
                    return Math.min(MOST_TEXT, computePrefWidth(height));
                }
            };

    private final Tooltip all = new Tooltip();
    private final PauseTransition patience = new PauseTransition(PATIENCE);

    /** Hidden while no work is running. */
    public WorkBar(Jobs jobs, Action stop) {
        setMinWidth(USE_PREF_SIZE);
        managedProperty().bind(visibleProperty());
        this.jobs = jobs;
        setId("work-bar");
        setSpacing(8);
        setAlignment(Pos.CENTER_LEFT);
        setVisible(false);
        bar.setId("work-share");
        bar.setPrefWidth(70);
        bar.setMinWidth(50);
        bar.setAccessibleText("Progress");
        doing.setId("work-doing");
        doing.getStyleClass().add("faint");
        doing.setTooltip(all);
        bar.setTooltip(all);
        patience.setOnFinished(e -> setVisible(!jobs.running().isEmpty()));
        getChildren().addAll(bar, Controls.button(stop), doing);
        jobs.running().addListener((ListChangeListener<JobSlot>) c -> follow());
        follow();
    }

    private void follow() {
        bar.progressProperty().unbind();
        doing.textProperty().unbind();
        if (jobs.running().isEmpty()) {
            patience.stop();
            setVisible(false);
            return;
        }
        JobSlot first = jobs.running().get(0);
        bar.progressProperty().bind(first.fractionProperty());
        doing.textProperty().bind(first.messageProperty());
        all.setText(
                jobs.running().stream()
                        .map(j -> j.messageProperty().get())
                        .collect(Collectors.joining("\n")));
        if (!isVisible()) {
            patience.playFromStart();
        }
    }
}
