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
        scene.focusOwnerProperty()
                .addListener(
                        (p, old, now) -> {
                            if (old != null && now != null && !isUsable(old)) {
                                // What goes and what comes in its place is settled only later.
                                Platform.runLater(
                                        () -> {
                                            if (scene.getFocusOwner() == now && !isUsable(old)) {
                                                near(old, scene)
                                                        .orElseGet(otherwise)
                                                        .requestFocus();
                                            }
                                        });
                            }
                        });
    }

    private static Optional<Node> near(Node gone, Scene scene) {
        for (Node part = gone.getParent(); part != null; part = part.getParent()) {
            Optional<Node> first = part == scene.getRoot() ? Optional.empty() : first(part);
            if (first.isPresent()) {
                return first;
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
