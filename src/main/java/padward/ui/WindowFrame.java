package padward.ui;

import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;

/**
 * The window's parts from top to bottom: the question, its answer, the map with the lists, and the
 * kept changes. The answer scrolls where it would leave the map too little height.
 */
final class WindowFrame extends Region {
    /** Least height of the answer, which shows it without its cautions, pixels. */
    private static final double LEAST_ANSWER = 60;

    private final Region question;
    private final ScrollPane answer;
    private final Region middle;
    private final Region kept;

    WindowFrame(Region question, VBox answer, Region middle, Region kept) {
        this.question = question;
        this.answer = new ScrollPane(answer);
        this.middle = middle;
        this.kept = kept;
        this.answer.setId("answer-part");
        this.answer.setFitToWidth(true);
        this.answer.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        this.answer.setFocusTraversable(false);
        this.answer.getStyleClass().add("plain-scroll");
        answer.heightProperty().addListener(p -> requestLayout());
        getChildren().addAll(question, this.answer, middle, kept);
        sceneProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now != null) {
                                now.focusOwnerProperty().addListener((q, was, is) -> follow(is));
                            }
                        });
    }

    /** Scrolls to the focused control. */
    private void follow(Node focused) {
        Region content = (Region) answer.getContent();
        double beyond = content.getHeight() - answer.getViewportBounds().getHeight();
        if (focused == null || beyond <= 0 || !isIn(focused, content)) {
            return;
        }
        Bounds at = content.sceneToLocal(focused.localToScene(focused.getBoundsInLocal()));
        double top = answer.getVvalue() * beyond;
        if (at.getMinY() < top) {
            answer.setVvalue(at.getMinY() / beyond);
        } else if (at.getMaxY() > content.getHeight() - beyond + top) {
            answer.setVvalue((at.getMaxY() - content.getHeight() + beyond) / beyond);
        }
    }

    private static boolean isIn(Node node, Node parent) {
        Node at = node;
        while (at != null && at != parent) {
            at = at.getParent();
        }
        return at != null;
    }

    private static double height(Region part, double width) {
        return part.isManaged() ? snapped(part.prefHeight(width)) : 0;
    }

    private static double snapped(double height) {
        return Math.ceil(height);
    }

    @Override
    protected void layoutChildren() {
        double width = getWidth();
        double top = height(question, width);
        double bottom = height(kept, width);
        double wanted = snapped(((Region) answer.getContent()).prefHeight(width));
        double room = getHeight() - top - bottom - middle.minHeight(width);
        double high = Math.max(Math.min(wanted, LEAST_ANSWER), Math.min(wanted, room));
        question.resizeRelocate(0, 0, width, top);
        answer.resizeRelocate(0, top, width, high);
        double rest = Math.max(0, getHeight() - top - high - bottom);
        middle.resizeRelocate(0, top + high, width, rest);
        kept.resizeRelocate(0, getHeight() - bottom, width, bottom);
    }
}
