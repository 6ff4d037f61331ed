package padward.format.tables;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.design.Cell;
import padward.design.NetLock;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.format.design.DesignFileRules;
import padward.format.fabric.PadLookup;
import padward.format.form.Kind;
import padward.format.json.DesignFault;
import padward.format.json.EnumWords;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableFolder;

/**
 * Reads the tables of a design: cells, ports, nets with their ends. Routes have their own class.
 */
final class DesignTables {
    private final TableFolder folder;
    private final Fabric fabric;
    private final InfoTables info;
    private final DesignFileRules rules;
    private final PadLookup pads;
    private final Map<String, Integer> cellByName = new HashMap<>();
    private final Map<String, Integer> portByName = new HashMap<>();
    private final Map<String, Integer> netByName = new LinkedHashMap<>();
    private final List<Map<String, String>> cellSettings = new ArrayList<>();
    private final List<Cell> cells = new ArrayList<>();
    private final List<Port> ports = new ArrayList<>();
    private final List<NetRow> nets = new ArrayList<>();
    private final BitSet cellIsPlaced = new BitSet();
    private final BitSet portIsPlaced = new BitSet();

    /**
     * A net as it is read.
     *
     * @param name its name
     * @param row its row in {@code nets}
     * @param clock whether it is a clock
     * @param requiredPs latest arrival allowed
     * @param lock what of it must stay
     * @param ends its ends, in the order of their rows
     */
    record NetRow(
            String name,
            long row,
            boolean clock,
            OptionalInt requiredPs,
            NetLock lock,
            List<EndRow> ends) {}

    DesignTables(TableFolder folder, Fabric fabric, InfoTables info) {
        this.folder = folder;
        this.fabric = fabric;
        this.info = info;
        this.rules = new DesignFileRules(fabric);
        this.pads = new PadLookup(fabric);
    }

    void read() {
        folder.read(Tables.CELLS, this::readCells);
        folder.read(Tables.CELL_SETTINGS, this::readCellSettings);
        for (int c = 0; c < cells.size(); c++) {
            Cell cell = cells.get(c);
            cells.set(c, cell.withSettings(cellSettings.get(c)));
        }
        folder.read(Tables.PORTS, this::readPorts);
        folder.read(Tables.NETS, this::readNets);
        folder.read(Tables.ENDS, t -> new EndsTable(this, rules, fabric).read(t));
    }

    List<Cell> cells() {
        return cells;
    }

    List<Port> ports() {
        return ports;
    }

    List<NetRow> nets() {
        return nets;
    }

    private void readCells(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column kindColumn = table.column("kind");
        CsvTable.Column siteColumn = table.column("site");
        CsvTable.Column lockedColumn = table.column("locked");
        InfoTables.Words words = new InfoTables.Words();
        while (table.next()) {
            String name = table.name(nameColumn);
            String site = table.name(siteColumn);
            boolean locked = table.flag(lockedColumn);
            int number = readSite(table, siteColumn, site, table.text(kindColumn));
            if (cellByName.putIfAbsent(name, cells.size()) != null) {
                again(table, nameColumn, "cell", name);
                continue;
            }
            String kind = words.share(readKind(table, kindColumn, number));
            if (number != Fabric.NOTHING && !kind.isEmpty()) {
                report(
                        table,
                        table.has(kindColumn) ? kindColumn : siteColumn,
                        rules.placeCell(name, kind, number));
            }
            cellIsPlaced.set(cells.size(), number != Fabric.NOTHING);
            cells.add(new Cell(cells.size(), name, kind, Math.max(0, number), Map.of(), locked));
            cellSettings.add(Map.of());
        }
    }

    /** The site or part of that name, or the part of the site that accepts the kind. */
    private int readSite(CsvTable table, CsvTable.Column column, String name, String kind) {
        int site = fabric.findSite(name);
        if (site != Fabric.NOTHING || name.isEmpty()) {
            return site;
        }
        List<SiteView> parts = fabric.findParts(name).stream().map(fabric::site).toList();
        List<SiteView> fitting = parts.stream().filter(p -> p.accepts().contains(kind)).toList();
        if (fitting.size() == 1) {
            return fitting.get(0).id();
        }
        if (parts.isEmpty()) {
            table.fault(
                    column, "the full name of a site", () -> Nearest.describe(name, siteNames()));
        } else {
            List<SiteView> possible = fitting.isEmpty() ? parts : fitting;
            table.fault(
                    column,
                    "a part of the site: "
                            + String.join(", ", possible.stream().map(SiteView::name).toList()),
                    () ->
                            Text.quote(name)
                                    + (fitting.isEmpty()
                                            ? ", of which no part accepts kind " + Text.quote(kind)
                                            : ", of which several parts accept kind "
                                                    + Text.quote(kind)));
        }
        return Fabric.NOTHING;
    }

    private Stream<String> siteNames() {
        return IntStream.range(0, fabric.siteCount()).mapToObj(s -> fabric.site(s).name());
    }

