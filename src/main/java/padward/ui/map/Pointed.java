package padward.ui.map;

import java.util.List;
import java.util.Optional;
import padward.design.Net;

/**
 * A thing on the map that the pointer is on, or that is pinned: a site, a pad, a wire, a tile.
 *
 * @param kind what it is, such as {@code site}
 * @param name its full name
 * @param state who holds it, or that it is free
 * @param details more about it, one sentence each
 * @param vertex a vertex of it; {@code Fabric.NOTHING} for a tile
 * @param tile its tile
 * @param net the net whose signal it carries or drives
 * @param pad the pad's index, when it is one
 */
public record Pointed(
        String kind,
        String name,
        String state,
        List<String> details,
        int vertex,
        int tile,
        Optional<Net> net,
        Optional<Integer> pad) {
    /** Copies the details. */
    public Pointed {
        details = List.copyOf(details);
    }

    /** In one line. */
    String line() {
        return kind + " " + name + ": " + state;
    }
}
