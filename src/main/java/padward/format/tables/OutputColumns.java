package padward.format.tables;

import java.util.List;
import java.util.Optional;
import padward.fabric.AtCorners;
import padward.fabric.Delay;
import padward.fabric.FabricLimits;
import padward.fabric.PadDriverOutput;
import padward.format.tables.csv.CsvTable;

/** The columns in which {@code settings} describes a driver's output. */
final class OutputColumns {
    private final CsvTable table;
    private final CsvTable.Column rated;
    private final CsvTable.Column riseFast;
    private final CsvTable.Column riseSlow;
    private final CsvTable.Column fastOhms;
    private final CsvTable.Column slowOhms;
    private final CsvTable.Column most;

    OutputColumns(CsvTable table) {
        this.table = table;
        this.rated = table.column("rated_pf");
        this.riseFast = table.column("rise_fast_ps");
        this.riseSlow = table.column("rise_slow_ps");
        this.fastOhms = table.column("fast_ohms");
        this.slowOhms = table.column("slow_ohms");
        this.most = table.column("most_mhz");
    }

    /** What a row states: all but the frequency, or nothing. */
    Optional<PadDriverOutput> read() {
        List<CsvTable.Column> needed = List.of(rated, riseFast, riseSlow, fastOhms, slowOhms);
        if (needed.stream().noneMatch(table::has) && !table.has(most)) {
            return Optional.empty();
        }
        for (CsvTable.Column column : needed) {
            if (!table.has(column)) {
                table.fault(
                        column,
                        "a value, as the row states others of the driver's output",
                        () -> "an empty field");
                return Optional.empty();
            }
        }
        AtCorners rise = LoadTables.read(table, riseFast, riseSlow, FabricLimits.EDGE_DELAY_PS);
        return Optional.of(
                new PadDriverOutput(
                        table.real(rated, 0, padward.format.source.FileLimits.LOAD_PF, 0),
                        new Delay(rise.fast(), rise.slow()),
                        LoadTables.read(
                                table, fastOhms, slowOhms, padward.format.source.FileLimits.OHMS),
                        table.integer(most, 1, padward.format.source.FileLimits.ELECTRIC, 0)));
    }
}
