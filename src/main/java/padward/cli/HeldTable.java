package padward.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.stream.Collectors;
import padward.breakout.Held;
import padward.breakout.WhyText;
import padward.design.Design;
import padward.fabric.Corner;

/** A group held in IO registers, as text and as JSON. */
final class HeldTable {
    private HeldTable() {}

    static void print(Design design, Held held, PrintWriter out) {
        out.println();
        out.println(
                "Held in the pads' IO registers by clock "
                        + held.clock().name()
                        + ", one period later:");
        TextTable table =
                new TextTable("net", "pad", "to free", "data arrives", "clock arrives", "");
        for (Held.Line line : held.lines()) {
            boolean can = line.hindrance().isEmpty();
            table.row(
                    line.net().name(),
                    design.fabric().pads().get(line.pad()).name(),
                    line.toFree().stream().map(WhyText::who).collect(Collectors.joining(", ")),
                    can ? line.data().toText() : "",
                    can ? line.clocked().toText() : "",
                    line.hindrance().map(h -> "not possible: " + h).orElse(""));
        }
        table.print(out);
        out.printf(
                Locale.ROOT,
                "Skew that is left at the instrument: %.3f ns both fast, %.3f ns both slow.%n",
                held.skewPs(Corner.FAST) / 1000.0,
                held.skewPs(Corner.SLOW) / 1000.0);
        out.println(
                "An offer only: no cells are placed. The registers need setup and hold times, which"
                        + " the fabric does not state.");
    }

    static JsonObject json(Design design, Held held) {
        JsonObject result = new JsonObject();
        result.addProperty("clock", held.clock().name());
        result.addProperty("possible", held.isPossible());
        result.addProperty("skewFast_ps", held.skewPs(Corner.FAST));
        result.addProperty("skewSlow_ps", held.skewPs(Corner.SLOW));
        JsonArray lines = new JsonArray();
        for (Held.Line line : held.lines()) {
            JsonObject one = new JsonObject();
            one.addProperty("net", line.net().name());
            one.addProperty("pad", design.fabric().pads().get(line.pad()).name());
            JsonArray free = new JsonArray();
            line.toFree().forEach(o -> free.add(WhyText.who(o)));
            one.add("toFree", free);
            line.hindrance().ifPresent(h -> one.addProperty("hindrance", h));
            if (line.hindrance().isEmpty()) {
                one.add("data_ps", AnswerJson.delay(line.data()));
                one.add("clock_ps", AnswerJson.delay(line.clocked()));
                one.add("instrument_ps", AnswerJson.delay(line.atInstrument()));
            }
            lines.add(one);
        }
        result.add("lines", lines);
        return result;
    }
}
