package padward.format.tables;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.fabric.CellKind;
import padward.fabric.FabricInfo;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.Electrical;
import padward.format.fabric.CellKindForms;
import padward.format.fabric.InfoForms;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.json.Names;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableFolder;

/** The small tables: names, the grid, kinds of cell, settings, banks. */
final class InfoTables {
    private static final Optional<Names> ANY = Optional.empty();
    private static final List<String> KEYS =
            List.of(
                    "fabric",
                    "fabric_note",
                    "columns",
                    "rows",
                    "design",
                    "design_note",
                    "board",
                    "board_note");

    private final TableFolder folder;
    private final Map<String, String> about = new LinkedHashMap<>();
    private final Names kindNames = new Names("kind of cell");
    private final Names settingNames = new Names("driver setting");
    private final Names bankNames = new Names("bank");
    private List<CellKind> kinds = List.of();
    private List<DriverSetting> settings = List.of();
    private List<Bank> banks = List.of();
    private Electrical electrical = Electrical.UNKNOWN;
    private int columns;
    private int rows;

    InfoTables(TableFolder folder) {
        this.folder = folder;
    }

    /** Reads them all. */
    void read() {
        folder.read(Tables.ABOUT, this::readAbout);
        kinds =
                FormTables.read(
                        folder,
                        Tables.CELL_KINDS,
                        CellKindForms.kind(kindNames),
                        InfoTables::checkKind);
        settings =
                FormTables.read(
                        folder,
                        Tables.SETTINGS,
                        InfoForms.setting(settingNames),
                        (table, setting) -> report(table, InfoForms.faultOf(setting)));
        banks = FormTables.read(folder, Tables.BANKS, InfoForms.bank(bankNames));
        electrical =
                new Electrical(
                        FormTables.read(folder, Tables.WIRE_LOADS, InfoForms.wireLoad(ANY)),
                        FormTables.read(folder, Tables.SWITCH_LOADS, InfoForms.switchLoad(ANY)));
        if (columns == 0 || rows == 0) {
            GridExtent extent = GridExtent.of(folder);
            columns = columns == 0 ? extent.columns() : columns;
            rows = rows == 0 ? extent.rows() : rows;
        }
    }

    private static void checkKind(CsvTable table, CellKind kind) {
        report(table, CellKindForms.faultOf(kind));
    }

    private static void report(CsvTable table, Optional<CellKindForms.Fault> found) {
        found.ifPresent(
                fault -> table.fault(table.column(fault.column()), fault.expected(), fault::found));
    }

    private void readAbout(CsvTable table) {
        CsvTable.Column key = table.column("key");
        CsvTable.Column value = table.column("value");
        while (table.next()) {
            String name = table.text(key);
            if (!KEYS.contains(name)) {
                table.fault(
                        key,
                        "one of " + String.join(", ", KEYS),
                        () -> Nearest.describe(name, KEYS.stream()));
                continue;
            }
            String text = name.endsWith("_note") ? note(table, value) : table.name(value);
            if (about.put(name, text) != null) {
                table.fault(key, "each key once", () -> "a second " + Text.quote(name));
            }
            if (name.equals("columns")) {
                columns = table.integer(value, 1, padward.fabric.FabricLimits.GRID_SIDE, 1);
            } else if (name.equals("rows")) {
                rows = table.integer(value, 1, padward.fabric.FabricLimits.GRID_SIDE, 1);
            }
        }
    }

    private static String note(CsvTable table, CsvTable.Column value) {
        String note = table.text(value);
        if (note.length() > FileLimits.NOTE) {
            table.fault(
                    value,
                    "at most " + FileLimits.NOTE + " characters",
                    () -> note.length() + " characters");
        }
        return note;
    }

    /** General information on the fabric; kinds of cell that only sites mention are added. */
    FabricInfo toInfo() {
        return new FabricInfo(
                about.getOrDefault("fabric", folder.name()),
                about.getOrDefault("fabric_note", ""),
                kinds,
                settings,
                banks,
                electrical);
    }

    String designName() {
        return about.getOrDefault("design", folder.name());
    }

    String designNote() {
        return about.getOrDefault("design_note", "");
    }

    String boardName() {
        return about.getOrDefault("board", folder.name());
    }

    String boardNote() {
        return about.getOrDefault("board_note", "");
    }

    int columns() {
        return columns;
    }

    int rows() {
        return rows;
    }

    /** A kind that a site accepts: one of the table, or, where there is none, a new one. */
    void accept(CsvTable table, CsvTable.Column column, String kind) {
        if (folder.has(Tables.CELL_KINDS)) {
            Kinds.requireKnown(table, column, kindNames, kind);
        } else if (kindNames.add(kind)) {
            kinds.add(new CellKind(kind, false));
        }
    }

    /** The names of banks. */
    Kind<String> bank() {
        return Kinds.knownOrNone(bankNames);
    }

    /** Requires that each of some settings is known. */
    void requireSettings(CsvTable table, CsvTable.Column column, List<String> listed) {
        listed.forEach(s -> Kinds.requireKnown(table, column, settingNames, s));
    }

    /** The names of settings. */
    Kind<String> setting() {
        return Kinds.knownOrNone(settingNames);
    }

    /** Words that many rows share, each stored once. */
    static final class Words {
        private static final int MOST = 100_000;
        private final Map<String, String> known = new HashMap<>();

        String share(String word) {
            String before = known.get(word);
            if (before == null && known.size() < MOST) {
                known.put(word, word);
            }
            return before == null ? word : before;
        }
    }
}
