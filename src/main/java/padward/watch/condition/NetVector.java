package padward.watch.condition;

import java.util.List;

/**
 * Nets that are a number together.
 *
 * @param text as it was written
 * @param nets names of the nets, the lowest bit first; one for a single net
 */
public record NetVector(String text, List<String> nets) {
    /** Copies the list. */
    public NetVector {
        nets = List.copyOf(nets);
    }

    /** How many bits it has. */
    public int width() {
        return nets.size();
    }
}
