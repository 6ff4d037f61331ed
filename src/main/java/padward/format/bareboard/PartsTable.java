package padward.format.bareboard;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.board.AttachmentKind;
import padward.design.board.BoardHeader;
import padward.design.board.Levels;
import padward.format.json.EnumWords;
import padward.format.source.FileLimits;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.HeaderColumns;
import padward.format.tables.csv.TableShape;

/**
 * What is known of the parts on a board, from a table. A row without a pin holds for all pins of
 * its part that have no row of their own. Parts that are not in the table are taken by the class
 * letters of their reference designators (ASME Y14.44, from memory): {@code J} and {@code P}
 * connectors, {@code TP} test points, {@code S} and {@code SW} switches, {@code R} resistors,
 * {@code C} and {@code L} what does not drive; any other may be an input or an output.
 */
public final class PartsTable {
    private static final TableShape SHAPE =
            new TableShape(
                    "parts",
                    "a part on the board, or a pin of it",
                    List.of(
                            must("part", "its reference designator"),
                            may("pin", "its pin; otherwise all its pins"),
                            may("kind", "what it is; otherwise by its direction"),
                            may("direction", "in, out or both, seen from the part"),
                            may("volts", "its supply, or the rail of a pull"),
                            may("most_volts", "the greatest voltage that its pin tolerates"),
                            may("series_ohms", "of a resistor between two nets"),
                            may("ground_pins", "of a header, with spaces between"),
                            may("pins", "number of pins of a header"),
                            may("rows", "1 or 2"),
                            may("numbering", "across, along or around"),
                            may("seen", "top or bottom")));

    /** What a row says of a part's pins. */
    record Part(Optional<AttachmentKind> kind, boolean series, Levels levels) {}

    /** What hangs on a pin by what a table can say of it. */
    private enum Kind {
        HEADER,
        TESTPOINT,
        LIGHT,
        BUTTON,
        PULL,
        SERIES,
        NONE
    }

    private enum Direction {
        IN,
        OUT,
        BOTH
    }

    private final Map<String, Part> byPin = new LinkedHashMap<>();
    private final List<BoardHeader> headers = new ArrayList<>();

    private static ColumnShape must(String name, String meaning) {
        return new ColumnShape(name, ColumnShape.Need.MUST, meaning);
    }

    private static ColumnShape may(String name, String meaning) {
        return new ColumnShape(name, ColumnShape.Need.MAY, meaning);
    }

    /** A table that says nothing. */
    public static PartsTable empty() {
        return new PartsTable();
    }

    /**
     * Reads a table.
     *
     * @throws BadInput when it cannot be read or has a fault; says row and column
     */
    public static PartsTable read(Path file, Progress progress) throws BadInput {
        PartsTable result = new PartsTable();
        CsvTable.read(file, SHAPE, progress, result::readRows);
        return result;
    }

    private void readRows(CsvTable table) {
        CsvTable.Column part = table.column("part");
        CsvTable.Column pin = table.column("pin");
        CsvTable.Column kind = table.column("kind");
        CsvTable.Column direction = table.column("direction");
        CsvTable.Column volts = table.column("volts");
        CsvTable.Column most = table.column("most_volts");
        CsvTable.Column ohms = table.column("series_ohms");
        while (table.next()) {
            String name = table.name(part);
            Optional<Kind> stated =
                    table.has(kind)
                            ? Optional.of(
                                    table.oneOf(kind, Kind.values(), EnumWords::of, Kind.NONE))
                            : Optional.empty();
            Optional<Direction> pinDirection =
                    table.has(direction)
                            ? Optional.of(
                                    table.oneOf(
                                            direction,
                                            Direction.values(),
                                            EnumWords::of,
                                            Direction.BOTH))
                            : Optional.empty();
            int series = table.integer(ohms, 0, FileLimits.OHMS, 0);
            Levels levels = new Levels(millivolts(table, volts), millivolts(table, most), series);
            boolean isSeries = stated.equals(Optional.of(Kind.SERIES));
            String key = name + "." + table.word(pin);
            if (byPin.put(key, new Part(kindOf(stated, pinDirection), isSeries, levels)) != null) {
                table.fault(part, "each part or pin once", () -> "a second row of " + key);
            }
            readHeader(table, name, stated.equals(Optional.of(Kind.HEADER)));
        }
    }

    private static int millivolts(CsvTable table, CsvTable.Column column) {
        return (int) Math.round(1000 * table.real(column, 0, 1000, 0));
    }

    private static Optional<AttachmentKind> kindOf(
            Optional<Kind> stated, Optional<Direction> direction) {
        if (stated.isPresent()) {
            return switch (stated.get()) {
                case HEADER -> Optional.of(AttachmentKind.HEADER);
                case TESTPOINT -> Optional.of(AttachmentKind.TESTPOINT);
                case LIGHT -> Optional.of(AttachmentKind.LIGHT);
                case BUTTON -> Optional.of(AttachmentKind.BUTTON);
                case PULL -> Optional.of(AttachmentKind.PULL);
                case SERIES, NONE -> Optional.empty();
            };
        }
        return Optional.of(
                switch (direction.orElse(Direction.BOTH)) {
                    case IN -> AttachmentKind.LOAD;
                    case OUT -> AttachmentKind.DRIVER;
                    case BOTH -> AttachmentKind.TWO_WAY;
                });
    }

    private void readHeader(CsvTable table, String name, boolean header) {
        HeaderColumns shape = new HeaderColumns(table, "ground_pins");
        if (!table.has(shape.pins())) {
            return;
        }
        if (!header) {
            table.fault(shape.pins(), "a header's number of pins", () -> "a part of another kind");
        }
        for (CsvTable.Column needed : shape.others()) {
            if (!table.has(needed)) {
                table.fault(needed, "a value, since pins is filled in", () -> "an empty field");
            }
        }
        headers.add(shape.read(name));
    }

    /** Whether a pin of a part is described. */
    boolean describes(PartPin pin) {
        return byPin.containsKey(pin.part() + "." + pin.pin())
                || byPin.containsKey(pin.part() + ".");
    }

    /** What is known of a pin: by its own row, its part's, or its designator. */
    Part find(PartPin pin) {
        Part own = byPin.get(pin.part() + "." + pin.pin());
        Part all = byPin.get(pin.part() + ".");
        return own != null ? own : all != null ? all : byDesignator(pin.part());
    }

    private static Part byDesignator(String part) {
        Optional<AttachmentKind> kind =
                switch (part.replaceFirst("[^A-Za-z].*", "").toUpperCase(java.util.Locale.ROOT)) {
                    case "J", "P" -> Optional.of(AttachmentKind.HEADER);
                    case "TP" -> Optional.of(AttachmentKind.TESTPOINT);
                    case "S", "SW" -> Optional.of(AttachmentKind.BUTTON);
                    case "R" -> Optional.of(AttachmentKind.PULL);
                    case "C", "L" -> Optional.empty();
                    default -> Optional.of(AttachmentKind.TWO_WAY);
                };
        return new Part(kind, false, Levels.UNKNOWN);
    }

    /** How much is in it, for people. */
    String toText() {
        return "table of parts: "
                + byPin.size()
                + (byPin.size() == 1 ? " part or pin, " : " parts or pins, ")
                + headers.size()
                + (headers.size() == 1 ? " header" : " headers")
                + " whose shape is stated";
    }

    /** The headers of which the shape is stated. */
    List<BoardHeader> headers() {
        return List.copyOf(headers);
    }
}
