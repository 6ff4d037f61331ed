package padward.format.tables;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.fabric.Bank;
import padward.fabric.CellKind;
import padward.fabric.DriverSetting;
import padward.fabric.Electrical;
import padward.fabric.FabricInfo;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableFolder;
import padward.format.tables.csv.Tables;

/** The small tables: names, the grid, kinds of cell, settings, banks. */
final class InfoTables {
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
    private final Map<String, CellKind> kinds = new LinkedHashMap<>();
    private final Map<String, DriverSetting> settings = new LinkedHashMap<>();
    private final Map<String, Bank> banks = new LinkedHashMap<>();
    private Electrical electrical = Electrical.UNKNOWN;
    private int columns;
    private int rows;

    InfoTables(TableFolder folder) {
        this.folder = folder;
    }

    /** Reads them all. */
    void read() {
        folder.read(Tables.ABOUT, this::readAbout);
        folder.read(Tables.CELL_KINDS, this::readKinds);
        folder.read(Tables.SETTINGS, this::readSettings);
        folder.read(Tables.BANKS, this::readBanks);
        electrical = new LoadTables().read(folder);
        if (columns == 0 || rows == 0) {
            GridExtent extent = GridExtent.of(folder);
            columns = columns == 0 ? extent.columns() : columns;
            rows = rows == 0 ? extent.rows() : rows;
        }
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

    private void readKinds(CsvTable table) {
        CsvTable.Column name = table.column("name");
        CsvTable.Column holdsState = table.column("holds_state");
        while (table.next()) {
            CellKind kind = new CellKind(table.name(name), table.flag(holdsState));
            addNew(table, name, kinds, kind.name(), kind);
        }
    }

    private void readSettings(CsvTable table) {
        CsvTable.Column name = table.column("name");
        CsvTable.Column standard = table.column("standard");
        CsvTable.Column millivolts = table.column("millivolts");
        CsvTable.Column milliamps = table.column("milliamps");
        CsvTable.Column slew = table.column("slew");
        DelayColumns delay = new DelayColumns(table);
        OutputColumns output = new OutputColumns(table);
        CsvTable.Column differential = table.column("differential");
        while (table.next()) {
            DriverSetting setting =
                    new DriverSetting(
                            table.name(name),
                            table.word(standard),
                            electric(table, millivolts),
                            electric(table, milliamps),
                            table.oneOf(slew, new String[] {"slow", "fast"}, s -> s, "slow"),
                            delay.readRequired(),
                            output.read(),
                            table.flag(differential, false));
            addNew(table, name, settings, setting.name(), setting);
        }
    }

    private void readBanks(CsvTable table) {
        CsvTable.Column name = table.column("name");
        CsvTable.Column millivolts = table.column("millivolts");
        while (table.next()) {
            Bank bank = new Bank(table.name(name), electric(table, millivolts));
            addNew(table, name, banks, bank.name(), bank);
        }
    }

    private static int electric(CsvTable table, CsvTable.Column column) {
        if (!table.has(column)) {
            table.fault(column, "a whole number", () -> "an empty field");
        }
        return table.integer(column, 0, FileLimits.ELECTRIC, 0);
    }

    private static <T> void addNew(
            CsvTable table, CsvTable.Column column, Map<String, T> known, String name, T value) {
        if (known.putIfAbsent(name, value) != null) {
            table.fault(column, "each name once", () -> Text.quote(name) + " again");
        }
    }

    /** General information on the fabric; kinds of cell that only sites mention are added. */
    FabricInfo toInfo() {
        Set<CellKind> all = new LinkedHashSet<>(kinds.values());
        return new FabricInfo(
                about.getOrDefault("fabric", folder.name()),
                about.getOrDefault("fabric_note", ""),
                new ArrayList<>(all),
                new ArrayList<>(settings.values()),
                new ArrayList<>(banks.values()),
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
        if (!folder.has(Tables.CELL_KINDS)) {
            kinds.computeIfAbsent(kind, k -> new CellKind(k, false));
        } else {
            checkKnown(table, column, kinds, "kind of cell", kind);
        }
    }

    /** The name of a bank, or nothing. */
    String readBank(CsvTable table, CsvTable.Column column) {
        return readOptional(table, column, banks, "bank");
    }

    /** The name of a setting, or nothing. */
    String readSetting(CsvTable table, CsvTable.Column column) {
        return readOptional(table, column, settings, "driver setting");
    }

    private static String readOptional(
            CsvTable table, CsvTable.Column column, Map<String, ?> known, String sort) {
        String word = table.word(column);
        if (word.isEmpty()) {
            return "";
        }
        checkKnown(table, column, known, sort, word);
        return word;
    }

    private static void checkKnown(
            CsvTable table,
            CsvTable.Column column,
            Map<String, ?> known,
            String sort,
            String word) {
        if (!known.containsKey(word)) {
            table.fault(
                    column,
                    "the name of a " + sort,
                    () -> Nearest.describe(word, known.keySet().stream()));
        }
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
