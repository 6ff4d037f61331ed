package padward.capture;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What deskewing a capture did.
 *
 * @param channels the channels' full names, in the order of the capture
 * @param keptInOrder for channels whose edges would have crossed: how many of their changes were
 *     put directly behind the one before instead
 * @param withoutUnit the head of the column with the time stamps, where it names no unit, so that
 *     they are taken as seconds
 */
public record Deskewed(
        List<String> channels, Map<String, Long> keptInOrder, Optional<String> withoutUnit) {
    /** Copies the list and the map. */
    public Deskewed {
        channels = List.copyOf(channels);
        keptInOrder = Map.copyOf(keptInOrder);
    }

    static Deskewed of(
            List<String> channels, TimeReorderer reorderer, Optional<String> withoutUnit) {
        Map<String, Long> kept = new LinkedHashMap<>();
        for (int i = 0; i < channels.size(); i++) {
            if (reorderer.keptInOrder(i) > 0) {
                kept.put(channels.get(i), reorderer.keptInOrder(i));
            }
        }
        return new Deskewed(channels, kept, withoutUnit);
    }
}
