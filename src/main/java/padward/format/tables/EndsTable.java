package padward.format.tables;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.design.Cell;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.format.design.DesignFileRules;
import padward.format.json.DesignFault;
import padward.format.source.FileLimits;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;

/** Reads the ends of nets: each net has one driver, and each end one net. */
final class EndsTable {
    private final DesignTables design;
    private final DesignFileRules rules;
    private final Fabric fabric;
    private final IntOpenHashSet seen = new IntOpenHashSet();

    /** Where nets start at ports in both directions. */
    private final IntOpenHashSet startsSeen = new IntOpenHashSet();

    EndsTable(DesignTables design, DesignFileRules rules, Fabric fabric) {
        this.design = design;
        this.rules = rules;
        this.fabric = fabric;
    }

    void read(CsvTable table) {
        CsvTable.Column netColumn = table.column("net");
        CsvTable.Column cell = table.column("cell");
        CsvTable.Column pin = table.column("pin");
        CsvTable.Column port = table.column("port");
        CsvTable.Column role = table.column("role");
        InfoTables.Words words = new InfoTables.Words();
        while (table.next()) {
            int net = design.readNet(table, netColumn);
            boolean isCell = table.has(cell) && table.has(pin) && !table.has(port);
            boolean isPort = table.has(port) && !table.has(cell);
            if (!isCell && !isPort) {
                table.fault(
                        cell,
                        "either a cell and a pin, or a port, perhaps with pin enable",
                        () -> "another choice of these");
            } else if (isCell) {
                addPin(table, net, cell, pin, role, words);
            } else {
                addPort(table, net, port, pin, role);
            }
        }
    }

    private void addPin(
            CsvTable table,
            int net,
            CsvTable.Column cellColumn,
            CsvTable.Column pinColumn,
            CsvTable.Column role,
            InfoTables.Words words) {
        int number = design.readCell(table, cellColumn);
        if (number == Fabric.NOTHING) {
            return;
        }
        Cell cell = design.cells().get(number);
        int site = cell.site();
        String pin = words.share(table.text(pinColumn));
        List<SitePin> pins = fabric.pinsOf(site);
        int place = SitePin.find(pins, pin);
        boolean known = place != Fabric.NOTHING;
        boolean out = known && pins.get(place).direction() == PinDirection.OUT;
        boolean drives = readRole(table, role, out);
        DesignTables.report(table, pinColumn, rules.checkPin(site, pin, drives));
        if (known) {
            int vertex = fabric.firstPin(site) + place;
            Terminal end = new Terminal.CellPin(number, pin);
            String text = cell.name() + "." + pin;
            add(table, net, pinColumn, row(table, end, vertex, drives, text));
        }
    }

    private void addPort(
            CsvTable table,
            int net,
            CsvTable.Column portColumn,
            CsvTable.Column pin,
            CsvTable.Column role) {
        int number = design.readPort(table, portColumn);
        if (number == Fabric.NOTHING) {
            return;
        }
        Port port = design.ports().get(number);
        if (table.has(pin)) {
            addEnable(table, net, port, pin, role);
            return;
        }
        if (port.direction() == PortDirection.BOTH && !table.has(role)) {
            table.fault(
                    role, "driver or sink, as the port is bidirectional", () -> "an empty field");
        }
        boolean drives = readRole(table, role, port.direction() == PortDirection.IN);
        DesignTables.report(
                table,
                portColumn,
                DesignFileRules.checkPort(port.name(), port.direction(), drives));
        int vertex = fabric.pads().get(port.pad()).vertex();
        Terminal end = new Terminal.PortEnd(number);
        String text = "port " + port.name();
        add(table, net, portColumn, row(table, end, vertex, drives, text));
    }

    private void addEnable(
            CsvTable table, int net, Port port, CsvTable.Column pin, CsvTable.Column role) {
        if (!table.text(pin).equals(DesignFileRules.ENABLE)) {
            table.fault(
                    pin, "enable, or nothing, next to a port", () -> Text.quote(table.text(pin)));
            return;
        }
        Optional<DesignFault> fault = rules.checkEnable(port, readRole(table, role, false));
        DesignTables.report(table, pin, fault);
        if (fault.isEmpty()) {
            Terminal.PortEnd end = Terminal.PortEnd.enableOf(port.id());
            int vertex = end.vertexOn(fabric, port);
            add(table, net, pin, row(table, end, vertex, false, end.toText(port)));
        }
    }

    /** The end with what the row states of every end, a cell's or a port's. */
    private static EndRow row(
            CsvTable table, Terminal end, int vertex, boolean drives, String text) {
        return new EndRow(
                end,
                vertex,
                drives,
                table.row(),
                text,
                required(table, drives),
                unrouted(table, drives));
    }

    private static OptionalInt required(CsvTable table, boolean drives) {
        CsvTable.Column column = table.column("required_ps");
        int latest = table.integer(column, 0, FileLimits.REQUIRED_PS, -1);
        if (latest >= 0 && drives) {
            table.fault(column, "a required time of sinks only", () -> "one of a driver");
        }
        return latest < 0 ? OptionalInt.empty() : OptionalInt.of(latest);
    }

    private static boolean unrouted(CsvTable table, boolean drives) {
        CsvTable.Column column = table.column("unrouted");
        boolean result = table.flag(column);
        if (result && drives) {
            table.fault(column, "a mark of sinks only", () -> "one of a driver");
        }
        return result;
    }

    private static boolean readRole(CsvTable table, CsvTable.Column column, boolean otherwise) {
        DesignTables.Role role =
                table.oneOf(
                        column,
                        DesignTables.Role.values(),
                        DesignTables.Role::label,
                        otherwise ? DesignTables.Role.DRIVER : DesignTables.Role.SINK);
        return role == DesignTables.Role.DRIVER;
    }

    /** At a port in both directions, one net starts and another one ends. */
    private boolean isOfPortBothWays(EndRow end) {
        return end.terminal() instanceof Terminal.PortEnd at
                && design.ports().get(at.port()).direction() == PortDirection.BOTH;
    }

    private void add(CsvTable table, int net, CsvTable.Column column, EndRow end) {
        if (net == Fabric.NOTHING) {
            return;
        }
        IntOpenHashSet same = isOfPortBothWays(end) && end.drives() ? startsSeen : seen;
        if (!same.add(end.vertex())) {
            table.fault(column, "each end of one net, once", () -> end.text() + " again");
            return;
        }
        List<EndRow> ends = design.nets().get(net).ends();
        if (end.drives()) {
            ends.stream()
                    .filter(EndRow::drives)
                    .findFirst()
                    .ifPresent(
                            first ->
                                    table.fault(
                                            column,
                                            "one driver of net " + design.nets().get(net).name(),
                                            () ->
                                                    end.text()
                                                            + " as well as "
                                                            + first.text()
                                                            + " of row "
                                                            + first.row()));
        }
        ends.add(end);
    }
}
