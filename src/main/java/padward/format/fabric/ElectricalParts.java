package padward.format.fabric;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.AtCorners;
import padward.fabric.Delay;
import padward.fabric.Electrical;
import padward.fabric.Electrical.SwitchLoad;
import padward.fabric.Electrical.WireLoad;
import padward.fabric.PadDriverOutput;
import padward.format.json.JsonIn;
import padward.format.json.JsonOut;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Shape;
import padward.format.source.FileLimits;

/** Reads and writes resistances, capacitances and the output data of drivers. */
final class ElectricalParts {
    private static final List<String> WORDS =
            List.of(Electrical.PIN, Electrical.PAD, Electrical.ANY);
    private static final Shape BOTH = Shape.of("wires", "switches");
    private static final Shape WIRE = Shape.of("wire!", "ohms!", "femtofarads!");
    private static final Shape SWITCH =
            Shape.of("from!", "to!", "buffered", "ohms!", "femtofarads!");
    private static final Shape OUTPUT = Shape.of("rated_pf!", "rise_ps!", "ohms!", "most_mhz");

    private final Optional<Names> wireKinds;

    /**
     * @param wireKinds the kinds of wire that may be named; empty when any may
     */
    ElectricalParts(Optional<Names> wireKinds) {
        this.wireKinds = wireKinds;
    }

    Electrical read(JsonIn in) throws BadInput {
        List<WireLoad> wires = List.of();
        List<SwitchLoad> switches = List.of();
        Members member = in.object(BOTH);
        while (member.next()) {
            switch (member.name()) {
                case "wires" -> wires = in.list(this::readWire);
                default -> switches = in.list(this::readSwitch);
            }
        }
        return new Electrical(wires, switches);
    }

    private WireLoad readWire(JsonIn in) throws BadInput {
        String wire = "";
        AtCorners ohms = AtCorners.ZERO;
        AtCorners farads = AtCorners.ZERO;
        Members member = in.object(WIRE);
        while (member.next()) {
            switch (member.name()) {
                case "wire" -> wire = kind(in, false);
                case "ohms" -> ohms = pair(in);
                default -> farads = pair(in);
            }
        }
        return new WireLoad(wire, ohms, farads);
    }

    private SwitchLoad readSwitch(JsonIn in) throws BadInput {
        String from = "";
        String to = "";
        boolean buffered = true;
        AtCorners ohms = AtCorners.ZERO;
        AtCorners farads = AtCorners.ZERO;
        Members member = in.object(SWITCH);
        while (member.next()) {
            switch (member.name()) {
                case "from" -> from = kind(in, true);
                case "to" -> to = kind(in, true);
                case "buffered" -> buffered = in.flag();
                case "ohms" -> ohms = pair(in);
                default -> farads = pair(in);
            }
        }
        return new SwitchLoad(from, to, buffered, ohms, farads);
    }

    private String kind(JsonIn in, boolean wordsToo) throws BadInput {
        String kind = in.name();
        boolean word = wordsToo && WORDS.contains(kind);
        if (!word && wireKinds.isPresent() && wireKinds.get().number(kind).isEmpty()) {
            throw Names.unknown(in, "kind of wire", kind, wireKinds.get()::stream);
        }
        return kind;
    }

    /** {@code [fast, slow]}. */
    private static AtCorners pair(JsonIn in) throws BadInput {
        in.beginArray();
        int fast = in.integer(0, FileLimits.OHMS);
        int slow = in.integer(0, FileLimits.OHMS);
        if (fast > slow) {
            throw in.fault("a slow value of at least the fast one, " + fast, "" + slow);
        }
        in.endArray();
        return new AtCorners(fast, slow);
    }

    static PadDriverOutput readOutput(JsonIn in) throws BadInput {
        double rated = 0;
        Delay rise = Delay.ZERO;
        AtCorners ohms = AtCorners.ZERO;
        int most = 0;
        Members member = in.object(OUTPUT);
        while (member.next()) {
            switch (member.name()) {
                case "rated_pf" -> rated = in.real(0, FileLimits.LOAD_PF);
                case "rise_ps" -> rise = in.delay();
                case "ohms" -> ohms = pair(in);
                default -> most = in.integer(1, FileLimits.ELECTRIC);
            }
        }
        return new PadDriverOutput(rated, rise, ohms, most);
    }

    static void write(JsonWriter out, Electrical electrical) throws IOException {
        if (electrical.isUnknown()) {
            return;
        }
        out.name("electrical").beginObject();
        out.name("wires").beginArray();
        for (WireLoad wire : electrical.wires()) {
            out.beginObject().name("wire").value(wire.wire());
            write(out, wire.ohms(), wire.femtofarads());
            out.endObject();
        }
        out.endArray().name("switches").beginArray();
        for (SwitchLoad one : electrical.switches()) {
            out.beginObject().name("from").value(one.from()).name("to").value(one.to());
            out.name("buffered").value(one.buffered());
            write(out, one.ohms(), one.femtofarads());
            out.endObject();
        }
        out.endArray().endObject();
    }

    private static void write(JsonWriter out, AtCorners ohms, AtCorners farads) throws IOException {
        JsonOut.pair(out, "ohms", ohms.fast(), ohms.slow());
        JsonOut.pair(out, "femtofarads", farads.fast(), farads.slow());
    }

    static void write(JsonWriter out, Optional<PadDriverOutput> output) throws IOException {
        if (output.isEmpty()) {
            return;
        }
        out.name("output").beginObject();
        out.name("rated_pf").value(output.get().ratedPf());
        JsonOut.delay(out, "rise_ps", output.get().rise());
        JsonOut.pair(out, "ohms", output.get().ohms().fast(), output.get().ohms().slow());
        if (output.get().mostMhz() > 0) {
            out.name("most_mhz").value(output.get().mostMhz());
        }
        out.endObject();
    }
}
