package padward.format.tables.csv;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import padward.base.BadInput;

/** Faults as they are met: the first so many are kept, all are counted. Belongs to one thread. */
public final class Faults {
    private final int most;
    private final List<BadInput> kept = new ArrayList<>();
    private final Map<String, Long> countBySource = new LinkedHashMap<>();
    private boolean broken;

    /**
     * @param most how many to keep
     */
    public Faults(int most) {
        this.most = most;
    }

    /**
     * Adds one.
     *
     * @param found made only when the fault is kept: finding what was meant can take long
     */
    public void add(String source, String place, String expected, Supplier<String> found) {
        countBySource.merge(source, 1L, Long::sum);
        if (kept.size() < most) {
            kept.add(new BadInput(source, place, expected, found.get()));
        }
    }

    public void add(BadInput fault) {
        countBySource.merge(fault.source(), 1L, Long::sum);
        if (kept.size() < most) {
            kept.add(fault);
        }
    }

    /** Adds a fault because of which a table could not be read to its end. */
    void addBreak(BadInput fault) {
        broken = true;
        add(fault);
    }

    /** Whether some table could not be read: then what refers to it would only echo that. */
    boolean broken() {
        return broken;
    }

    public boolean any() {
        return !countBySource.isEmpty();
    }

    public List<BadInput> kept() {
        return List.copyOf(kept);
    }

    /** How many each table has. */
    public Map<String, Long> countBySource() {
        return countBySource;
    }
}
