package padward.format.tables;

import java.util.ArrayList;
import java.util.List;
import padward.fabric.AtCorners;
import padward.fabric.Electrical;
import padward.format.source.FileLimits;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableFolder;
import padward.format.tables.csv.Tables;

/** Reads resistances and capacitances of wires and switches. */
final class LoadTables {
    private final List<Electrical.WireLoad> wires = new ArrayList<>();
    private final List<Electrical.SwitchLoad> switches = new ArrayList<>();

    Electrical read(TableFolder folder) {
        folder.read(Tables.WIRE_LOADS, this::readWires);
        folder.read(Tables.SWITCH_LOADS, this::readSwitches);
        return new Electrical(wires, switches);
    }

    private void readWires(CsvTable table) {
        CsvTable.Column kind = table.column("kind");
        while (table.next()) {
            wires.add(
                    new Electrical.WireLoad(
                            table.name(kind),
                            read(table, "fast_ohms", "slow_ohms"),
                            read(table, "fast_ff", "slow_ff")));
        }
    }

    private void readSwitches(CsvTable table) {
        CsvTable.Column from = table.column("from");
        CsvTable.Column to = table.column("to");
        CsvTable.Column buffered = table.column("buffered");
        while (table.next()) {
            switches.add(
                    new Electrical.SwitchLoad(
                            table.name(from),
                            table.name(to),
                            table.flag(buffered, true),
                            read(table, "fast_ohms", "slow_ohms"),
                            read(table, "fast_ff", "slow_ff")));
        }
    }

    private static AtCorners read(CsvTable table, String fast, String slow) {
        return read(table, table.column(fast), table.column(slow), FileLimits.OHMS);
    }

    /** A required value at both corners; empty after a fault. */
    static AtCorners read(
            CsvTable table, CsvTable.Column fastColumn, CsvTable.Column slowColumn, int most) {
        for (CsvTable.Column column : List.of(fastColumn, slowColumn)) {
            if (!table.has(column)) {
                table.fault(column, "a whole number", () -> "an empty field");
                return AtCorners.ZERO;
            }
        }
        int fast = table.integer(fastColumn, 0, most, 0);
        int slow = table.integer(slowColumn, 0, most, fast);
        if (slow < fast) {
            table.fault(
                    slowColumn, "a slow value of at least the fast one, " + fast, () -> "" + slow);
            return AtCorners.ZERO;
        }
        return new AtCorners(fast, slow);
    }
}
