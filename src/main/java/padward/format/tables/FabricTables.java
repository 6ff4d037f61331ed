package padward.format.tables;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricLimits;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;
import padward.format.bsdl.PackagePins;
import padward.format.fabric.RepeatedEdges;
import padward.format.form.DelayColumns;
import padward.format.form.Kind;
import padward.format.json.EnumWords;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.Faults;
import padward.format.tables.csv.Listed;
import padward.format.tables.csv.PlaceColumns;
import padward.format.tables.csv.TableFolder;
import padward.format.tables.csv.TableShape;

/**
 * Reads the tables of a fabric. Apart from the fabric's builder it stores a kind for each wire and
 * the numbers of sites and pads; rows are not stored.
 */
final class FabricTables {
    private final TableFolder folder;
    private final Faults faults;
    private final InfoTables info;
    private final SiteTables sites;
    private final Optional<PackagePins> pins;
    private final InfoTables.Words words = new InfoTables.Words();
    private final Map<String, Integer> rowByPackagePin = new HashMap<>();
    private final IntArrayList kindOfWire = new IntArrayList();
    private final List<String> kinds = new ArrayList<>();
    private final Map<String, Integer> numberOfKind = new HashMap<>();
    private final Map<String, Delay> delayOfKind = new HashMap<>();
    private final Map<String, Delay> delayOfSort = new HashMap<>();
    private ExplicitBuilder fabric;
    private int firstPad;
    private int vertices;
    private int edges;

    FabricTables(TableFolder folder, Faults faults, InfoTables info, Optional<PackagePins> pins) {
        this.pins = pins;
        this.folder = folder;
        this.faults = faults;
        this.info = info;
        this.sites = new SiteTables(folder, info);
    }

    /** Reads them; the fabric is sound when no faults were found. */
    Fabric read() {
        if (!folder.has(Tables.WIRES)) {
            faults.add(folder.label(Tables.WIRES), "", "a table of wires", () -> "no such file");
        }
        sites.read(faults);
        fabric = new ExplicitBuilder(info.toInfo(), info.columns(), info.rows());
        folder.read(Tables.TILES, this::readTiles);
        folder.read(Tables.WIRES, this::readWires);
        folder.read(Tables.TAPS, this::readTaps);
        sites.addTo(fabric, faults);
        vertices += sites.pinCount();
        firstPad = vertices;
        folder.read(Tables.PADS, this::readPads);
        sites.readThrough(fabric);
        folder.read(Tables.DELAYS, this::readDelays);
        folder.read(Tables.SWITCHES, this::readSwitches);
        Fabric built = fabric.build();
        if (!fabric.repeated().isEmpty()) {
            reportRepeated(new RepeatedEdges(fabric.repeated()));
        }
        return built;
    }

    /** Reads the tables again and reports the rows that state an edge for the second time. */
    private void reportRepeated(RepeatedEdges edges) {
        folder.readAgain(
                Tables.PASS_THROUGH,
                table -> {
                    CsvTable.Column site = table.column("site");
                    CsvTable.Column from = table.column("from");
                    CsvTable.Column to = table.column("to");
                    while (table.next()) {
                        String prefix = table.text(site) + ".";
                        if (edges.isSecond(prefix + table.text(from), prefix + table.text(to))) {
                            reportSecond(
                                    table, Tables.PASS_THROUGH, "each pass-through of a site once");
                        }
                    }
                });
        folder.readAgain(
                Tables.SWITCHES,
                table -> {
                    CsvTable.Column from = table.column("from");
                    CsvTable.Column to = table.column("to");
                    while (table.next()) {
                        String start = table.text(from);
                        if (edges.isSecond(start, table.text(to))) {
                            String expected = "one connection from " + Text.quote(start) + " to it";
                            reportSecond(table, Tables.SWITCHES, expected);
                        }
                    }
                });
    }

    private void reportSecond(CsvTable table, TableShape shape, String expected) {
        String place = CsvTable.place(table.row(), "to");
        faults.add(folder.label(shape), place, expected, () -> "a second one");
    }

