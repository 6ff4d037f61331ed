package padward.ui.control;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.Scene;

/** Keyboard focus. */
public final class Focus {
    private static final String SUCCESSORS = "padward-focus-successors";

    private Focus() {}

    /**
     * Keeps the focus nearby when the focused control disappears: it moves to a control in the
     * innermost remaining part of the window, and not to the window's first control.
     *
     * @param otherwise gets the focus when no control nearby can
     */
    public static void keepNear(Scene scene, Supplier<Node> otherwise) {
        // Between the old and the new control, nothing has the focus for a moment.
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
                                // Which control replaces it is known only later.
                                Platform.runLater(() -> move(scene, before, now, otherwise));
                            }
                        });
    }

    private static void move(Scene scene, Node gone, Node now, Supplier<Node> otherwise) {
        if (scene.getFocusOwner() == now && !isUsable(gone)) {
            near(gone, scene).orElseGet(otherwise).requestFocus();
        }
    }

    /**
     * Names the controls, by their ids, of which the first usable one gets the focus when a control
     * disappears that had it.
     */
    public static void handOver(Node control, String... ids) {
        control.getProperties().put(SUCCESSORS, List.of(ids));
    }

    /** The control that gets the focus after another one, if one was named and can be used. */
    public static Optional<Node> successor(Node control, Scene scene) {
        return control.getProperties().get(SUCCESSORS) instanceof List<?> ids
                ? ids.stream()
                        .map(id -> scene.lookup((String) id))
                        .filter(n -> n != null && isUsable(n))
                        .findFirst()
                : Optional.empty();
    }

    private static Optional<Node> near(Node gone, Scene scene) {
        Optional<Node> named = successor(gone, scene);
        if (named.isPresent()) {
            return named;
        }
        Optional<Node> top = first(scene.getRoot());
        for (Node part = gone.getParent(); part != null; part = part.getParent()) {
            Optional<Node> first = isUsable(part) ? first(part) : Optional.empty();
            if (first.isPresent()) {
                // A part with the window's first control is the whole window: not nearby.
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

    /** The first control that Tab can reach in a part of the window, itself included. */
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
