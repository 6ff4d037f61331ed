package padward.api;

import java.util.List;

/**
 * An option to unblock a pad.
 *
 * @param obstacles what is removed or moved, as {@code cell NAME} or {@code net NAME}
 * @param consequences a sentence for each
 * @param edits the edits, in words
 * @param delay from the net's driver to the pin, with the route that opens
 */
public record Unblocking(
        List<String> obstacles, List<String> consequences, List<String> edits, DelayRange delay) {
    /** Copies the lists. */
    public Unblocking {
        obstacles = List.copyOf(obstacles);
        consequences = List.copyOf(consequences);
        edits = List.copyOf(edits);
    }
}