    private void readTiles(CsvTable table) {
        CsvTable.Column type = table.column("type");
        PlaceColumns place = new PlaceColumns(table, "");
        BitSet seen = new BitSet();
        while (table.next()) {
            if (!place.isStated()) {
                table.fault(table.column("tile"), "a tile", () -> "an empty field");
                continue;
            }
            int tile = place.tile(place.readStated(), info.columns(), info.rows());
            String name = words.share(table.name(type));
            if (seen.get(tile)) {
                table.fault(
                        table.column("tile"), "each tile once", () -> "one that is listed already");
            }
            seen.set(tile);
            fabric.addTile(tile % info.columns(), tile / info.columns(), name);
        }
    }

    private void readWires(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column kindColumn = table.column("kind");
        PlaceColumns start = new PlaceColumns(table, "");
        PlaceColumns end = new PlaceColumns(table, "to_");
        CsvTable.Column unusable = table.column("unusable");
        while (table.next()) {
            String name = table.name(nameColumn);
            int from = start.tile(start.read(name), info.columns(), info.rows());
            int to =
                    end.isStated() ? end.tile(end.readStated(), info.columns(), info.rows()) : from;
            String kind = words.share(table.word(kindColumn));
            int wire = fabric.addWire(name, from, to, kind);
            boolean closed = table.flag(unusable);
            if (wire == Fabric.NOTHING) {
                taken(table, nameColumn, name);
                continue;
            }
            if (closed) {
                fabric.setWireUnusable(wire);
            }
            kindOfWire.add(numberOfKind.computeIfAbsent(kind, this::newKind).intValue());
            count(table, nameColumn);
        }
    }

    private void readTaps(CsvTable table) {
        CsvTable.Column wireColumn = table.column("wire");
        CsvTable.Column nameColumn = table.column("name");
        PlaceColumns place = new PlaceColumns(table, "");
        while (table.next()) {
            String text = table.text(wireColumn);
            int wire = fabric.findVertex(text);
            if (wire == Fabric.NOTHING) {
                table.fault(wireColumn, "the full name of a wire", () -> Text.quote(text));
                continue;
            }
            String name = table.word(nameColumn);
            if (name.isEmpty() && !place.isStated()) {
                table.fault(
                        nameColumn, "a tile, or the wire's name there", () -> "neither of them");
                continue;
            }
            int tile = place.tile(place.read(name), info.columns(), info.rows());
            if (!fabric.addTap(wire, tile, name)) {
                taken(table, nameColumn, name);
            }
        }
    }

    private int newKind(String kind) {
        kinds.add(kind);
        return kinds.size() - 1;
    }

    private static void taken(CsvTable table, CsvTable.Column column, String name) {
        table.fault(
                column,
                "a name that no other wire, pin or pad has",
                () -> Text.quote(name) + " again");
    }

    private void count(CsvTable table, CsvTable.Column column) {
        if (++vertices == padward.fabric.FabricLimits.VERTICES + 1) {
            table.fault(
                    column,
                    "at most " + padward.fabric.FabricLimits.VERTICES + " wires, pins and pads",
                    () -> "more");
        }
    }

