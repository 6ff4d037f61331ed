package padward.format.fabric;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import padward.base.BadInput;
import padward.fabric.Delay;
import padward.fabric.EdgeKind;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.IndexPair;
import padward.fabric.pattern.PatternSpec;
import padward.format.json.EnumWords;
import padward.format.json.JsonOut;

/** Writes patterns. Switches have no names in a pattern's records; each delay becomes one. */
public final class PatternWriter {
    private final PatternSpec spec;
    private final JsonWriter out;

    private PatternWriter(PatternSpec spec, JsonWriter out) {
        this.spec = spec;
        this.out = out;
    }

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @throws BadInput when it cannot be written
     */
    public static void write(PatternSpec spec, Path file) throws BadInput {
        JsonOut.write(file, out -> new PatternWriter(spec, out).writeAll());
    }

    private void writeAll() throws IOException {
        out.beginObject();
        InfoWriter.write(out, "pattern", spec.info(), spec.columns(), spec.rows());
        writeWires();
        List<Delay> delays = switchDelays();
        out.name("switches").beginArray();
        for (Delay delay : delays) {
            out.beginObject().name("name").value(switchName(delay));
            JsonOut.delay(out, "delay_ps", delay);
            out.endObject();
        }
        out.endArray();
        out.name("tiles").beginArray();
        for (PatternSpec.TileType type : spec.tileTypes()) {
            writeTile(type);
        }
        out.endArray();
        out.name("layout").beginArray();
        for (PatternSpec.Area area : spec.areas()) {
            out.beginObject().name("tile").value(area.tileType());
            JsonOut.pair(out, "columns", area.fromColumn(), area.toColumn());
            JsonOut.pair(out, "rows", area.fromRow(), area.toRow());
            out.name("every").value(area.everyColumns()).endObject();
        }
        out.endArray();
        writePadOverrides();
        out.endObject();
    }

    private void writeWires() throws IOException {
        out.name("wires").beginArray();
        for (PatternSpec.WireKind wire : spec.wires()) {
            out.beginObject().name("name").value(wire.name());
            JsonOut.pair(out, "step", wire.dx(), wire.dy());
            out.name("count").value(wire.count());
            JsonOut.delay(out, "delay_ps", wire.delay());
            out.name("twoWay").value(wire.twoWay());
            out.name("use").value(wire.use()).endObject();
        }
        out.endArray();
    }

    private List<Delay> switchDelays() {
        return spec.tileTypes().stream()
                .flatMap(t -> t.rules().stream())
                .filter(r -> r.kind() == EdgeKind.SWITCH)
                .map(PatternSpec.Rule::delay)
                .distinct()
                .toList();
    }

    private static String switchName(Delay delay) {
        return "switch " + delay.fastPs() + " " + delay.slowPs();
    }

    private void writeTile(PatternSpec.TileType type) throws IOException {
        out.beginObject().name("name").value(type.name());
        names("wires", type.wires());
        out.name("sites").beginArray();
        for (PatternSpec.SiteGroup site : type.sites()) {
            writeSite(site);
        }
        out.endArray();
        out.name("pads").beginArray();
        for (PatternSpec.PadGroup pad : type.pads()) {
            out.beginObject().name("name").value(pad.name());
            out.name("count").value(pad.count());
            out.name("directions").value(EnumWords.of(pad.directions()));
            JsonOut.optional(out, "data", pad.dataSite());
            JsonOut.optional(out, "enable", pad.enableSite());
            InfoWriter.writeEnable(out, pad.enable());
            JsonOut.optional(out, "setting", pad.setting());
            out.endObject();
        }
        out.endArray();
        out.name("rules").beginArray();
        for (PatternSpec.Rule rule : type.rules()) {
            writeRule(rule);
        }
        out.endArray().endObject();
    }

    private void names(String member, List<String> names) throws IOException {
        out.name(member).beginArray();
        for (String name : names) {
            out.value(name);
        }
        out.endArray();
    }

    private void writeSite(PatternSpec.SiteGroup site) throws IOException {
        out.beginObject().name("name").value(site.name());
        out.name("count").value(site.count()).name("kind").value(site.kind());
        names("accepts", site.accepts());
        out.name("pins").beginArray();
        for (PatternSpec.PinGroup pin : site.pins()) {
            out.beginObject().name("name").value(pin.name()).name("count").value(pin.count());
            out.name("direction").value(EnumWords.of(pin.direction())).endObject();
        }
        out.endArray();
        out.name("through").beginArray();
        for (PatternSpec.Through route : site.through()) {
            out.beginObject().name("from").value(route.from()).name("to").value(route.to());
            JsonOut.delay(out, "delay_ps", route.delay());
            out.endObject();
        }
        out.endArray().endObject();
    }

    private void writeRule(PatternSpec.Rule rule) throws IOException {
        out.beginObject().name("from").value(rule.from()).name("to").value(rule.to());
        out.name("map");
        writeMap(rule.map());
        if (rule.kind() == EdgeKind.CONNECTION) {
            out.name("connection").value(true);
            JsonOut.delay(out, "delay_ps", rule.delay());
        } else {
            out.name("switch").value(switchName(rule.delay()));
        }
        out.endObject();
    }

    private void writeMap(IndexMap map) throws IOException {
        if (map instanceof IndexMap.Same) {
            out.value("same");
        } else if (map instanceof IndexMap.Mirror) {
            out.value("mirror");
        } else if (map instanceof IndexMap.All) {
            out.value("all");
        } else if (map instanceof IndexMap.ByTopology by) {
            out.value(by.topology().name().toLowerCase(Locale.ROOT));
        } else if (map instanceof IndexMap.Rotate rotate) {
            out.beginObject().name("rotate").value(rotate.places()).endObject();
        } else if (map instanceof IndexMap.Spread spread) {
            out.beginObject().name("spread").value(spread.each());
            out.name("shift").value(spread.shift()).endObject();
        } else if (map instanceof IndexMap.Pairs pairs) {
            out.beginObject().name("pairs").beginArray();
            for (IndexPair pair : pairs.pairs()) {
                out.beginArray().value(pair.from()).value(pair.to()).endArray();
            }
            out.endArray().endObject();
        }
    }

    private void writePadOverrides() throws IOException {
        out.name("pads").beginArray();
        for (PatternSpec.PadOverride pad : spec.padOverrides()) {
            out.beginObject().name("pad").value(pad.pad());
            JsonOut.optional(out, "packagePin", pad.packagePin());
            JsonOut.optional(out, "bank", pad.bank());
            JsonOut.optional(out, "directions", pad.directions().map(EnumWords::of).orElse(""));
            JsonOut.optional(out, "setting", pad.setting());
            PadUseMembers.write(out, pad.use());
            out.endObject();
        }
        out.endArray();
    }
}