    /** The kind that the row states, or the only one possible. */
    private String readKind(CsvTable table, CsvTable.Column column, int site) {
        if (table.has(column) || site == Fabric.NOTHING) {
            return table.word(column);
        }
        SiteView view = fabric.site(site);
        if (view.accepts().size() != 1) {
            table.fault(
                    column,
                    "a kind of cell, as site "
                            + view.name()
                            + " accepts "
                            + (view.accepts().isEmpty()
                                    ? "none"
                                    : String.join(", ", view.accepts())),
                    () -> "an empty field");
            return "";
        }
        return view.accepts().get(0);
    }

    private void readCellSettings(CsvTable table) {
        CsvTable.Column cellColumn = table.column("cell");
        CsvTable.Column setting = table.column("setting");
        CsvTable.Column value = table.column("value");
        while (table.next()) {
            int cell = readKnown(table, cellColumn, cellByName, "cell");
            String key = table.name(setting);
            if (cell != Fabric.NOTHING) {
                Map<String, String> known = new HashMap<>(cellSettings.get(cell));
                if (known.put(key, table.word(value)) != null) {
                    table.fault(setting, "each setting once", () -> "a second " + Text.quote(key));
                }
                cellSettings.set(cell, known);
            }
        }
    }

    private void readPorts(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column directionColumn = table.column("direction");
        CsvTable.Column enable = table.column("enable");
        Kind.Cell<String> setting = info.setting().open(table, "setting", false, "");
        PadColumns pad = new PadColumns(table, pads);
        while (table.next()) {
            String name = table.name(nameColumn);
            int at = pad.read();
            if (portByName.putIfAbsent(name, ports.size()) != null) {
                again(table, nameColumn, "port", name);
                continue;
            }
            PortDirection direction =
                    table.oneOf(
                            directionColumn,
                            PortDirection.values(),
                            PortDirection::label,
                            at == Fabric.NOTHING ? PortDirection.BOTH : ofPad(at));
            portIsPlaced.set(ports.size(), at != Fabric.NOTHING);
            if (at != Fabric.NOTHING) {
                report(table, directionColumn, rules.placePort(name, direction, at));
            }
            boolean tied =
                    table.oneOf(enable, new String[] {Port.TIED}, w -> w, "").equals(Port.TIED);
            ports.add(
                    new Port(ports.size(), name, direction, Math.max(0, at), setting.read(), tied));
        }
    }

    private PortDirection ofPad(int pad) {
        return switch (fabric.pads().get(pad).directions()) {
            case IN -> PortDirection.IN;
            case OUT -> PortDirection.OUT;
            case BOTH -> PortDirection.BOTH;
        };
    }

    private void readNets(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column clock = table.column("clock");
        CsvTable.Column required = table.column("required_ps");
        CsvTable.Column locked = table.column("locked");
        NetLock[] locks = {NetLock.WIRES, NetLock.WHOLE};
        while (table.next()) {
            String name = table.name(nameColumn);
            boolean isClock = table.flag(clock);
            int latest = table.integer(required, 0, FileLimits.REQUIRED_PS, -1);
            NetLock lock = table.oneOf(locked, locks, NetLock::label, NetLock.NONE);
            if (netByName.putIfAbsent(name, nets.size()) != null) {
                again(table, nameColumn, "net", name);
                continue;
            }
            OptionalInt allowed = latest < 0 ? OptionalInt.empty() : OptionalInt.of(latest);
            nets.add(new NetRow(name, table.row(), isClock, allowed, lock, new ArrayList<>(2)));
        }
    }

    private static void again(CsvTable table, CsvTable.Column column, String sort, String name) {
        table.fault(
                column, "a name that only one " + sort + " has", () -> Text.quote(name) + " again");
    }

    int readNet(CsvTable table, CsvTable.Column column) {
        return readKnown(table, column, netByName, "net");
    }

    /** The number of a cell; {@link Fabric#NOTHING} also when its site's fault was reported. */
    int readCell(CsvTable table, CsvTable.Column column) {
        int cell = readKnown(table, column, cellByName, "cell");
        return cell != Fabric.NOTHING && cellIsPlaced.get(cell) ? cell : Fabric.NOTHING;
    }

    /** The number of a port; {@link Fabric#NOTHING} also when its pad's fault was reported. */
    int readPort(CsvTable table, CsvTable.Column column) {
        int port = readKnown(table, column, portByName, "port");
        return port != Fabric.NOTHING && portIsPlaced.get(port) ? port : Fabric.NOTHING;
    }

    private static int readKnown(
            CsvTable table, CsvTable.Column column, Map<String, Integer> known, String sort) {
        String name = table.text(column);
        Integer number = known.get(name);
        if (number == null) {
            table.fault(
                    column,
                    "the name of a " + sort,
                    () -> Nearest.describe(name, known.keySet().stream()));
            return Fabric.NOTHING;
        }
        return number;
    }

    static void report(CsvTable table, CsvTable.Column column, Optional<DesignFault> trouble) {
        trouble.ifPresent(t -> table.fault(column, t.expected(), t::found));
    }

    /** A role of an end. */
    enum Role {
        DRIVER,
        SINK;

        String label() {
            return EnumWords.of(this);
        }
    }
}
