package padward.route;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.WeakHashMap;
import padward.fabric.Corner;
import padward.fabric.Fabric;

/**
 * Remembers each fabric's {@link DistanceRate}, which costs a look at every edge, for as long as
 * the fabric is in use. Safe for all threads.
 */
public final class DistanceRates {
    private static final Map<Fabric, Map<Corner, DistanceRate>> KNOWN =
            Collections.synchronizedMap(new WeakHashMap<>());

    private DistanceRates() {}

    /** The rate of a fabric at a corner. */
    public static DistanceRate of(Fabric fabric, Corner corner) {
        Map<Corner, DistanceRate> rates =
                KNOWN.computeIfAbsent(
                        fabric, x -> Collections.synchronizedMap(new EnumMap<>(Corner.class)));
        return rates.computeIfAbsent(corner, c -> DistanceRate.of(fabric, c));
    }
}
