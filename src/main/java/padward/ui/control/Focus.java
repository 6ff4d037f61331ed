package padward.ui.control;

import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.Parent;

/** Where the keys can go. */
public final class Focus {
    private Focus() {}

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
