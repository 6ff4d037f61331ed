package padward.design.compact;

import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import padward.design.Cell;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The cells of a design in a compact copy: each on a site of its own, of a kind that the site
 * accepts. Cells with equal settings share them.
 */
final class CellParts {
    private final CompactIn in;
    private final Fabric fabric;
    private final BitSet sitesUsed = new BitSet();
    private final List<Map<String, String>> settings = new ArrayList<>();
    private final CellPins pins;

    CellParts(CompactIn in, Fabric fabric) {
        this.in = in;
        this.fabric = fabric;
        this.pins = new CellPins(fabric);
    }

    /** Writes cells. */
    static final class Writer {
        private final CompactOut out;
        private final Fabric fabric;
        private final CellPins pins;
        private final Object2IntOpenHashMap<Map<String, String>> settings =
                new Object2IntOpenHashMap<>();

        Writer(CompactOut out, Design design) {
            this.out = out;
            this.fabric = design.fabric();
            this.pins = new CellPins(fabric);
        }

        void write(Cell cell) throws IOException {
            pins.add(cell.site());
            out.name(cell.name());
            out.smallNumber(cell.site());
            out.smallNumber(fabric.acceptedBy(cell.site()).indexOf(cell.kind()));
            out.flag(cell.locked());
            int number = settings.getOrDefault(cell.settings(), settings.size());
            out.smallNumber(number);
            if (number == settings.size()) {
                settings.put(cell.settings(), number);
                // in one order, whatever that of the map is in this run
                out.list(
                        new TreeMap<>(cell.settings()).entrySet(),
                        setting -> {
                            out.text(setting.getKey());
                            out.text(setting.getValue());
                        });
            }
        }

        /** The pins of all cells written. */
        CellPins pins() {
            return pins;
        }
    }

    Cell read() throws IOException {
        String name = in.name();
        int site = in.smallNumber(fabric.siteCount() - 1);
        Damaged.unless(!sitesUsed.get(site), "two cells on a site");
        sitesUsed.set(site);
        List<String> kinds = fabric.acceptedBy(site);
        String kind = kinds.get(in.smallNumber(kinds.size() - 1));
        boolean locked = in.flag();
        return new Cell(pins.add(site), name, kind, site, readSettings(), locked);
    }

    private Map<String, String> readSettings() throws IOException {
        int number = in.smallNumber(settings.size());
        if (number == settings.size()) {
            Map<String, String> all = new HashMap<>();
            in.list(() -> all.put(in.text(), in.text()));
            settings.add(Map.copyOf(all));
        }
        return settings.get(number);
    }

    /** The pins of all cells read. */
    CellPins pins() {
        return pins;
    }
}
