package padward.ui.scene;

import java.util.BitSet;
import java.util.Locale;
import java.util.OptionalInt;
import padward.base.Progress;
import padward.breakout.ask.DelayField;
import padward.fabric.Fabric;

/**
 * How far a net gets, as the map shows it: bands of delay, and the frontier of a search.
 *
 * @param field delay to everywhere
 * @param bandPs how much delay one band stands for, picoseconds
 * @param meetsPs when the search meets the pad, picoseconds; empty when it never does
 * @param frontier where the search stands then
 */
public record NetReach(DelayField field, int bandPs, OptionalInt meetsPs, BitSet frontier) {
    /** Stands for the band of what cannot be reached. */
    public static final int BEYOND = Integer.MAX_VALUE;

    /** From a field; the pad is that of the question. */
    public static NetReach of(DelayField field, BandWidth width, int padVertex, Progress progress) {
        int meets = padVertex == Fabric.NOTHING ? DelayField.NEVER : field.atPs(padVertex);
        return new NetReach(
                field,
                width.ps(field.latestPs()),
                meets == DelayField.NEVER ? OptionalInt.empty() : OptionalInt.of(meets),
                field.frontier(meets, progress));
    }

    /** The same in bands of another width. */
    public NetReach inBandsOf(BandWidth width) {
        return new NetReach(field, width.ps(field.latestPs()), meetsPs, frontier);
    }

    /** The band of a tile: 0 when it is reached within the first band's delay. */
    public int band(int tile) {
        int arrival = field.arrivalPs(tile);
        return arrival == DelayField.NEVER ? BEYOND : Math.max(0, arrival - 1) / bandPs;
    }

    /** How many bands there are. */
    public int bandCount() {
        return Math.max(0, field.latestPs() - 1) / bandPs + 1;
    }

    /** Whether the search has been in a tile when it meets the pad. */
    public boolean isSearched(int tile) {
        int arrival = field.arrivalPs(tile);
        return arrival != DelayField.NEVER && arrival <= meetsPs.orElse(DelayField.NEVER);
    }

    /** The delay at which a band ends, with its unit. */
    public String limit(int band) {
        long ps = (band + 1L) * bandPs;
        String text = String.format(Locale.ROOT, "%.3f", ps / 1000.0).replaceFirst("\\.?0+$", "");
        return text + " ns";
    }
}
