package padward.timing;

import java.util.List;
import padward.fabric.delay.Delay;

/** What to add to channels' time stamps so that lines of different delay stand level. */
public final class TimeStampCorrections {
    private TimeStampCorrections() {}

    /**
     * For each line what to add to its time stamps so that all stand level with the latest, the
     * middles of the ranges taken for the delays; ps, never negative. What remains uncertain is
     * half of each line's range.
     */
    public static List<Integer> ofPs(List<Delay> atInstrument) {
        return ofTakenPs(atInstrument.stream().map(d -> (long) d.middlePs()).toList()).stream()
                .map(Math::toIntExact)
                .toList();
    }

    /** The same for delays of which one value is taken, measured or calculated. */
    public static List<Long> ofTakenPs(List<Long> delays) {
        long latest = delays.stream().mapToLong(d -> d).max().orElse(0);
        return delays.stream().map(d -> latest - d).toList();
    }

    /**
     * What to add to measured delays, of which only the differences count, so that their mean is
     * where it is calculated; ps.
     *
     * @param aboveMeasured for each measured line by how much its calculated delay is the greater
     */
    public static long levelPs(List<Long> aboveMeasured) {
        long sum = aboveMeasured.stream().mapToLong(d -> d).sum();
        return aboveMeasured.isEmpty() ? 0 : sum / aboveMeasured.size();
    }
}
