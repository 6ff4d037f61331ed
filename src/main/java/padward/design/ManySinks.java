package padward.design;

import java.util.AbstractList;
import java.util.HashSet;
import java.util.List;
import java.util.RandomAccess;
import java.util.Set;

/**
 * Many sinks, which are looked through the first times that {@link #contains} is asked, and from
 * then on found by an index: questions about a clock ask for its sink at each pad. Immutable but
 * for the index; threads may share it.
 */
final class ManySinks extends AbstractList<Terminal> implements RandomAccess {
    /** Up to here, looking through is as quick. */
    private static final int FEW = 64;

    /** Times that it was looked through before an index is worth its time. */
    private static final int SCANS = 16;

    private final List<Terminal> sinks;

    /** Empty until that was worth it. */
    private volatile Set<Terminal> index = Set.of();

    /** Threads may miss some of each other's, which does no harm. */
    private int scans;

    private ManySinks(List<Terminal> sinks) {
        this.sinks = sinks;
    }

    /** An unmodifiable copy of a list. */
    static List<Terminal> copyOf(List<Terminal> sinks) {
        if (sinks instanceof ManySinks) {
            return sinks;
        }
        List<Terminal> copy = List.copyOf(sinks);
        return copy.size() > FEW ? new ManySinks(copy) : copy;
    }

    @Override
    public Terminal get(int place) {
        return sinks.get(place);
    }

    @Override
    public int size() {
        return sinks.size();
    }

    @Override
    public boolean contains(Object wanted) {
        Set<Terminal> known = index;
        if (known.isEmpty() && ++scans > SCANS) {
            known = new HashSet<>(sinks);
            index = known;
        }
        return known.isEmpty() ? sinks.contains(wanted) : known.contains(wanted);
    }
}