    private void readPads(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column pin = table.column("package_pin");
        Kind.Cell<String> bank = info.bank().open(table, "bank", false, "");
        CsvTable.Column directions = table.column("directions");
        CsvTable.Column data = table.column("data");
        CsvTable.Column enable = table.column("enable");
        Kind.Cell<String> setting = info.setting().open(table, "setting", false, "");
        CsvTable.Column active = table.column("enable_active");
        CsvTable.Column unconnected = table.column("enable_unconnected");
        CsvTable.Column bonded = table.column("bonded");
        CsvTable.Column role = table.column("role");
        CsvTable.Column packageFast = table.column("package_fast_ps");
        CsvTable.Column packageSlow = table.column("package_slow_ps");
        CsvTable.Column inverts = table.column("inverts");
        CsvTable.Column legal = table.column("legal_settings");
        CsvTable.Column partner = table.column("partner");
        PlaceColumns place = new PlaceColumns(table, "");
        PadPins padPins = new PadPins(table, pins);
        IntArrayList padRows = new IntArrayList();
        while (table.next()) {
            String name = table.name(nameColumn);
            int tile = place.tile(place.read(name), info.columns(), info.rows());
            Optional<PackagePins.Pin> known = padPins.find(name);
            PadDirections stated =
                    table.oneOf(
                            directions, PadDirections.values(), EnumWords::of, PadDirections.BOTH);
            int added =
                    fabric.addPad(
                            name,
                            tile,
                            readPackagePin(table, pin, padPins.pin(known)),
                            bank.read(),
                            padPins.directions(known, stated),
                            readSite(table, data),
                            readSite(table, enable),
                            setting.read(),
                            readUse(
                                    table,
                                    bonded,
                                    role,
                                    readPackage(table, packageFast, packageSlow),
                                    readDriving(table, inverts, legal, partner)),
                            new PadEnable(
                                    table.oneOf(
                                            active,
                                            PadEnable.Active.values(),
                                            EnumWords::of,
                                            PadEnable.Active.UNKNOWN),
                                    table.oneOf(
                                            unconnected,
                                            PadEnable.Unconnected.values(),
                                            EnumWords::of,
                                            PadEnable.Unconnected.UNKNOWN)));
            if (added == Fabric.NOTHING) {
                taken(table, nameColumn, name);
            } else {
                count(table, nameColumn);
                padRows.add((int) table.row());
            }
        }
        padPins.finish();
        for (ExplicitBuilder.NoPartner none : fabric.noPartners()) {
            table.fault(
                    padRows.getInt(none.pad()),
                    partner.name(),
                    ExplicitBuilder.NoPartner.EXPECTED,
                    () -> Text.quote(none.partner()));
        }
    }

    private static PadUse readUse(
            CsvTable table,
            CsvTable.Column bonded,
            CsvTable.Column role,
            Delay inPackage,
            PadDriving driving) {
        PadUse.Bonding bonding =
                !table.has(bonded)
                        ? PadUse.Bonding.UNKNOWN
                        : table.flag(bonded) ? PadUse.Bonding.BONDED : PadUse.Bonding.UNBONDED;
        return new PadUse(
                bonding,
                table.oneOf(role, PadUse.Role.values(), PadUse.Role::label, PadUse.Role.GENERAL),
                inPackage,
                driving);
    }

    private PadDriving readDriving(
            CsvTable table,
            CsvTable.Column inverts,
            CsvTable.Column legalColumn,
            CsvTable.Column partner) {
        List<String> legal =
                table.has(legalColumn) ? Listed.split(table.text(legalColumn)) : List.of();
        info.requireSettings(table, legalColumn, legal);
        return new PadDriving(table.flag(inverts), legal, table.word(partner));
    }

    private static Delay readPackage(
            CsvTable table, CsvTable.Column fastColumn, CsvTable.Column slowColumn) {
        int fast = table.integer(fastColumn, 0, FabricLimits.EDGE_DELAY_PS, 0);
        int slow = table.integer(slowColumn, 0, FabricLimits.EDGE_DELAY_PS, fast);
        if (slow < fast) {
            table.fault(
                    slowColumn, "a slow value of at least the fast one, " + fast, () -> "" + slow);
            return Delay.ZERO;
        }
        return new Delay(fast, slow);
    }

    private String readPackagePin(CsvTable table, CsvTable.Column column, String known) {
        String pin = table.has(column) ? table.word(column) : known;
        if (!pin.isEmpty()) {
            Integer before = rowByPackagePin.putIfAbsent(pin, (int) table.row());
            if (before != null) {
                table.fault(
                        column,
                        "a pin that only one pad has",
                        () -> Text.quote(pin) + ", which row " + before + " has already");
            }
        }
        return pin;
    }

