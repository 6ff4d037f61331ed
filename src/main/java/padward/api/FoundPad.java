package padward.api;

import java.util.List;
import java.util.Optional;

/**
 * A pad of a design's fabric.
 *
 * @param name its full name
 * @param packagePin its package pin; empty where it has none
 * @param bank its bank
 * @param port the port that the design has on it
 * @param otherNames its other names, such as pins of headers
 */
public record FoundPad(
        String name,
        String packagePin,
        String bank,
        Optional<String> port,
        List<String> otherNames) {
    /** Copies the names. */
    public FoundPad {
        otherNames = List.copyOf(otherNames);
    }
}
