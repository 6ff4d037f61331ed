package padward.format.fabric;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.Bank;
import padward.fabric.CellKind;
import padward.fabric.Delay;
import padward.fabric.DriverSetting;
import padward.fabric.Electrical;
import padward.fabric.FabricInfo;
import padward.fabric.PadDriverOutput;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;

/** The members that both forms of a fabric have: its name, grid, kinds, settings and banks. */
final class InfoParts {
    /** Names of the parts that everything else of a fabric comes after. */
    static final String[] ALL = {
        "name", "note", "grid", "cellKinds", "settings", "banks", "electrical"
    };

    private static final Shape GRID = Shape.of("columns!", "rows!");
    private static final Shape CELL_KIND = Shape.of("name!", "holdsState");
    private static final Shape SETTING =
            Shape.of(
                    "name!",
                    "standard",
                    "millivolts!",
                    "milliamps!",
                    "slew",
                    "delay_ps!",
                    "output",
                    "differential");
    private static final Shape BANK = Shape.of("name!", "millivolts!");

    final Names cellKinds = new Names("kind of cell");
    final Names settings = new Names("driver setting");
    final Names banks = new Names("bank");
    private String name = "";
    private String note = "";
    private int columns;
    private int rows;
    private List<CellKind> kindList = List.of();
    private List<DriverSetting> settingList = List.of();
    private List<Bank> bankList = List.of();
    private Electrical electrical = Electrical.UNKNOWN;

    /**
     * Adds the parts to those of a file.
     *
     * @param wireKinds the kinds of wire that the file's member {@code wires} defines; empty where
     *     it lists single wires, whose kinds are free words
     */
    Passes addTo(Passes passes, Optional<Names> wireKinds) {
        return passes.part("format!", JsonIn::skip)
                .part("form!", JsonIn::skip)
                .part("name!", in -> name = in.name())
                .part("note", in -> note = in.text(FileLimits.NOTE))
                .part("grid!", this::readGrid)
                .part("cellKinds", in -> kindList = in.list(this::readKind))
                .part("settings", in -> settingList = in.list(this::readSetting))
                .part("banks", in -> bankList = in.list(this::readBank))
                .part(
                        "electrical",
                        in -> electrical = new ElectricalParts(wireKinds).read(in),
                        wireKinds.isPresent() ? new String[] {"wires"} : new String[0]);
    }

    FabricInfo toInfo() {
        return new FabricInfo(name, note, kindList, settingList, bankList, electrical);
    }

    int columns() {
        return columns;
    }

    int rows() {
        return rows;
    }

    private void readGrid(JsonIn in) throws BadInput {
        Members member = in.object(GRID);
        while (member.next()) {
            int side = in.integer(1, padward.fabric.FabricLimits.GRID_SIDE);
            if (member.name().equals("columns")) {
                columns = side;
            } else {
                rows = side;
            }
        }
    }

    /** {@code [column, row]} inside the grid; the number of the tile. */
    int readTile(JsonIn in) throws BadInput {
        in.beginArray();
        int column = in.integer(0, columns - 1);
        int row = in.integer(0, rows - 1);
        in.endArray();
        return row * columns + column;
    }

    private CellKind readKind(JsonIn in) throws BadInput {
        String kind = "";
        boolean holdsState = false;
        Members member = in.object(CELL_KIND);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> kind = cellKinds.readNew(in);
                default -> holdsState = in.flag();
            }
        }
        return new CellKind(kind, holdsState);
    }

    private DriverSetting readSetting(JsonIn in) throws BadInput {
        String setting = "";
        String standard = "";
        String slew = "slow";
        int millivolts = 0;
        int milliamps = 0;
        Delay delay = Delay.ZERO;
        Optional<PadDriverOutput> output = Optional.empty();
        boolean differential = false;
        Members member = in.object(SETTING);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> setting = settings.readNew(in);
                case "standard" -> standard = in.word();
                case "millivolts" -> millivolts = in.integer(0, FileLimits.ELECTRIC);
                case "milliamps" -> milliamps = in.integer(0, FileLimits.ELECTRIC);
                case "slew" -> slew = in.oneOf(new String[] {"slow", "fast"}, s -> s);
                case "delay_ps" -> delay = in.delay();
                case "output" -> output = Optional.of(ElectricalParts.readOutput(in));
                default -> differential = in.flag();
            }
        }
        return new DriverSetting(
                setting, standard, millivolts, milliamps, slew, delay, output, differential);
    }

    private Bank readBank(JsonIn in) throws BadInput {
        String bank = "";
        int millivolts = 0;
        Members member = in.object(BANK);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> bank = banks.readNew(in);
                default -> millivolts = in.integer(0, FileLimits.ELECTRIC);
            }
        }
        return new Bank(bank, millivolts);
    }

    /** The kinds of cell that a site accepts, each of them known. */
    List<String> readAccepts(JsonIn in) throws BadInput {
        List<String> all = new ArrayList<>();
        in.beginArray();
        while (in.more()) {
            String kind = in.word();
            checkKnown(in, cellKinds, "kind of cell", kind);
            all.add(kind);
        }
        in.endArray();
        return all;
    }

    /** A word that is the name of a bank or setting, or empty. */
    String readOptional(JsonIn in, Names known, String sort) throws BadInput {
        String word = in.word();
        if (!word.isEmpty()) {
            checkKnown(in, known, sort, word);
        }
        return word;
    }

    private static void checkKnown(JsonIn in, Names known, String sort, String word)
            throws BadInput {
        if (known.number(word).isEmpty()) {
            throw Names.unknown(in, sort, word, known::stream);
        }
    }
}
