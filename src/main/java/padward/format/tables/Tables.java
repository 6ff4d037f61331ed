package padward.format.tables;

import static padward.format.tables.csv.ColumnShape.Need.INSTEAD;
import static padward.format.tables.csv.ColumnShape.Need.MAY;
import static padward.format.tables.csv.ColumnShape.Need.MUST;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.format.fabric.CellKindForms;
import padward.format.fabric.InfoForms;
import padward.format.form.DelayColumns;
import padward.format.json.Names;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.TableShape;

/**
 * All tables that are read and written. A test compares {@code docs/your-own-device.md} with them.
 */
public final class Tables {
    public static final TableShape ABOUT =
            shape(
                    "about",
                    "general information",
                    must(
                            "key",
                            "`fabric`, `design`, `board`: names; `fabric_note`, `design_note`,"
                                    + " `board_note`: free text; `columns`, `rows`: size of the grid"),
                    must(
                            "value",
                            "its value; without a row, names are the folder's, and the grid is just"
                                    + " large enough for all places"));
    public static final TableShape CELL_KINDS =
            CellKindForms.kind(new Names(""))
                    .table(
                            "cell_kinds",
                            "a kind of cell; without this table, the kinds are those that sites"
                                    + " accept");
    public static final TableShape SETTINGS =
            InfoForms.setting(new Names("")).table("settings", "a setting of a pad's driver");
    public static final TableShape WIRE_LOADS =
            InfoForms.wireLoad(Optional.empty())
                    .table("wire_loads", "resistance and capacitance of a kind of wire");
    public static final TableShape SWITCH_LOADS =
            InfoForms.switchLoad(Optional.empty())
                    .table(
                            "switch_loads",
                            "the same for switches and fixed connections; the first matching row is"
                                    + " used");
    public static final TableShape BANKS =
            InfoForms.bank(new Names("")).table("banks", "a group of pads with one supply");
    public static final TableShape TILES =
            shape(
                    "tiles",
                    "a tile",
                    join(
                            place("", "where it is"),
                            List.of(
                                    must(
                                            "type",
                                            "type of the tile; tiles"
                                                    + " that are not listed are `empty`"))));
    public static final TableShape WIRES =
            shape(
                    "wires",
                    "a wire",
                    join(
                            List.of(must("name", "full name, used by no other wire, pin or pad")),
                            place("", "where it begins; otherwise the first place in its name"),
                            place("to_", "where it ends; otherwise where it begins"),
                            List.of(
                                    may("kind", "kind of wire; otherwise none"),
                                    may(
                                            "unusable",
                                            "`yes` if no route is to go over it; otherwise"
                                                    + " `no`"))));
    public static final TableShape TAPS =
            shape(
                    "taps",
                    "a place at which a wire can be entered or left; the rows of a wire are in"
                            + " their order along it, and one without rows is entered where it"
                            + " begins and left where it ends",
                    join(
                            List.of(must("wire", "full name of the wire")),
                            place("", "where it is; otherwise the first place in the name there"),
                            List.of(
                                    may(
                                            "name",
                                            "full name of the wire there, used by no other wire,"
                                                    + " pin or pad; otherwise its own"))));
    public static final TableShape PARTS =
            shape(
                    "parts",
                    "a part of a site, such as the lookup table of a cell: it takes a cell of its own,"
                            + " and has pins and pass-throughs of its own",
                    must("site", "full name of the site"),
                    must("name", "name inside the site; elsewhere the part is `site/name`"),
                    may(
                            "accepts",
                            "kinds of cell that it accepts, with `|` between them; otherwise"
                                    + " the kind with its own name"));
    public static final TableShape SITES =
            shape(
                    "sites",
                    "a site",
                    join(
                            List.of(must("name", "full name, used by no other site")),
                            place("", "where it is; otherwise the first place in its name"),
                            List.of(
                                    must("kind", "kind of site"),
                                    may(
                                            "accepts",
                                            "kinds of cell that it accepts, with `|` between"
                                                    + " them; otherwise its own kind; nothing for"
                                                    + " a site with parts"),
                                    may(
                                            "more_tiles",
                                            "the other tiles that it extends over, with `|`"
                                                    + " between them; otherwise none"),
                                    may(
                                            "unusable",
                                            "`yes` if no cell is to be placed there; otherwise"
                                                    + " `no`"))));
    public static final TableShape PINS =
            shape(
                    "pins",
                    "a pin of a site",
                    must("site", "full name of the site"),
                    must("name", "name inside the site; elsewhere the pin is `site.name`"),
                    must("direction", "`in` or `out`, seen from the site"),
                    may("part", "part of the site that has it; needed if the site has parts"),
                    may(
                            "alike",
                            "a word that those `in` pins of the site or part share whose signals"
                                    + " can be swapped, as the inputs of a lookup table; otherwise it"
                                    + " is like no other"));
    public static final TableShape PASS_THROUGH =
            shape(
                    "through",
                    "a pass-through, a combinational connection through a site",
                    join(
                            List.of(
                                    must("site", "full name of the site"),
                                    must("from", "name of an `in` pin"),
                                    must("to", "name of an `out` pin, of the same part")),
                            DelayColumns.shapes("of the pass-through; must be given")));
    public static final TableShape PADS =
            shape(
                    "pads",
                    "a pad",
                    join(
                            List.of(must("name", "full name, used by no other wire, pin or pad")),
                            place("", "where it is; otherwise the first place in its name"),
                            List.of(
                                    may(
                                            "package_pin",
                                            "pin or ball of the package; otherwise" + " unknown"),
                                    instead(
                                            "bsdl_port",
                                            "its port in the file of `import --bsdl`; otherwise the"
                                                    + " port of the pad's full name, or of its last"
                                                    + " part"),
                                    may("bank", "a bank of `banks`; otherwise none"),
                                    may("directions", "`in`, `out` or `both`; otherwise `both`"),
                                    may(
                                            "data",
                                            "full name of the IO register site before its driver; otherwise"
                                                    + " none"),
                                    may(
                                            "enable",
                                            "full name of the IO register site of its driver's enable;"
                                                    + " otherwise the driver is always on"),
                                    may(
                                            "enable_active",
                                            "level at its enable that switches its driver on:"
                                                    + " `high` or `low`; otherwise unknown"),
                                    may(
                                            "enable_unconnected",
                                            "what its driver is while nothing is connected to its"
                                                    + " enable: `on` or `off`; otherwise unknown"),
                                    may(
                                            "setting",
                                            "a setting of `settings`, used when a port"
                                                    + " states none; otherwise none"),
                                    may(
                                            "bonded",
                                            "`no` for a pad that the package connects to no pin;"
                                                    + " otherwise unknown"),
                                    may(
                                            "role",
                                            "what it is meant for: `general`, `clock`,"
                                                    + " `configuration`, `test`, `reference` or"
                                                    + " `reserved`; otherwise `general`"),
                                    may(
                                            "package_fast_ps",
                                            "delay of the package from the pad to the pin at the"
                                                    + " fast corner; otherwise 0"),
                                    may(
                                            "package_slow_ps",
                                            "the same at the slow corner; otherwise as at the"
                                                    + " fast one"),
                                    may(
                                            "inverts",
                                            "`yes` if the path through its IO register site and"
                                                    + " driver inverts; otherwise `no`"),
                                    may(
                                            "legal_settings",
                                            "the settings that it has, with `|` between them;"
                                                    + " otherwise all for its bank's voltage"),
                                    may(
                                            "partner",
                                            "full name of the other pad of a differential pair;"
                                                    + " otherwise none"))));
    public static final TableShape DELAYS =
            shape(
                    "delays",
                    "the delay of switches and fixed connections that state none of their own",
                    join(
                            List.of(
                                    must("enters", "`wire`, `pin` or `pad`"),
                                    may(
                                            "kind",
                                            "kind of wire; otherwise all wires that have no row"
                                                    + " of their own")),
                            DelayColumns.shapes(
                                    "of the switch and what it enters, together; must be given")));
    public static final TableShape SWITCHES =
            shape(
                    "switches",
                    "a connection from one wire, pin or pad to another",
                    join(
                            List.of(
                                    must(
                                            "from",
                                            "full name of a wire, a pin (`site.pin`) or a pad"),
                                    must("to", "the same"),
                                    may(
                                            "kind",
                                            "`switch` (programmable) or `connection` (fixed);"
                                                    + " otherwise `switch`")),
                            DelayColumns.shapes(
                                    "of the connection and what it enters, together; otherwise"
                                            + " that of `delays`"),
                            place(
                                    "",
                                    "where it is; otherwise the only tile in which both ends have"
                                            + " a tap, or unknown"),
                            List.of(
                                    may(
                                            "group",
                                            "name of a group of switches of which at most one can"
                                                    + " be on; otherwise in none"))));
    public static final TableShape CELLS =
            shape(
                    "cells",
                    "a cell on a site",
                    must("name", "name of the cell, with `/` between the levels"),
                    may("kind", "kind of cell; otherwise the only one that its site accepts"),
                    must(
                            "site",
                            "full name of the site or part; or of a site with only one part that"
                                    + " accepts the kind"),
                    may(
                            "locked",
                            "`yes` if it is to stay there with its settings; otherwise `no`"));
    public static final TableShape CELL_SETTINGS =
            shape(
                    "cell_settings",
                    "a setting of a cell",
                    must("cell", "name of the cell"),
                    must("setting", "name of the setting"),
                    may("value", "its value; otherwise the empty text"));
    public static final TableShape PORTS =
            shape(
                    "ports",
                    "a port of the design on a pad",
                    must("name", "name of the port"),
                    may("direction", "`in`, `out` or `both`; otherwise the pad's"),
                    may("pad", "full name of the pad, or"),
                    instead("package_pin", "its pin or ball of the package: one of the two"),
                    may("setting", "a setting of `settings`; otherwise the pad's"),
                    may(
                            "enable",
                            "`tied` if the enable of the pad's driver is tied on; otherwise"
                                    + " unknown"));
    public static final TableShape NETS =
            shape(
                    "nets",
                    "a net",
                    must("name", "name of the net, with `/` between the levels"),
                    may("clock", "`yes` for a clock; otherwise `no`"),
                    may(
                            "required_ps",
                            "latest arrival at its sinks that the design allows;"
                                    + " otherwise unknown"),
                    may(
                            "locked",
                            "`wires` if its wires and ends are to stay, `whole` if no branch is"
                                    + " to be added either; otherwise it is not locked"));
    public static final TableShape ENDS =
            shape(
                    "ends",
                    "an end of a net: its one driver, or a sink",
                    must("net", "name of the net"),
                    may("cell", "name of a cell, and"),
                    may("pin", "name of a pin of its site; or"),
                    may(
                            "port",
                            "name of a port; with the pin `enable`, the enable of its pad's driver"),
                    may("role", "`driver` or `sink`; otherwise by the direction of pin or port"),
                    may(
                            "required_ps",
                            "of a sink, the latest arrival that the design allows there;"
                                    + " otherwise that of its net"),
                    may(
                            "unrouted",
                            "`yes` for a sink that the net's route does not reach, where the net"
                                    + " has one; otherwise `no`"));
    public static final TableShape ROUTES =
            shape(
                    "routes",
                    "a step of a net's route",
                    must("net", "name of the net"),
                    must("from", "full name of a wire, pin or pad on the net"),
                    must("to", "full name of the one that it enters next"));
    public static final TableShape BOARD =
            shape(
                    "board",
                    "what the board has on a pad; a pad with several parts has several rows",
                    may("pad", "full name of the pad, or"),
                    instead("package_pin", "its pin or ball of the package: one of the two"),
                    may("net", "name of the board's net; otherwise none"),
                    may("trace_mm", "length of the trace; otherwise 0"),
                    may(
                            "load_pf",
                            "capacitance of the trace and everything on it; otherwise"
                                    + " unknown"),
                    may(
                            "layer",
                            "`outer` or `inner`: where on the board the trace runs; otherwise"
                                    + " `outer`"),
                    may(
                            "attached",
                            "`header`, `testpoint`, `light`, `button`, `driver`, `load`, `two-way`"
                                    + " or `pull`; otherwise nothing is attached"),
                    may("part", "name of what is attached"),
                    may("part_pin", "its pin; may be left out if it has only one"),
                    may(
                            "millivolts",
                            "supply of the part, or rail to which a resistor pulls; otherwise"
                                    + " unknown"),
                    may("most_mv", "greatest voltage that its pin tolerates; otherwise unknown"),
                    may(
                            "series_ohms",
                            "resistor between the pin and the net; otherwise none or unknown"),
                    may("pf", "its capacitance, pF; otherwise unknown"));
    public static final TableShape HEADERS =
            shape(
                    "headers",
                    "what is known of the shape of a header, so that it can be drawn",
                    must("name", "name of the header"),
                    must("pins", "number of its pins"),
                    must("rows", "`1` or `2`"),
                    must(
                            "numbering",
                            "`across` (pin 2 faces pin 1), `along` (row after row) or `around`"
                                    + " (along one row and back along the other)"),
                    must(
                            "seen",
                            "side of the board from which pin 1 is at the lower left: `top` or"
                                    + " `bottom`"),
                    may("grounds", "its ground pins, with spaces between; otherwise unknown"));

