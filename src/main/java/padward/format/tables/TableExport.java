package padward.format.tables;

import java.io.BufferedOutputStream;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.zip.GZIPOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Attachment;
import padward.design.Board;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadWiring;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Bank;
import padward.fabric.CellKind;
import padward.fabric.Corner;
import padward.fabric.DriverOutput;
import padward.fabric.DriverSetting;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Electrical;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.format.FolderSwap;
import padward.format.Labels;

/**
 * Writes fabrics, designs and boards as tables; a pattern fabric is written wire by wire. What
 * {@link TableImport} makes of the tables writes the same bytes again.
 */
public final class TableExport {
    private final Fabric fabric;
    private final Path folder;
    private final boolean zipped;
    private final Progress progress;

    private TableExport(Fabric fabric, Path folder, boolean zipped, Progress progress) {
        this.fabric = fabric;
        this.folder = folder;
        this.zipped = zipped;
        this.progress = progress;
    }

    /**
     * Writes a fabric alone.
     *
     * @param target a folder that is not there yet, is empty, or holds nothing but tables
     * @throws BadInput when it cannot be written; the old folder then stands as it was
     */
    public static void write(Fabric fabric, Path target, boolean zipped, Progress progress)
            throws BadInput {
        FolderSwap.write(
                target,
                TableExport::isTable,
                folder -> {
                    TableExport tables = new TableExport(fabric, folder, zipped, progress);
                    tables.writeAbout(Map.of());
                    tables.writeFabric();
                });
    }

    /** As {@link #write(Fabric, Path, boolean, Progress)}, with the design on the fabric. */
    public static void write(Design design, Path target, boolean zipped, Progress progress)
            throws BadInput {
        FolderSwap.write(
                target,
                TableExport::isTable,
                folder -> {
                    TableExport tables = new TableExport(design.fabric(), folder, zipped, progress);
                    Map<String, String> about = new TreeMap<>();
                    about.put("design", design.name());
                    about.put("design_note", design.note());
                    about.put("board", design.board().name());
                    about.put("board_note", design.board().note());
                    tables.writeAbout(about);
                    tables.writeFabric();
                    tables.writeDesign(design);
                    if (!design.board().equals(Board.UNKNOWN)) {
                        tables.writeBoard(design.board());
                    }
                });
    }

    private static boolean isTable(String name) {
        return Tables.ALL.stream().anyMatch(t -> name.matches(t.name() + "\\.(csv|tsv)(\\.gz)?"));
    }

    private interface Body {
        void write(CSVPrinter out) throws IOException;
    }

    private void table(TableShape shape, Body body) throws IOException {
        if (progress.cancelled()) {
            throw new CancellationException("writing " + shape.name());
        }
        int index = Tables.ALL.indexOf(shape);
        progress.report((double) index / Tables.ALL.size(), "writing " + shape.name());
        Path file = folder.resolve(shape.name() + (zipped ? ".csv.gz" : ".csv"));
        try (OutputStream raw = Files.newOutputStream(file);
                OutputStream bytes =
                        zipped
                                ? new GZIPOutputStream(raw, 1 << 16)
                                : new BufferedOutputStream(raw, 1 << 16);
                Writer text =
                        new BufferedWriter(new OutputStreamWriter(bytes, StandardCharsets.UTF_8));
                CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            out.printRecord(shape.written());
            body.write(out);
        }
    }

    private void writeAbout(Map<String, String> more) throws IOException {
        table(
                Tables.ABOUT,
                out -> {
                    out.printRecord("fabric", fabric.info().name());
                    if (!fabric.info().note().isEmpty()) {
                        out.printRecord("fabric_note", fabric.info().note());
                    }
                    out.printRecord("columns", fabric.columns());
                    out.printRecord("rows", fabric.rows());
                    for (Map.Entry<String, String> entry : more.entrySet()) {
                        if (!entry.getValue().isEmpty()) {
                            out.printRecord(entry.getKey(), entry.getValue());
                        }
                    }
                });
    }

