package padward.format.tables;

import java.util.OptionalInt;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;
import padward.format.source.Nearest;
import padward.format.tables.csv.CsvTable;

/** The two columns that can name a pad. */
final class PadColumns {
    private final CsvTable table;
    private final PadLookup pads;
    private final CsvTable.Column pad;
    private final CsvTable.Column packagePin;

    PadColumns(CsvTable table, PadLookup pads) {
        this.table = table;
        this.pads = pads;
        this.pad = table.column("pad");
        this.packagePin = table.column("package_pin");
    }

    CsvTable.Column column() {
        return table.has(packagePin) ? packagePin : pad;
    }

    /** The index of the pad that a row names, or {@link Fabric#NOTHING} after a fault. */
    int read() {
        if (table.has(pad) == table.has(packagePin)) {
            boolean both = table.has(pad);
            table.fault(
                    pad, "either a pad or a package pin", () -> both ? "both" : "neither of them");
            return Fabric.NOTHING;
        }
        boolean byPin = table.has(packagePin);
        String name = table.text(column());
        OptionalInt index = byPin ? pads.findPackagePin(name) : pads.findName(name);
        if (index.isEmpty()) {
            table.fault(
                    column(),
                    byPin ? "a package pin with a pad" : "the full name of a pad",
                    () -> Nearest.describe(name, byPin ? pads.packagePins() : pads.names()));
        }
        return index.orElse(Fabric.NOTHING);
    }
}
