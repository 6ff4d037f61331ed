package padward.format.tables.csv;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import padward.fabric.explicit.RepeatedEdge;
import padward.format.source.Text;

/**
 * Tells the rows that state an edge for the second time. That there are such rows shows only once
 * all edges are sorted, when their rows are forgotten; so the tables are read again.
 */
public final class RepeatedEdgeRows {
    private final TableFolder folder;
    private final Faults faults;
    private final Set<List<String>> doubled;
    private final Set<List<String>> seen = new HashSet<>();

    public RepeatedEdgeRows(TableFolder folder, Faults faults, List<RepeatedEdge> repeated) {
        this.folder = folder;
        this.faults = faults;
        this.doubled =
                repeated.stream().map(e -> List.of(e.from(), e.to())).collect(Collectors.toSet());
    }

    public void tell() {
        folder.lookThrough(Tables.PASS_THROUGH, this::readThrough);
        folder.lookThrough(Tables.SWITCHES, this::readSwitches);
    }

    private void readThrough(CsvTable table) {
        CsvTable.Column site = table.column("site");
        CsvTable.Column from = table.column("from");
        CsvTable.Column to = table.column("to");
        while (table.next()) {
            String start = table.text(site) + "." + table.text(from);
            String end = table.text(site) + "." + table.text(to);
            if (isSecond(start, end)) {
                tell(table, Tables.PASS_THROUGH, "each way through a site once");
            }
        }
    }

    private void readSwitches(CsvTable table) {
        CsvTable.Column from = table.column("from");
        CsvTable.Column to = table.column("to");
        while (table.next()) {
            String start = table.text(from);
            if (isSecond(start, table.text(to))) {
                String expected = "one connection from " + Text.quote(start) + " to it";
                tell(table, Tables.SWITCHES, expected);
            }
        }
    }

    private boolean isSecond(String from, String to) {
        List<String> ends = List.of(from, to);
        return doubled.contains(ends) && !seen.add(ends);
    }

    private void tell(CsvTable table, TableShape shape, String expected) {
        faults.add(
                folder.label(shape),
                CsvTable.place(table.row(), "to"),
                expected,
                () -> "a second one");
    }
}
