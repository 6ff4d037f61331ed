package padward.timing;

import java.util.List;
import padward.fabric.Delay;

/** What to add to channels' time stamps so that lines of different delay stand level. */
public final class TimeStampCorrections {
    private TimeStampCorrections() {}

    /**
     * For each line what to add to its time stamps so that all stand level with the latest, the
     * middles of the ranges taken for the delays; ps, never negative. What remains uncertain is
     * half of each line's range.
     */
    public static List<Integer> ofPs(List<Delay> atInstrument) {
        int latest = atInstrument.stream().mapToInt(Delay::middlePs).max().orElse(0);
        return atInstrument.stream().map(d -> latest - d.middlePs()).toList();
    }
}
