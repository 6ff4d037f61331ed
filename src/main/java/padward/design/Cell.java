package padward.design;

import java.util.Map;

/**
 * A cell placed on a site.
 *
 * @param id dense number in the design
 * @param name hierarchical name, {@code uart/rx/cnt[2]}
 * @param kind kind of cell, one that its site accepts
 * @param site number of its site
 * @param settings settings by name; {@code through = open} leaves the site's pass-throughs usable
 */
public record Cell(int id, String name, String kind, int site, Map<String, String> settings) {
    /** Copies the settings. */
    public Cell {
        settings = Map.copyOf(settings);
    }

    /** Whether the cell is set so that a signal can still pass through its site. */
    public boolean letsThrough() {
        return "open".equals(settings.get("through"));
    }
}