    private void writeFabric() throws IOException {
        table(
                Tables.CELL_KINDS,
                out -> {
                    for (CellKind kind : fabric.info().cellKinds()) {
                        out.printRecord(kind.name(), yes(kind.holdsState()));
                    }
                });
        table(
                Tables.SETTINGS,
                out -> {
                    for (DriverSetting setting : fabric.info().settings()) {
                        out.printRecord(settingRow(setting));
                    }
                });
        Electrical electrical = fabric.info().electrical();
        table(
                Tables.WIRE_LOADS,
                out -> {
                    for (Electrical.WireLoad load : electrical.wires()) {
                        out.printRecord(
                                load.wire(),
                                load.ohms().fast(),
                                load.ohms().slow(),
                                load.femtofarads().fast(),
                                load.femtofarads().slow());
                    }
                });
        table(
                Tables.SWITCH_LOADS,
                out -> {
                    for (Electrical.SwitchLoad load : electrical.switches()) {
                        out.printRecord(
                                load.from(),
                                load.to(),
                                yes(load.buffered()),
                                load.ohms().fast(),
                                load.ohms().slow(),
                                load.femtofarads().fast(),
                                load.femtofarads().slow());
                    }
                });
        table(
                Tables.BANKS,
                out -> {
                    for (Bank bank : fabric.info().banks()) {
                        out.printRecord(bank.name(), bank.millivolts());
                    }
                });
        table(
                Tables.TILES,
                out -> {
                    for (int tile = 0; tile < fabric.tileCount(); tile++) {
                        out.printRecord(fabric.tileName(tile), fabric.tileType(tile));
                    }
                });
        table(Tables.WIRES, this::writeWires);
        table(Tables.SITES, this::writeSites);
        table(Tables.PINS, this::writePins);
        table(Tables.THROUGH, this::writeThrough);
        table(Tables.PADS, this::writePads);
        table(Tables.SWITCHES, this::writeSwitches);
    }

    private static String yes(boolean flag) {
        return flag ? "yes" : "no";
    }

    private static List<Object> settingRow(DriverSetting s) {
        List<Object> row = new ArrayList<>();
        Collections.addAll(row, s.name(), s.standard(), s.millivolts(), s.milliamps(), s.slew());
        Collections.addAll(row, s.delay().fastPs(), s.delay().slowPs());
        if (s.output().isEmpty()) {
            row.addAll(Collections.nCopies(6, ""));
            return row;
        }
        DriverOutput output = s.output().get();
        Collections.addAll(row, output.ratedPf(), output.rise().fastPs(), output.rise().slowPs());
        Collections.addAll(row, output.ohms().fast(), output.ohms().slow());
        row.add(output.mostMhz() == 0 ? "" : output.mostMhz());
        return row;
    }

