package padward.ui.scene;

import java.util.BitSet;
import java.util.Locale;
import java.util.OptionalInt;
import padward.base.Progress;
import padward.breakout.ask.DelayField;
import padward.fabric.Fabric;

/**
 * How far a net gets, as the map shows it: delay bands and the frontier of a search.
 *
 * @param field delay to everywhere
 * @param bandPs delay that one band covers, picoseconds
 * @param reachesPadPs delay at which the search reaches the pad, picoseconds; empty if it never
 *     does
 * @param frontier the frontier at that moment
 */
public record NetReach(DelayField field, int bandPs, OptionalInt reachesPadPs, BitSet frontier) {
    /** The band of what cannot be reached. */
    public static final int BEYOND = Integer.MAX_VALUE;

    /** From a field of delays and the pad of the question. */
    public static NetReach of(
            DelayField field, DelayBandWidth width, int padVertex, Progress progress) {
        int reaches = padVertex == Fabric.NOTHING ? DelayField.NEVER : field.atPs(padVertex);
        return new NetReach(
                field,
                width.ps(field.latestPs()),
                reaches == DelayField.NEVER ? OptionalInt.empty() : OptionalInt.of(reaches),
                field.frontier(reaches, progress));
    }

    /** The same in bands of another width. */
    public NetReach inBandsOf(DelayBandWidth width) {
        return new NetReach(field, width.ps(field.latestPs()), reachesPadPs, frontier);
    }

    /** The band of a tile: 0 when it is reached within the first band's delay. */
    public int band(int tile) {
        int arrival = field.arrivalPs(tile);
        return arrival == DelayField.NEVER ? BEYOND : Math.max(0, arrival - 1) / bandPs;
    }

    /** Number of bands. */
    public int bandCount() {
        return Math.max(0, field.latestPs() - 1) / bandPs + 1;
    }

    /** Whether the search has been in a tile when it reaches the pad. */
    public boolean isSearched(int tile) {
        int arrival = field.arrivalPs(tile);
        return arrival != DelayField.NEVER && arrival <= reachesPadPs.orElse(DelayField.NEVER);
    }

    /** The delay at the end of a band, with its unit. */
    public String limit(int band) {
        long ps = (band + 1L) * bandPs;
        String text = String.format(Locale.ROOT, "%.3f", ps / 1000.0).replaceFirst("\\.?0+$", "");
        return text + " ns";
    }
}
