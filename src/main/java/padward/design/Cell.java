package padward.design;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.Fabric;

/**
 * A cell placed on a site.
 *
 * @param id dense number in the design
 * @param name hierarchical name, {@code uart/rx/cnt[2]}
 * @param kind kind of cell, one that its site accepts
 * @param site number of its site
 * @param settings settings by name; {@code through = open} leaves the site's pass-throughs usable
 * @param locked whether it must stay on its site with its settings
 */
public record Cell(
        int id, String name, String kind, int site, Map<String, String> settings, boolean locked) {
    private static final String THROUGH = "through";
    private static final String OPEN = "open";

    /** Copies the settings. */
    public Cell {
        settings = Map.copyOf(settings);
    }

    /** One that is not locked. */
    public Cell(int id, String name, String kind, int site, Map<String, String> settings) {
        this(id, name, kind, site, settings, false);
    }

    /** The same cell with other settings. */
    public Cell withSettings(Map<String, String> others) {
        return new Cell(id, name, kind, site, others, locked);
    }

    /**
     * The same cell after the signals of two pins were swapped: what its lookup table contains,
     * where that is stated, follows them.
     */
    public Cell withSwapped(Fabric fabric, String pin, String other) {
        return fabric.info()
                .findCellKind(kind)
                .flatMap(CellKind::lookupTable)
                .filter(table -> table.inputs().contains(pin))
                .flatMap(table -> swapped(table, pin, other))
                .orElse(this);
    }

    private Optional<Cell> swapped(CellFunction.LookupTable table, String pin, String other) {
        String before = settings.getOrDefault(table.setting(), "");
        return table.swapped(before, pin, other)
                .map(
                        now -> {
                            Map<String, String> others = new HashMap<>(settings);
                            others.put(table.setting(), now);
                            return withSettings(others);
                        });
    }

    /** Whether a setting states that a pin, at which no net ends, is constant. */
    public boolean isTied(String pin) {
        return settings.containsKey(Netlist.TIED + pin);
    }

    /** The same cell on another site. */
    public Cell withSite(int other) {
        return new Cell(id, name, kind, other, settings, locked);
    }

    /** Whether the cell is set so that a signal can still pass through its site. */
    public boolean letsThrough() {
        return OPEN.equals(settings.get(THROUGH));
    }

    /** Whether it is this that the setting of a cell states with that value. */
    public static boolean letsThrough(String setting, String value) {
        return THROUGH.equals(setting) && OPEN.equals(value);
    }
}
