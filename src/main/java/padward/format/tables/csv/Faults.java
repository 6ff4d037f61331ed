package padward.format.tables.csv;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import padward.base.BadInput;

/** Collects faults: the first few are stored, all are counted. Belongs to one thread. */
public final class Faults {
    private final int most;
    private final List<BadInput> first = new ArrayList<>();
    private final Map<String, Long> countBySource = new LinkedHashMap<>();
    private boolean broken;

    /**
     * @param most how many to store
     */
    public Faults(int most) {
        this.most = most;
    }

    /**
     * Adds one.
     *
     * @param found called only when the fault is stored: finding what was meant can take long
     */
    public void add(String source, String place, String expected, Supplier<String> found) {
        countBySource.merge(source, 1L, Long::sum);
        if (first.size() < most) {
            first.add(new BadInput(source, place, expected, found.get()));
        }
    }

    public void add(BadInput fault) {
        countBySource.merge(fault.source(), 1L, Long::sum);
        if (first.size() < most) {
            first.add(fault);
        }
    }

    /** Adds a fault because of which a table could not be read to its end. */
    void addBreak(BadInput fault) {
        broken = true;
        add(fault);
    }

    /**
     * Whether some table could not be read: then faults of references to it would only repeat that.
     */
    boolean broken() {
        return broken;
    }

    /** Whether there are any. */
    public boolean any() {
        return !countBySource.isEmpty();
    }

    /** The first faults, as many as are stored. */
    public List<BadInput> first() {
        return List.copyOf(first);
    }

    /** How many each table has. */
    public Map<String, Long> countBySource() {
        return countBySource;
    }
}
