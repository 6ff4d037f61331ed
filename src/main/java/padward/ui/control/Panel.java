package padward.ui.control;

import java.util.function.Supplier;
import javafx.scene.Node;

/**
 * A view in a tab next to the map. Its node is made when the tab is first shown.
 *
 * @param id short name; the tab's id is this with {@code -tab}
 * @param title text of the tab
 * @param purpose what the view is for, one sentence
 * @param view makes it
 */
public record Panel(String id, String title, String purpose, Supplier<Node> view) {}
