package padward.format.netlist;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Netlist;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Source;

/** Reads mappings from JSON files. */
public final class CellMappingReader {
    private static final Shape TYPE =
            Shape.of(
                    "type!",
                    "kind",
                    "pins",
                    "settings",
                    "clocks",
                    "atPad",
                    "joins",
                    "constant",
                    "pin");
    private static final Shape AT_PAD = Shape.of("kind!", "pins!");

    private final Map<String, CellMapping.Type> types = new LinkedHashMap<>();
    private final Names names = new Names("type");
    private String name = "";

    private CellMappingReader() {}

    /**
     * Reads a mapping.
     *
     * @throws BadInput when the file cannot be read or is not a mapping
     */
    public static CellMapping read(Path file, Progress progress) throws BadInput {
        return read(Source.of(file), progress);
    }

    /** As {@link #read(Path, Progress)}, from any source. */
    public static CellMapping read(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.MAPPING);
        return new CellMappingReader().run(source, progress);
    }

    private CellMapping run(Source source, Progress progress) throws BadInput {
        new Passes()
                .part("format!", JsonIn::skip)
                .part("name!", in -> name = in.name())
                .part("note", in -> in.text(FileLimits.NOTE))
                .part("types!", in -> in.list(this::readType))
                .run(source, progress);
        return new CellMapping(name, types);
    }

    private CellMapping.Type readType(JsonIn in) throws BadInput {
        String type = "";
        String kind = "";
        Map<String, String> pins = Map.of();
        Map<String, String> settings = Map.of();
        List<String> clocks = List.of();
        Optional<Netlist.AtPad> atPad = Optional.empty();
        List<String> joins = List.of();
        int constant = 0;
        String pin = "";
        Members member = in.object(TYPE);
        while (member.next()) {
            switch (member.name()) {
                case "type" -> type = names.readNew(in);
                case "kind" -> kind = in.name();
                case "pins" -> pins = in.texts();
                case "settings" -> settings = in.texts();
                case "clocks" -> clocks = in.list(JsonIn::name);
                case "atPad" -> atPad = Optional.of(readAtPad(in));
                case "joins" -> joins = in.list(JsonIn::name);
                case "constant" -> constant = in.integer(0, 1);
                default -> pin = in.name();
            }
        }
        int routes = count(member, "kind") + count(member, "joins") + count(member, "constant");
        if (routes != 1) {
            throw in.fault("one of \"kind\", \"joins\" and \"constant\"", routes + " of them");
        }
        CellMapping.Type result = new CellMapping.Constant(pin, constant);
        if (member.has("kind")) {
            result = new CellMapping.OfCell(kind, pins, settings, clocks, atPad);
            for (String clock : clocks) {
                if (!pins.containsKey(clock)) {
                    throw in.fault(
                            "clocks that \"pins\" names",
                            Nearest.describe(clock, pins.keySet().stream()));
                }
            }
        } else if (member.has("joins")) {
            if (joins.size() != 2) {
                throw in.fault("two pins that are joined", joins.size() + " of them");
            }
            result = new CellMapping.Joins(joins.get(0), joins.get(1));
        } else if (pin.isEmpty()) {
            throw in.fault("a \"pin\" that has the constant", "none");
        }
        types.put(type, result);
        return result;
    }

    private static int count(Members member, String name) {
        return member.has(name) ? 1 : 0;
    }

    private static Netlist.AtPad readAtPad(JsonIn in) throws BadInput {
        String kind = "";
        Map<String, String> pins = Map.of();
        Members member = in.object(AT_PAD);
        while (member.next()) {
            switch (member.name()) {
                case "kind" -> kind = in.name();
                default -> pins = in.texts();
            }
        }
        return new Netlist.AtPad(kind, pins);
    }
}
