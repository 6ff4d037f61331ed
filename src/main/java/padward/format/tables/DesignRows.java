package padward.format.tables;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.io.IOException;
import java.util.TreeMap;
import org.apache.commons.csv.CSVPrinter;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Attachment;
import padward.design.board.BoardHeader;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.format.design.DesignFileRules;
import padward.format.json.EnumWords;
import padward.format.tables.csv.TableOut;

/** Writes the tables of a design and its board. */
final class DesignRows {
    private final Design design;
    private final Fabric fabric;
    private final TableOut out;

    DesignRows(Design design, TableOut out) {
        this.design = design;
        this.fabric = design.fabric();
        this.out = out;
    }

    void write() throws IOException {
        out.table(
                Tables.CELLS,
                rows -> {
                    for (Cell cell : design.cells()) {
                        rows.printRecord(
                                cell.name(),
                                cell.kind(),
                                fabric.site(cell.site()).name(),
                                cell.locked() ? TableOut.yes(true) : "");
                    }
                });
        out.table(
                Tables.CELL_SETTINGS,
                rows -> {
                    for (Cell cell : design.cells()) {
                        for (var setting : new TreeMap<>(cell.settings()).entrySet()) {
                            rows.printRecord(cell.name(), setting.getKey(), setting.getValue());
                        }
                    }
                });
        out.table(
                Tables.PORTS,
                rows -> {
                    for (Port port : design.ports()) {
                        rows.printRecord(
                                port.name(),
                                port.direction().label(),
                                fabric.pads().get(port.pad()).name(),
                                port.setting(),
                                port.enableTied() ? Port.TIED : "");
                    }
                });
        out.table(
                Tables.NETS,
                rows -> {
                    for (Net net : design.nets()) {
                        String required =
                                net.requiredPs().isPresent()
                                        ? String.valueOf(net.requiredPs().getAsInt())
                                        : "";
                        rows.printRecord(
                                net.name(),
                                TableOut.yes(net.clock()),
                                required,
                                net.lock() == NetLock.NONE ? "" : net.lock().label());
                    }
                });
        out.table(
                Tables.ENDS,
                rows -> {
                    for (Net net : design.nets()) {
                        writeEnd(rows, net, net.driver(), "driver", false);
                        IntSet on = new IntOpenHashSet(net.route().toVertices());
                        for (Terminal sink : net.sinks()) {
                            boolean unrouted = on.size() > 1 && !on.contains(design.vertexOf(sink));
                            writeEnd(rows, net, sink, "sink", unrouted);
                        }
                    }
                });
        out.table(
                Tables.ROUTES,
                rows -> {
                    for (Net net : design.nets()) {
                        writeRoute(rows, net);
                    }
                });
    }

    private void writeEnd(CSVPrinter rows, Net net, Terminal end, String role, boolean unrouted)
            throws IOException {
        Integer own = net.requiredAtPs().get(end);
        String required = own == null ? "" : own.toString();
        String mark = unrouted ? TableOut.yes(true) : "";
        if (end instanceof Terminal.CellPin at) {
            String cell = design.cells().get(at.cell()).name();
            rows.printRecord(net.name(), cell, at.pin(), "", role, required, mark);
        } else {
            Terminal.PortEnd at = (Terminal.PortEnd) end;
            String port = design.ports().get(at.port()).name();
            String pin = DesignFileRules.pinOf(at);
            rows.printRecord(net.name(), "", pin, port, role, required, mark);
        }
    }

    private void writeRoute(CSVPrinter rows, Net net) throws IOException {
        RouteTree tree = net.route();
        for (int place = 1; place < tree.size(); place++) {
            rows.printRecord(
                    net.name(),
                    fabric.vertexName(tree.vertex(tree.parent(place))),
                    fabric.vertexName(tree.vertex(place)));
        }
    }

    private static Object load(PadWiring wiring) {
        return wiring.loadPf() == 0 ? "" : wiring.loadPf();
    }

    private static String layer(PadWiring wiring) {
        return wiring.layer() == PadWiring.Layer.OUTER ? "" : EnumWords.of(wiring.layer());
    }

    void writeBoard() throws IOException {
        out.table(
                Tables.BOARD,
                rows -> {
                    for (PadWiring wiring : design.board().wirings()) {
                        String pad = fabric.pads().get(wiring.pad()).name();
                        if (wiring.attachments().isEmpty()) {
                            rows.printRecord(
                                    pad,
                                    wiring.net(),
                                    wiring.traceMillimetres(),
                                    load(wiring),
                                    layer(wiring),
                                    "",
                                    "",
                                    "",
                                    "",
                                    "",
                                    "",
                                    "");
                        }
                        for (Attachment attached : wiring.attachments()) {
                            rows.printRecord(
                                    pad,
                                    wiring.net(),
                                    wiring.traceMillimetres(),
                                    load(wiring),
                                    layer(wiring),
                                    EnumWords.of(attached.kind()),
                                    attached.name(),
                                    attached.pin(),
                                    known(attached.levels().millivolts()),
                                    known(attached.levels().mostMillivolts()),
                                    known(attached.levels().seriesOhms()),
                                    attached.picofarads() == 0 ? "" : attached.picofarads());
                        }
                    }
                });
        out.table(
                Tables.HEADERS,
                rows -> {
                    for (BoardHeader header : design.board().headers()) {
                        rows.printRecord(
                                header.name(),
                                header.pins(),
                                header.rows(),
                                EnumWords.of(header.numbering()),
                                EnumWords.of(header.seen()),
                                String.join(" ", header.grounds()));
                    }
                });
    }

    private static Object known(int value) {
        return value == 0 ? "" : value;
    }
}