    private int readSite(CsvTable table, CsvTable.Column column) {
        String name = table.text(column);
        int site = name.isEmpty() ? Fabric.NOTHING : fabric.findSite(name);
        if (site == Fabric.NOTHING && !name.isEmpty()) {
            table.fault(column, "the full name of a site, or nothing", () -> Text.quote(name));
        }
        return site;
    }

    private void readDelays(CsvTable table) {
        CsvTable.Column enters = table.column("enters");
        CsvTable.Column kindColumn = table.column("kind");
        DelayColumns delay = new DelayColumns(table);
        String[] sorts = {"wire", "pin", "pad"};
        while (table.next()) {
            String sort = table.oneOf(enters, sorts, s -> s, "");
            String kind = table.word(kindColumn);
            if (!kind.isEmpty() && !numberOfKind.containsKey(kind)) {
                table.fault(
                        kindColumn,
                        "a kind of wire that some wire has",
                        () -> Nearest.describe(kind, kinds.stream()));
            }
            if (!kind.isEmpty() && !sort.equals("wire")) {
                table.fault(kindColumn, "a kind for wires only", () -> Text.quote(kind));
            }
            Map<String, Delay> known = kind.isEmpty() ? delayOfSort : delayOfKind;
            String key = kind.isEmpty() ? sort : kind;
            if (known.putIfAbsent(key, delay.readRequired()) != null) {
                table.fault(enters, "one delay for each", () -> "a second for " + Text.quote(key));
            }
        }
    }

    private void readSwitches(CsvTable table) {
        table.readParts(
                part -> {
                    SwitchRows.Part read = new SwitchRows.Part();
                    switchRows(part).read(read);
                    return read;
                },
                part -> {
                    if (part.size() > FileLimits.EDGES - edges) {
                        return false;
                    }
                    part.handTo(this::addSwitch);
                    return true;
                });
        switchRows(table)
                .read(
                        (from, to, kind, delay, tile, text, groupFrom, groupTo) -> {
                            if (edges == FileLimits.EDGES) {
                                table.fault(
                                        table.column("to"),
                                        "at most "
                                                + FileLimits.EDGES
                                                + " switches and fixed connections",
                                        () -> "more");
                            }
                            addSwitch(from, to, kind, delay, tile, text, groupFrom, groupTo);
                        });
    }

    private SwitchRows switchRows(CsvTable table) {
        return new SwitchRows(
                table,
                new SwitchRows.Vertices(
                        fabric.finder(),
                        this::findDelay,
                        this::sortOf,
                        info.columns(),
                        info.rows()));
    }

    private void addSwitch(
            int from,
            int to,
            EdgeKind kind,
            Delay delay,
            int tile,
            char[] text,
            int groupFrom,
            int groupTo) {
        edges++;
        fabric.addEdge(from, to, kind, delay);
        if (tile != Fabric.NOTHING) {
            fabric.setSwitchTile(from, to, tile);
        }
        if (groupFrom < groupTo) {
            // A second row for the same switch is reported as such.
            fabric.addToSwitchGroup(text, groupFrom, groupTo, from, to);
        }
    }

    private Optional<Delay> findDelay(int vertex) {
        Delay ofSort = delayOfSort.get(sort(vertex));
        Delay ofKind =
                vertex < kindOfWire.size()
                        ? delayOfKind.get(kinds.get(kindOfWire.getInt(vertex)))
                        : null;
        return Optional.ofNullable(ofKind == null ? ofSort : ofKind);
    }

    /** Wires come first among the vertices, then pins, then pads. */
    private String sort(int vertex) {
        return vertex < kindOfWire.size() ? "wire" : vertex < firstPad ? "pin" : "pad";
    }

    private String sortOf(int vertex) {
        return vertex < kindOfWire.size()
                ? "wires of kind " + Text.quote(kinds.get(kindOfWire.getInt(vertex)))
                : sort(vertex) + "s";
    }
}
