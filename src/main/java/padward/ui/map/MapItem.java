package padward.ui.map;

import java.util.List;
import java.util.Optional;
import padward.design.Net;

/**
 * A thing on the map, under the pointer or pinned: a site, pad, wire or tile, with its description.
 *
 * @param kind what it is, such as {@code site}
 * @param name its full name
 * @param state what uses it, or that it is free
 * @param details more about it, one sentence each
 * @param vertex one of its vertices; {@code Fabric.NOTHING} for a tile
 * @param tile its tile
 * @param net the net that uses it or that it drives
 * @param pad the pad's index, if it is a pad
 */
public record MapItem(
        String kind,
        String name,
        String state,
        List<String> details,
        int vertex,
        int tile,
        Optional<Net> net,
        Optional<Integer> pad) {
    /** Copies the details. */
    public MapItem {
        details = List.copyOf(details);
    }

    /** Its description in one line. */
    String line() {
        return kind + " " + name + ": " + state;
    }
}
