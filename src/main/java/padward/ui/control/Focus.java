package padward.ui.control;

import java.util.Optional;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.Scene;

/** Where the keys can go. */
public final class Focus {
    private Focus() {}

    /**
     * Takes care that the focus stays where one is when what had it goes away: it moves to what is
     * nearest, by the parts of the window that it stood in, and not to the window's first control.
     *
     * @param otherwise has the focus when nothing near can
     */
    public static void keepNear(Scene scene, Supplier<Node> otherwise) {
        // Between what goes and what comes, nothing has the focus for a moment.
        Node[] last = {scene.getFocusOwner()};
        scene.focusOwnerProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now == null) {
                                return;
                            }
                            Node before = last[0];
                            last[0] = now;
                            if (before != null && !isUsable(before)) {
                                // What comes in its place is settled only later.
                                Platform.runLater(() -> move(scene, before, now, otherwise));
                            }
                        });
    }

    private static void move(Scene scene, Node gone, Node now, Supplier<Node> otherwise) {
        if (scene.getFocusOwner() == now && !isUsable(gone)) {
            near(gone, scene).orElseGet(otherwise).requestFocus();
        }
    }

    private static Optional<Node> near(Node gone, Scene scene) {
        Optional<Node> top = first(scene.getRoot());
        for (Node part = gone.getParent(); part != null; part = part.getParent()) {
            Optional<Node> first = isUsable(part) ? first(part) : Optional.empty();
            if (first.isPresent()) {
                // A part with the window's first control is the whole window: that is not near.
                return first.equals(top) ? Optional.empty() : first;
            }
        }
        return Optional.empty();
    }

    private static boolean isUsable(Node node) {
        for (Node at = node; at != null; at = at.getParent()) {
            if (!at.isVisible()) {
                return false;
            }
        }
        return node.getScene() != null && !node.isDisabled();
    }

    /** The first control in a part of the window, itself included, that Tab can reach. */
    public static Optional<Node> first(Node part) {
        if (!part.isVisible() || part.isDisabled()) {
            return Optional.empty();
        }
        if (part.isFocusTraversable()) {
            return Optional.of(part);
        }
        return part instanceof Parent parent
                ? parent.getChildrenUnmodifiable().stream()
                        .map(Focus::first)
                        .flatMap(Optional::stream)
                        .findFirst()
                : Optional.empty();
    }
}
