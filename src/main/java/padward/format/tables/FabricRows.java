package padward.format.tables;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVPrinter;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.Tap;
import padward.fabric.Taps;
import padward.fabric.VertexKind;
import padward.fabric.WholeSite;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;
import padward.format.fabric.CellKindForms;
import padward.format.fabric.InfoForms;
import padward.format.json.EnumWords;
import padward.format.json.Names;
import padward.format.tables.csv.Listed;
import padward.format.tables.csv.TableOut;

/** Writes the tables of a fabric, wire by wire. */
final class FabricRows {
    /** How many rows are written between two questions whether to stop, less one. */
    private static final int OFTEN = 0x3ff;

    private final Fabric fabric;
    private final TableOut out;

    FabricRows(Fabric fabric, TableOut out) {
        this.fabric = fabric;
        this.out = out;
    }

    void write() throws IOException {
        FabricInfo info = fabric.info();
        Names free = new Names("");
        FormTables.write(out, Tables.CELL_KINDS, CellKindForms.kind(free), info.cellKinds());
        FormTables.write(out, Tables.SETTINGS, InfoForms.setting(free), info.settings());
        Optional<Names> any = Optional.empty();
        FormTables.write(
                out, Tables.WIRE_LOADS, InfoForms.wireLoad(any), info.electrical().wires());
        FormTables.write(
                out, Tables.SWITCH_LOADS, InfoForms.switchLoad(any), info.electrical().switches());
        FormTables.write(out, Tables.BANKS, InfoForms.bank(free), info.banks());
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
        boolean anyParts =
                IntStream.range(0, fabric.siteCount()).anyMatch(s -> fabric.site(s).isPart());
        if (anyParts) {
            out.table(Tables.PARTS, this::writeParts);
        }
        out.table(Tables.SITES, this::writeSites);
        out.table(Tables.PINS, this::writePins);
        out.table(Tables.PASS_THROUGH, this::writeThrough);
        out.table(Tables.PADS, this::writePads);
        out.table(Tables.SWITCHES, this::writeSwitches);
    }

    private void writeWires(CSVPrinter rows) throws IOException {
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                rows.printRecord(
                        fabric.vertexName(v),
                        fabric.tileName(fabric.tile(v)),
                        fabric.tileName(fabric.headTile(v)),
                        fabric.wireKind(v),
                        yesOrNothing(fabric.unusable().isVertex(v)));
            }
        }
    }

    private static String yesOrNothing(boolean is) {
        return is ? TableOut.yes(true) : "";
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

    private void writeParts(CSVPrinter rows) throws IOException {
        for (WholeSite site : WholeSite.allOf(fabric)) {
            for (SiteView part : site.parts()) {
                if (part.isPart()) {
                    rows.printRecord(site.name(), part.part(), Listed.join(part.accepts()));
                }
            }
        }
    }

    private void writeSites(CSVPrinter rows) throws IOException {
        for (WholeSite site : WholeSite.allOf(fabric)) {
            SiteView first = site.first();
            List<String> more = first.moreTiles().stream().map(fabric::tileName).toList();
            rows.printRecord(
                    site.name(),
                    fabric.tileName(first.tile()),
                    first.kind(),
                    site.hasParts() ? "" : Listed.join(first.accepts()),
                    more.isEmpty() ? "" : Listed.join(more),
                    yesOrNothing(fabric.unusable().isSite(first.id())));
        }
    }

    private void writePins(CSVPrinter rows) throws IOException {
        for (int s = 0; s < fabric.siteCount(); s++) {
            if ((s & OFTEN) == 0) {
                out.check();
            }
            SiteView site = fabric.site(s);
            for (var pin : site.pins()) {
                rows.printRecord(
                        site.wholeName(),
                        pin.name(),
                        EnumWords.of(pin.direction()),
                        site.part(),
                        pin.alike());
            }
        }
    }

    private void writeThrough(CSVPrinter rows) throws IOException {
        EdgeCursor edges = fabric.edgesOut();
        for (int s = 0; s < fabric.siteCount(); s++) {
            if ((s & OFTEN) == 0) {
                out.check();
            }
            SiteView site = fabric.site(s);
            for (int i = 0; i < site.pins().size(); i++) {
                edges.reset(site.firstPin() + i);
                while (edges.next()) {
                    if (edges.kind() == EdgeKind.PASS_THROUGH) {
                        rows.printRecord(
                                site.wholeName(),
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
                    pad.use().role() == PadUse.Role.GENERAL ? "" : pad.use().role().label(),
                    packagePs(pad, Corner.FAST),
                    packagePs(pad, Corner.SLOW),
                    yesOrNothing(pad.use().driving().inverts()),
                    Listed.join(pad.use().driving().settings()),
                    pad.use().driving().partner());
        }
    }

    private static Object packagePs(Pad pad, Corner corner) {
        return pad.use().packageDelay().equals(Delay.ZERO)
                ? ""
                : pad.use().packageDelay().at(corner);
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
                if ((v & OFTEN) == 0) {
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
                                statedTile(v, edges.other()),
                                group(v, edges.other()));
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

    private String group(int from, int to) {
        int group = fabric.switchGroups().groupOf(from, to);
        return group == Fabric.NOTHING ? "" : fabric.switchGroups().name(group);
    }
}
