package padward.ui.control;

import java.util.function.Supplier;
import javafx.scene.Node;

/**
 * A view that stands as a tab beside the map. Its node is made when the tab is first shown.
 *
 * @param id short name; the tab's id is this with {@code -tab}
 * @param title what stands on the tab
 * @param purpose what the view is good for, one sentence
 * @param view makes it
 */
public record Panel(String id, String title, String purpose, Supplier<Node> view) {}
