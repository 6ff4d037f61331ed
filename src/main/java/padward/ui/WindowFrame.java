package padward.ui;

import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;

/**
 * The window's parts one below the other: the question on top, what is said about it, the map with
 * the lists, and what is kept. What is said scrolls where it would leave the map too little height.
 */
final class WindowFrame extends Region {
    /** The answer, without its cautions, is seen even in a low window, pixels. */
    private static final double LEAST_SAID = 60;

    private final Region question;
    private final ScrollPane said;
    private final Region middle;
    private final Region kept;

    WindowFrame(Region question, VBox said, Region middle, Region kept) {
        this.question = question;
        this.said = new ScrollPane(said);
        this.middle = middle;
        this.kept = kept;
        this.said.setId("said");
        this.said.setFitToWidth(true);
        this.said.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        this.said.setFocusTraversable(false);
        this.said.getStyleClass().add("plain-scroll");
        said.heightProperty().addListener(p -> requestLayout());
        getChildren().addAll(question, this.said, middle, kept);
        sceneProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now != null) {
                                now.focusOwnerProperty().addListener((q, was, is) -> follow(is));
                            }
                        });
    }

    /** Scrolls to what has the focus. */
    private void follow(Node focused) {
        Region content = (Region) said.getContent();
        double beyond = content.getHeight() - said.getViewportBounds().getHeight();
        if (focused == null || beyond <= 0 || !isIn(focused, content)) {
            return;
        }
        Bounds at = content.sceneToLocal(focused.localToScene(focused.getBoundsInLocal()));
        double top = said.getVvalue() * beyond;
        if (at.getMinY() < top) {
            said.setVvalue(at.getMinY() / beyond);
        } else if (at.getMaxY() > content.getHeight() - beyond + top) {
            said.setVvalue((at.getMaxY() - content.getHeight() + beyond) / beyond);
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
        double wanted = snapped(((Region) said.getContent()).prefHeight(width));
        double room = getHeight() - top - bottom - middle.minHeight(width);
        double high = Math.max(Math.min(wanted, LEAST_SAID), Math.min(wanted, room));
        question.resizeRelocate(0, 0, width, top);
        said.resizeRelocate(0, top, width, high);
        double rest = Math.max(0, getHeight() - top - high - bottom);
        middle.resizeRelocate(0, top + high, width, rest);
        kept.resizeRelocate(0, getHeight() - bottom, width, bottom);
    }
}