    private void writeWires(CSVPrinter out) throws IOException {
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                out.printRecord(
                        fabric.vertexName(v),
                        fabric.tileName(fabric.tile(v)),
                        fabric.tileName(fabric.headTile(v)),
                        fabric.wireKind(v));
            }
        }
    }

    private void writeSites(CSVPrinter out) throws IOException {
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            out.printRecord(
                    site.name(),
                    fabric.tileName(site.tile()),
                    site.kind(),
                    Listed.join(site.accepts()));
        }
    }

    private void writePins(CSVPrinter out) throws IOException {
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (var pin : site.pins()) {
                out.printRecord(site.name(), pin.name(), Labels.of(pin.direction()));
            }
        }
    }

    private void writeThrough(CSVPrinter out) throws IOException {
        EdgeCursor edges = fabric.edgesOut();
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (int i = 0; i < site.pins().size(); i++) {
                edges.reset(site.firstPin() + i);
                while (edges.next()) {
                    if (edges.kind() == EdgeKind.THROUGH) {
                        out.printRecord(
                                site.name(),
                                site.pins().get(i).name(),
                                site.pins().get(edges.other() - site.firstPin()).name(),
                                edges.delayPs(Corner.FAST),
                                edges.delayPs(Corner.SLOW));
                    }
                }
            }
        }
    }

    private void writePads(CSVPrinter out) throws IOException {
        for (Pad pad : fabric.pads()) {
            out.printRecord(
                    pad.name(),
                    fabric.tileName(pad.tile()),
                    pad.packagePin(),
                    pad.bank(),
                    Labels.of(pad.directions()),
                    siteName(pad.dataSite()),
                    siteName(pad.enableSite()),
                    pad.defaultSetting());
        }
    }

    private String siteName(int site) {
        return site == Fabric.NOTHING ? "" : fabric.site(site).name();
    }

    /** In the order wires, pins, pads, in which a fabric read from tables numbers its vertices. */
    private void writeSwitches(CSVPrinter out) throws IOException {
        for (VertexKind sort : List.of(VertexKind.WIRE, VertexKind.PIN, VertexKind.PAD)) {
            EdgeCursor edges = fabric.edgesOut();
            for (int v = 0; v < fabric.vertexCount(); v++) {
                if (fabric.kind(v) != sort) {
                    continue;
                }
                edges.reset(v);
                while (edges.next()) {
                    if (edges.kind() != EdgeKind.THROUGH) {
                        out.printRecord(
                                fabric.vertexName(v),
                                fabric.vertexName(edges.other()),
                                edges.kind().label(),
                                edges.delayPs(Corner.FAST),
                                edges.delayPs(Corner.SLOW));
                    }
                }
            }
        }
    }

    private void writeDesign(Design design) throws IOException {
        table(
                Tables.CELLS,
                out -> {
                    for (Cell cell : design.cells()) {
                        out.printRecord(cell.name(), cell.kind(), fabric.site(cell.site()).name());
                    }
                });
        table(
                Tables.CELL_SETTINGS,
                out -> {
                    for (Cell cell : design.cells()) {
                        for (var setting : new TreeMap<>(cell.settings()).entrySet()) {
                            out.printRecord(cell.name(), setting.getKey(), setting.getValue());
                        }
                    }
                });
        table(
                Tables.PORTS,
                out -> {
                    for (Port port : design.ports()) {
                        out.printRecord(
                                port.name(),
                                port.direction().label(),
                                fabric.pads().get(port.pad()).name(),
                                port.setting());
                    }
                });
        table(
                Tables.NETS,
                out -> {
                    for (Net net : design.nets()) {
                        String required =
                                net.requiredPs().isPresent()
                                        ? String.valueOf(net.requiredPs().getAsInt())
                                        : "";
                        out.printRecord(net.name(), yes(net.clock()), required);
                    }
                });
        table(
                Tables.ENDS,
                out -> {
                    for (Net net : design.nets()) {
                        writeEnd(out, design, net, net.driver(), "driver");
                        for (Terminal sink : net.sinks()) {
                            writeEnd(out, design, net, sink, "sink");
                        }
                    }
                });
        table(
                Tables.ROUTES,
                out -> {
                    for (Net net : design.nets()) {
                        writeRoute(out, net);
                    }
                });
    }

    private static void writeEnd(CSVPrinter out, Design design, Net net, Terminal end, String role)
            throws IOException {
        if (end instanceof Terminal.CellPin at) {
            String cell = design.cells().get(at.cell()).name();
            out.printRecord(net.name(), cell, at.pin(), "", role);
        } else {
            String port = design.ports().get(((Terminal.PortEnd) end).port()).name();
            out.printRecord(net.name(), "", "", port, role);
        }
    }

    private void writeRoute(CSVPrinter out, Net net) throws IOException {
        RouteTree tree = net.route();
        for (int place = 1; place < tree.size(); place++) {
            out.printRecord(
                    net.name(),
                    fabric.vertexName(tree.vertex(tree.parent(place))),
                    fabric.vertexName(tree.vertex(place)));
        }
    }

    private static Object load(PadWiring wiring) {
        return wiring.loadPf() == 0 ? "" : wiring.loadPf();
    }

    private void writeBoard(Board board) throws IOException {
        table(
                Tables.BOARD,
                out -> {
                    for (PadWiring wiring : board.wirings()) {
                        String pad = fabric.pads().get(wiring.pad()).name();
                        if (wiring.attachments().isEmpty()) {
                            out.printRecord(
                                    pad,
                                    wiring.net(),
                                    wiring.traceMillimetres(),
                                    load(wiring),
                                    "",
                                    "",
                                    "");
                        }
                        for (Attachment attached : wiring.attachments()) {
                            out.printRecord(
                                    pad,
                                    wiring.net(),
                                    wiring.traceMillimetres(),
                                    load(wiring),
                                    Labels.of(attached.kind()),
                                    attached.name(),
                                    attached.pin());
                        }
                    }
                });
    }
}
