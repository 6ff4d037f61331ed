package padward.format.netlist;

import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.text;
import static padward.format.form.Kinds.texts;
import static padward.format.form.Kinds.whole;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Netlist;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.form.Slot;
import padward.format.json.FileHeader;
import padward.format.json.Names;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Source;

/** Reads mappings from JSON files. */
public final class CellMappingReader {
    private CellMappingReader() {}

    /** What one type of the netlist becomes. */
    private record Mapped(String type, CellMapping.Type to) {}

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
        return mapping().read(source, progress);
    }

    /** The text of the JSON Schema of mappings. */
    public static String schema() {
        return mapping().schema().toFile("What the types of a netlist's cells are on a fabric");
    }

    private static FileForm<CellMapping> mapping() {
        var mapping = new Fields<CellMapping>();
        mapping.constant("format", FileHeader.MAPPING);
        var name = mapping.needed("name", name()).means("name of the mapping");
        mapping.optional("note", text(FileLimits.NOTE), "").means("for people");
        var types = mapping.needed("types", list(type())).means("the types of the netlist's cells");
        return mapping.makesFile(
                () -> {
                    Map<String, CellMapping.Type> byType = new LinkedHashMap<>();
                    types.get().forEach(t -> byType.put(t.type(), t.to()));
                    return new CellMapping(name.get(), byType);
                });
    }

    private static Form<Mapped> type() {
        var type = new Fields<Mapped>();
        var name = type.needed("type", newName(new Names("type"))).means("name of the type");
        var kind = type.optional("kind", name(), "").means("kind of cell that it becomes");
        var pins =
                type.optional("pins", texts(), Map.of())
                        .means("pin of the site for each of its pins");
        var settings = type.optional("settings", texts(), Map.of()).means("settings of the cell");
        var parameters =
                type.optional("parameters", texts(), Map.of())
                        .means("setting of the cell for each of its parameters of another name");
        var clocks =
                type.optional("clocks", list(name()), List.of()).means("its pins that are clocks");
        var atPad =
                type.maybe("atPad", atPad(), mapped -> Optional.empty())
                        .means("what it becomes at a pad");
        var joins = type.optional("joins", two(), List.of()).means("two pins that are one net");
        var constant = type.optional("constant", whole(0, 1), 0).means("the constant at a pin");
        var pin = type.optional("pin", name(), "").means("that pin");
        var atPort =
                type.maybe("atPort", atPort(), mapped -> Optional.empty())
                        .means("no cell: the driver of a port's pad, which can be switched off");
        type.require(
                Schema.oneOf(
                        List.of(
                                Schema.having(kind),
                                Schema.having(atPort),
                                Schema.having(joins),
                                Schema.having(constant, pin))));
        return type.makes(
                in -> {
                    long routes =
                            Stream.of(kind, joins, constant, atPort).filter(Slot::isGiven).count();
                    if (routes != 1) {
                        throw in.fault(
                                "one of \"kind\", \"joins\", \"constant\" and \"atPort\"",
                                routes + " of them");
                    }
                    for (String clock : kind.isGiven() ? clocks.get() : List.<String>of()) {
                        if (!pins.get().containsKey(clock)) {
                            throw in.fault(
                                    "clocks that \"pins\" names",
                                    Nearest.describe(clock, pins.get().keySet().stream()));
                        }
                    }
                    if (joins.isGiven() && joins.get().size() != 2) {
                        throw in.fault("two pins that are joined", joins.get().size() + " of them");
                    }
                    if (constant.isGiven() && !pin.isGiven()) {
                        throw in.fault("a \"pin\" that has the constant", "none");
                    }
                    if (kind.isGiven()) {
                        return new Mapped(
                                name.get(),
                                new CellMapping.OfCell(
                                        kind.get(),
                                        pins.get(),
                                        settings.get(),
                                        parameters.get(),
                                        clocks.get(),
                                        atPad.get()));
                    }
                    if (atPort.isGiven()) {
                        return new Mapped(name.get(), atPort.get().orElseThrow());
                    }
                    return new Mapped(
                            name.get(),
                            joins.isGiven()
                                    ? new CellMapping.Joins(joins.get().get(0), joins.get().get(1))
                                    : new CellMapping.Constant(pin.get(), constant.get()));
                });
    }

    private static Kind<List<String>> two() {
        return list(name()).limited(Schema.any().with("minItems", 2).with("maxItems", 2));
    }

    private static Form<CellMapping.AtPort> atPort() {
        var atPort = new Fields<CellMapping.AtPort>();
        var pad = atPort.needed("pad", name()).means("its pin at the port");
        var out = atPort.needed("out", name()).means("its pin with what goes out");
        var in =
                atPort.optional("in", name(), "")
                        .means("its pin with what comes in; without it that is at the port");
        var enable = atPort.needed("enable", name()).means("its pin that switches the driver");
        return atPort.makes(
                () -> new CellMapping.AtPort(pad.get(), out.get(), in.get(), enable.get()));
    }

    private static Form<Netlist.AtPad> atPad() {
        var atPad = new Fields<Netlist.AtPad>();
        var kind = atPad.needed("kind", name()).means("kind of cell");
        var pins = atPad.needed("pins", texts()).means("pin of the site for each of its pins");
        return atPad.makes(() -> new Netlist.AtPad(kind.get(), pins.get()));
    }
}