    /** All tables, in the order in which they are read. */
    public static final List<TableShape> ALL =
            List.of(
                    ABOUT,
                    CELL_KINDS,
                    SETTINGS,
                    BANKS,
                    WIRE_LOADS,
                    SWITCH_LOADS,
                    TILES,
                    WIRES,
                    TAPS,
                    PARTS,
                    SITES,
                    PINS,
                    PASS_THROUGH,
                    PADS,
                    DELAYS,
                    SWITCHES,
                    CELLS,
                    CELL_SETTINGS,
                    PORTS,
                    NETS,
                    ENDS,
                    ROUTES,
                    BOARD,
                    HEADERS);

    /** The tables of a design; without any of them, the folder describes a fabric alone. */
    public static final List<TableShape> OF_DESIGN =
            List.of(CELLS, CELL_SETTINGS, PORTS, NETS, ENDS, ROUTES);

    private Tables() {}

    private static TableShape shape(String name, String meaning, ColumnShape... columns) {
        return new TableShape(name, meaning, List.of(columns));
    }

    private static TableShape shape(String name, String meaning, List<ColumnShape> columns) {
        return new TableShape(name, meaning, columns);
    }

    private static ColumnShape must(String name, String meaning) {
        return new ColumnShape(name, MUST, meaning);
    }

    private static ColumnShape may(String name, String meaning) {
        return new ColumnShape(name, MAY, meaning);
    }

    private static ColumnShape instead(String name, String meaning) {
        return new ColumnShape(name, INSTEAD, meaning);
    }

    private static List<ColumnShape> place(String prefix, String meaning) {
        return List.of(
                may(prefix + "tile", meaning + "; a tile's name, `x3y4`, or"),
                instead(prefix + "column", "column of the tile, the leftmost being 0, and"),
                instead(prefix + "row", "row of the tile, the lowest being 0"));
    }

    @SafeVarargs
    private static List<ColumnShape> join(List<ColumnShape>... parts) {
        List<ColumnShape> all = new ArrayList<>();
        for (List<ColumnShape> part : parts) {
            all.addAll(part);
        }
        return List.copyOf(all);
    }
}
