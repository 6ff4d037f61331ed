package padward.format.bareboard;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.Levels;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;
import padward.format.source.Nearest;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableShape;

/**
 * The nets of a board, and what of them is on the pads of one chip.
 *
 * @param source the file's name, for messages
 * @param pins every pin of every part
 */
public record BoardNets(String source, List<PartPin> pins) {
    private static final TableShape SHAPE =
            new TableShape(
                    "nets",
                    "a pin on a net",
                    List.of(
                            new ColumnShape("net", ColumnShape.Need.MUST, "the net's name"),
                            new ColumnShape("part", ColumnShape.Need.MUST, "the part"),
                            new ColumnShape("pin", ColumnShape.Need.MUST, "its pin")));

    /** Copies the pins. */
    public BoardNets {
        pins = List.copyOf(pins);
    }

    /**
     * Reads a table with the columns net, part, pin if the name ends in {@code .csv}, else
     * bare-board test data.
     *
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static BoardNets read(Path file, Progress progress) throws BadInput {
        if (!file.toString().toLowerCase(Locale.ROOT).endsWith(".csv")) {
            return new BoardNets(file.toString(), BareBoardReader.read(file, progress));
        }
        List<PartPin> pins = new ArrayList<>();
        CsvTable.read(
                file,
                SHAPE,
                progress,
                table -> {
                    CsvTable.Column net = table.column("net");
                    CsvTable.Column part = table.column("part");
                    CsvTable.Column pin = table.column("pin");
                    while (table.next()) {
                        pins.add(new PartPin(table.name(net), table.name(part), table.name(pin)));
                    }
                });
        return new BoardNets(file.toString(), pins);
    }

    /** The nets on the pins of a part, by pin. */
    public Map<String, String> netsOf(String part) {
        Map<String, String> result = new TreeMap<>();
        pins.stream().filter(p -> p.part().equals(part)).forEach(p -> result.put(p.pin(), p.net()));
        return result;
    }

    /**
     * A board for a fabric.
     *
     * @param chip the chip's reference designator on the board
     * @throws BadInput when the board has no such part, or none of its pins has a pad
     */
    public Imported board(String name, String chip, Fabric fabric, PartsTable parts)
            throws BadInput {
        Map<String, String> ofChip = netsOf(chip);
        if (ofChip.isEmpty()) {
            Set<String> known = new TreeSet<>();
            pins.forEach(p -> known.add(p.part()));
            throw new BadInput(
                    source,
                    "",
                    "pins of part " + chip,
                    "none" + Nearest.describe(chip, known.stream()).replace("“" + chip + "”", ""));
        }
        Map<String, List<PartPin>> byNet = new LinkedHashMap<>();
        pins.forEach(p -> byNet.computeIfAbsent(p.net(), n -> new ArrayList<>()).add(p));
        PadLookup pads = new PadLookup(fabric);
        List<PadWiring> wirings = new ArrayList<>();
        List<String> withoutPad = new ArrayList<>();
        Set<String> undescribed = new TreeSet<>();
        for (Map.Entry<String, String> pin : ofChip.entrySet()) {
            OptionalInt pad = pads.findPackagePin(pin.getKey());
            if (pad.isEmpty()) {
                withoutPad.add(pin.getKey());
                continue;
            }
            Set<Attachment> on = new LinkedHashSet<>();
            Set<String> seen = new LinkedHashSet<>();
            collect(pin.getValue(), 0, chip, byNet, parts, seen, on, undescribed);
            wirings.add(new PadWiring(pad.getAsInt(), pin.getValue(), 0, List.copyOf(on)));
        }
        if (wirings.isEmpty()) {
            throw new BadInput(
                    source,
                    "",
                    "pins of " + chip + " that are package pins of the fabric's pads",
                    String.join(", ", withoutPad.subList(0, Math.min(5, withoutPad.size()))));
        }
        Board board = new Board(name, "", wirings, parts.headers());
        return new Imported(board, withoutPad, List.copyOf(undescribed));
    }

    /** What is on a net, and behind resistors between it and others. */
    private static void collect(
            String net,
            int ohms,
            String chip,
            Map<String, List<PartPin>> byNet,
            PartsTable parts,
            Set<String> seen,
            Set<Attachment> on,
            Set<String> undescribed) {
        if (!seen.add(net)) {
            return;
        }
        for (PartPin pin : byNet.getOrDefault(net, List.of())) {
            if (pin.part().equals(chip)) {
                continue;
            }
            PartsTable.Part part = parts.find(pin);
            if (!parts.describes(pin)) {
                undescribed.add(pin.part());
            }
            if (part.series()) {
                byNet.forEach(
                        (other, ends) -> {
                            if (ends.stream().anyMatch(e -> e.part().equals(pin.part()))) {
                                int more = ohms + part.levels().seriesOhms();
                                collect(other, more, chip, byNet, parts, seen, on, undescribed);
                            }
                        });
            }
            Levels known = part.levels();
            Levels levels =
                    new Levels(
                            known.millivolts(), known.mostMillivolts(), ohms + known.seriesOhms());
            part.kind()
                    .ifPresent(
                            k ->
                                    on.add(
                                            new Attachment(
                                                    k, pin.part(), shown(k, pin.pin()), levels)));
        }
    }

    /** A test point or a resistor is known by its name alone. */
    private static String shown(AttachmentKind kind, String pin) {
        boolean single = kind == AttachmentKind.TESTPOINT || kind == AttachmentKind.PULL;
        return single ? "" : pin;
    }

    /**
     * A board with what was left open.
     *
     * @param board the board
     * @param withoutPad pins of the chip for which the fabric has no pad
     * @param undescribed parts on the chip's nets that are not in the parts table
     */
    public record Imported(Board board, List<String> withoutPad, List<String> undescribed) {
        /** Copies the lists. */
        public Imported {
            withoutPad = List.copyOf(withoutPad);
            undescribed = List.copyOf(undescribed);
        }
    }
}
