package padward.format.tables;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.BoardHeader;
import padward.design.board.Levels;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;
import padward.format.json.EnumWords;
import padward.format.source.FileLimits;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.HeaderColumns;

/** Reads what the board has on the pads; rows of one pad are joined. */
final class BoardTable {
    private static final double UNKNOWN = -1;

    private static final class Wiring {
        private String net = "";
        private double trace = UNKNOWN;
        private double load = UNKNOWN;
        private PadWiring.Layer layer = PadWiring.Layer.OUTER;
        private final List<Attachment> attached = new ArrayList<>();
    }

    private final PadLookup pads;
    private final List<BoardHeader> headers = new ArrayList<>();
    private final Map<Integer, Wiring> byPad = new LinkedHashMap<>();

    BoardTable(Fabric fabric) {
        this.pads = new PadLookup(fabric);
    }

    void read(CsvTable table) {
        PadColumns pad = new PadColumns(table, pads);
        CsvTable.Column net = table.column("net");
        CsvTable.Column trace = table.column("trace_mm");
        CsvTable.Column load = table.column("load_pf");
        CsvTable.Column layer = table.column("layer");
        while (table.next()) {
            int at = pad.read();
            Wiring wiring = byPad.computeIfAbsent(at, p -> new Wiring());
            String name = table.word(net);
            if (!wiring.net.isEmpty() && !name.isEmpty() && !wiring.net.equals(name)) {
                String before = wiring.net;
                table.fault(net, "one net on a pad, " + Text.quote(before), () -> Text.quote(name));
            }
            wiring.net = name.isEmpty() ? wiring.net : name;
            wiring.trace = join(table, trace, wiring.trace, FileLimits.TRACE_MM);
            wiring.load = join(table, load, wiring.load, FileLimits.LOAD_PF);
            wiring.layer =
                    table.oneOf(layer, PadWiring.Layer.values(), EnumWords::of, wiring.layer);
            readAttached(table, wiring);
        }
    }

    /** The value in this row or an earlier one of the pad; two rows must not differ. */
    private static double join(CsvTable table, CsvTable.Column column, double before, int most) {
        double value = table.real(column, 0, most, UNKNOWN);
        if (before != UNKNOWN && value != UNKNOWN && before != value) {
            table.fault(column, "one value for a pad, " + before, () -> "" + value);
        }
        return value == UNKNOWN ? before : value;
    }

    private static void readAttached(CsvTable table, Wiring wiring) {
        CsvTable.Column kind = table.column("attached");
        CsvTable.Column part = table.column("part");
        CsvTable.Column pin = table.column("part_pin");
        CsvTable.Column supply = table.column("millivolts");
        CsvTable.Column most = table.column("most_mv");
        CsvTable.Column series = table.column("series_ohms");
        CsvTable.Column farads = table.column("pf");
        if (table.has(kind)) {
            wiring.attached.add(
                    new Attachment(
                            table.oneOf(
                                    kind,
                                    AttachmentKind.values(),
                                    EnumWords::of,
                                    AttachmentKind.HEADER),
                            table.name(part),
                            table.word(pin),
                            new Levels(
                                    table.integer(supply, 0, FileLimits.ELECTRIC, 0),
                                    table.integer(most, 0, FileLimits.ELECTRIC, 0),
                                    table.integer(series, 0, FileLimits.OHMS, 0)),
                            table.real(farads, 0, FileLimits.LOAD_PF, 0)));
        } else if (table.has(part) || table.has(pin)) {
            table.fault(kind, "what is attached", () -> "an empty field");
        }
    }

    void readHeaders(CsvTable table) {
        CsvTable.Column name = table.column("name");
        HeaderColumns shape = new HeaderColumns(table, "grounds");
        while (table.next()) {
            headers.add(shape.read(table.name(name)));
        }
    }

    List<BoardHeader> headers() {
        return headers;
    }

    List<PadWiring> wirings() {
        return byPad.entrySet().stream()
                .map(
                        e ->
                                new PadWiring(
                                        e.getKey(),
                                        e.getValue().net,
                                        Math.max(0, e.getValue().trace),
                                        e.getValue().layer,
                                        Math.max(0, e.getValue().load),
                                        e.getValue().attached))
                .toList();
    }
}
