package padward.format.tables;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVPrinter;
import padward.fabric.Bank;
import padward.fabric.CellKind;
import padward.fabric.Corner;
import padward.fabric.DriverSetting;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Electrical;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PadDriverOutput;
import padward.fabric.PadEnable;
import padward.fabric.PadUse;
import padward.fabric.SiteView;
import padward.fabric.Tap;
import padward.fabric.Taps;
import padward.fabric.VertexKind;
import padward.format.json.EnumWords;
import padward.format.tables.csv.Listed;
import padward.format.tables.csv.TableOut;
import padward.format.tables.csv.Tables;

/** Writes the tables of a fabric, wire by wire. */
final class FabricRows {
    private final Fabric fabric;
    private final TableOut out;

    FabricRows(Fabric fabric, TableOut out) {
        this.fabric = fabric;
        this.out = out;
    }

    void write() throws IOException {
        out.table(
                Tables.CELL_KINDS,
                rows -> {
                    for (CellKind kind : fabric.info().cellKinds()) {
                        rows.printRecord(kind.name(), TableOut.yes(kind.holdsState()));
                    }
                });
        out.table(
                Tables.SETTINGS,
                rows -> {
                    for (DriverSetting setting : fabric.info().settings()) {
                        rows.printRecord(settingRow(setting));
                    }
                });
        Electrical electrical = fabric.info().electrical();
        out.table(
                Tables.WIRE_LOADS,
                rows -> {
                    for (Electrical.WireLoad load : electrical.wires()) {
                        rows.printRecord(
                                load.wire(),
                                load.ohms().fast(),
                                load.ohms().slow(),
                                load.femtofarads().fast(),
                                load.femtofarads().slow());
                    }
                });
        out.table(
                Tables.SWITCH_LOADS,
                rows -> {
                    for (Electrical.SwitchLoad load : electrical.switches()) {
                        rows.printRecord(
                                load.from(),
                                load.to(),
                                TableOut.yes(load.buffered()),
                                load.ohms().fast(),
                                load.ohms().slow(),
                                load.femtofarads().fast(),
                                load.femtofarads().slow());
                    }
                });
        out.table(
                Tables.BANKS,
                rows -> {
                    for (Bank bank : fabric.info().banks()) {
                        rows.printRecord(bank.name(), bank.millivolts());
                    }
                });
        out.table(
                Tables.TILES,
                rows -> {
                    for (int tile = 0; tile < fabric.tileCount(); tile++) {
                        rows.printRecord(fabric.tileName(tile), fabric.tileType(tile));
                    }
                });
        out.table(Tables.WIRES, this::writeWires);
        boolean anyTaps = IntStream.range(0, fabric.vertexCount()).anyMatch(fabric::listsTaps);
        if (anyTaps) {
            out.table(Tables.TAPS, this::writeTaps);
        }
        out.table(Tables.SITES, this::writeSites);
        out.table(Tables.PINS, this::writePins);
        out.table(Tables.PASS_THROUGH, this::writeThrough);
        out.table(Tables.PADS, this::writePads);
        out.table(Tables.SWITCHES, this::writeSwitches);
    }

    private static List<Object> settingRow(DriverSetting s) {
        List<Object> row = new ArrayList<>();
        Collections.addAll(row, s.name(), s.standard(), s.millivolts(), s.milliamps(), s.slew());
        Collections.addAll(row, s.delay().fastPs(), s.delay().slowPs());
        if (s.output().isEmpty()) {
            row.addAll(Collections.nCopies(6, ""));
            row.add(s.differential() ? "yes" : "");
            return row;
        }
        PadDriverOutput output = s.output().get();
        Collections.addAll(row, output.ratedPf(), output.rise().fastPs(), output.rise().slowPs());
        Collections.addAll(row, output.ohms().fast(), output.ohms().slow());
        row.add(output.mostMhz() == 0 ? "" : output.mostMhz());
        row.add(s.differential() ? "yes" : "");
        return row;
    }

