package padward.format.tables;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.design.Attachment;
import padward.design.AttachmentKind;
import padward.design.PadWiring;
import padward.fabric.Fabric;
import padward.format.Labels;
import padward.format.Limits;
import padward.format.PadLookup;
import padward.format.Text;

/** Reads what the board has on the pads; rows of one pad are joined. */
final class BoardTable {
    private static final double UNKNOWN = -1;

    private static final class Wiring {
        private String net = "";
        private double trace = UNKNOWN;
        private final List<Attachment> attached = new ArrayList<>();
    }

    private final PadLookup pads;
    private final Map<Integer, Wiring> byPad = new LinkedHashMap<>();

    BoardTable(Fabric fabric) {
        this.pads = new PadLookup(fabric);
    }

    void read(CsvTable table) {
        PadColumns pad = new PadColumns(table, pads);
        CsvTable.Column net = table.column("net");
        CsvTable.Column trace = table.column("trace_mm");
        while (table.next()) {
            int at = pad.read();
            Wiring wiring = byPad.computeIfAbsent(at, p -> new Wiring());
            String name = table.word(net);
            if (!wiring.net.isEmpty() && !name.isEmpty() && !wiring.net.equals(name)) {
                String before = wiring.net;
                table.fault(net, "one net on a pad, " + Text.quote(before), () -> Text.quote(name));
            }
            wiring.net = name.isEmpty() ? wiring.net : name;
            double length = readTrace(table, trace);
            if (wiring.trace != UNKNOWN && length != UNKNOWN && length != wiring.trace) {
                double before = wiring.trace;
                table.fault(trace, "one length on a pad, " + before, () -> "" + length);
            }
            wiring.trace = length == UNKNOWN ? wiring.trace : length;
            readAttached(table, wiring);
        }
    }

    private static double readTrace(CsvTable table, CsvTable.Column column) {
        if (!table.has(column)) {
            return UNKNOWN;
        }
        String text = table.text(column);
        try {
            double length = Double.parseDouble(text);
            if (length >= 0 && length <= Limits.TRACE_MM) {
                return length;
            }
        } catch (NumberFormatException e) {
            // told below
        }
        table.fault(column, "millimetres from 0 to " + Limits.TRACE_MM, () -> Text.quote(text));
        return UNKNOWN;
    }

    private static void readAttached(CsvTable table, Wiring wiring) {
        CsvTable.Column kind = table.column("attached");
        CsvTable.Column part = table.column("part");
        CsvTable.Column pin = table.column("part_pin");
        if (table.has(kind)) {
            wiring.attached.add(
                    new Attachment(
                            table.oneOf(
                                    kind,
                                    AttachmentKind.values(),
                                    Labels::of,
                                    AttachmentKind.HEADER),
                            table.name(part),
                            table.word(pin)));
        } else if (table.has(part) || table.has(pin)) {
            table.fault(kind, "what the part is", () -> "an empty field");
        }
    }

    List<PadWiring> wirings() {
        return byPad.entrySet().stream()
                .map(
                        e ->
                                new PadWiring(
                                        e.getKey(),
                                        e.getValue().net,
                                        e.getValue().trace == UNKNOWN ? 0 : e.getValue().trace,
                                        e.getValue().attached))
                .toList();
    }
}