    private void writeWires(CSVPrinter rows) throws IOException {
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                rows.printRecord(
                        fabric.vertexName(v),
                        fabric.tileName(fabric.tile(v)),
                        fabric.tileName(fabric.headTile(v)),
                        fabric.wireKind(v));
            }
        }
    }

    private void writeTaps(CSVPrinter rows) throws IOException {
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.listsTaps(v)) {
                String own = fabric.vertexName(v);
                for (Tap tap : fabric.taps(v)) {
                    String there = tap.name().equals(own) ? "" : tap.name();
                    rows.printRecord(own, fabric.tileName(tap.tile()), there);
                }
            }
        }
    }

    private void writeSites(CSVPrinter rows) throws IOException {
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            rows.printRecord(
                    site.name(),
                    fabric.tileName(site.tile()),
                    site.kind(),
                    Listed.join(site.accepts()));
        }
    }

    private void writePins(CSVPrinter rows) throws IOException {
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (var pin : site.pins()) {
                rows.printRecord(site.name(), pin.name(), EnumWords.of(pin.direction()));
            }
        }
    }

    private void writeThrough(CSVPrinter rows) throws IOException {
        EdgeCursor edges = fabric.edgesOut();
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (int i = 0; i < site.pins().size(); i++) {
                edges.reset(site.firstPin() + i);
                while (edges.next()) {
                    if (edges.kind() == EdgeKind.PASS_THROUGH) {
                        rows.printRecord(
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

    private void writePads(CSVPrinter rows) throws IOException {
        for (Pad pad : fabric.pads()) {
            rows.printRecord(
                    pad.name(),
                    fabric.tileName(pad.tile()),
                    pad.packagePin(),
                    pad.bank(),
                    EnumWords.of(pad.directions()),
                    siteName(pad.dataSite()),
                    siteName(pad.enableSite()),
                    known(pad.enable().active(), PadEnable.Active.UNKNOWN),
                    known(pad.enable().unconnected(), PadEnable.Unconnected.UNKNOWN),
                    pad.defaultSetting(),
                    pad.use().bonding() == PadUse.Bonding.UNKNOWN
                            ? ""
                            : TableOut.yes(pad.use().bonding() == PadUse.Bonding.BONDED),
                    pad.use().role() == PadUse.Role.GENERAL ? "" : pad.use().role().label());
        }
    }

    private static <T extends Enum<T>> String known(T value, T unknown) {
        return value == unknown ? "" : EnumWords.of(value);
    }

    private String siteName(int site) {
        return site == Fabric.NOTHING ? "" : fabric.site(site).name();
    }

    /** In the order wires, pins, pads, in which a fabric read from tables numbers its vertices. */
    private void writeSwitches(CSVPrinter rows) throws IOException {
        for (VertexKind sort : List.of(VertexKind.WIRE, VertexKind.PIN, VertexKind.PAD)) {
            EdgeCursor edges = fabric.edgesOut();
            for (int v = 0; v < fabric.vertexCount(); v++) {
                if ((v & 0xffff) == 0) {
                    out.check();
                }
                if (fabric.kind(v) != sort) {
                    continue;
                }
                edges.reset(v);
                String from = fabric.vertexName(v);
                while (edges.next()) {
                    if (edges.kind() != EdgeKind.PASS_THROUGH) {
                        rows.printRecord(
                                from,
                                fabric.vertexName(edges.other()),
                                edges.kind().label(),
                                edges.delayPs(Corner.FAST),
                                edges.delayPs(Corner.SLOW),
                                statedTile(v, edges.other()));
                    }
                }
            }
        }
    }

    /** The tile of a switch, where the taps of its ends do not show it. */
    private String statedTile(int from, int to) {
        int tile = fabric.switchTile(from, to);
        return tile == Taps.whereBothMeet(fabric, from, to) ? "" : fabric.tileName(tile);
    }
}
