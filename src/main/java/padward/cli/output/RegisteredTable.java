package padward.cli.output;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.stream.Collectors;
import padward.breakout.group.RegisteredGroup;
import padward.breakout.text.WhyText;
import padward.design.Design;
import padward.timing.PairSkew;

/** A group registered in IO registers, as text and as JSON. */
public final class RegisteredTable {
    private RegisteredTable() {}

    public static void print(Design design, RegisteredGroup registered, PrintWriter out) {
        out.println();
        out.println(
                "Registered in the pads' IO registers with clock "
                        + registered.clock().name()
                        + ", one period later:");
        TextTable table =
                new TextTable("net", "pad", "remove first", "data arrives", "clock arrives", "");
        for (RegisteredGroup.Line line : registered.lines()) {
            boolean can = line.reason().isEmpty();
            table.row(
                    line.net().name(),
                    design.fabric().pads().get(line.pad()).name(),
                    line.toRemove().stream().map(WhyText::who).collect(Collectors.joining(", ")),
                    can ? line.data().toText() : "",
                    can ? line.clocked().toText() : "",
                    line.reason().map(h -> "not possible: " + h).orElse(""));
        }
        table.print(out);
        registered
                .skew()
                .ifPresent(
                        s ->
                                out.printf(
                                        Locale.ROOT,
                                        "Greatest remaining skew at the instrument: %.3f ns:"
                                                + " %.3f ns at the fast corner, %.3f ns at the slow"
                                                + " corner, ± %.3f ns local variation, ± %.3f ns"
                                                + " package, board and leads.%n",
                                        s.mostPs() / 1000.0,
                                        s.fastPs() / 1000.0,
                                        s.slowPs() / 1000.0,
                                        s.localPs() / 1000.0,
                                        s.outsidePs() / 1000.0));
        out.println(
                "Estimate only: no registers have been placed. Their setup and hold times, "
                        + "which the fabric does not state, must be met.");
    }

    /** The parts of a skew and their sum. */
    static void addSkew(PairSkew skew, JsonObject to) {
        to.addProperty("fast_ps", skew.fastPs());
        to.addProperty("slow_ps", skew.slowPs());
        to.addProperty("local_ps", skew.localPs());
        to.addProperty("outside_ps", skew.outsidePs());
        to.addProperty("most_ps", skew.mostPs());
    }

    static JsonObject json(Design design, RegisteredGroup registered) {
        JsonObject result = new JsonObject();
        result.addProperty("clock", registered.clock().name());
        result.addProperty("possible", registered.isPossible());
        registered
                .skew()
                .ifPresent(
                        s -> {
                            JsonObject skew = new JsonObject();
                            addSkew(s, skew);
                            result.add("skew", skew);
                        });
        JsonArray lines = new JsonArray();
        for (RegisteredGroup.Line line : registered.lines()) {
            JsonObject one = new JsonObject();
            one.addProperty("net", line.net().name());
            one.addProperty("pad", design.fabric().pads().get(line.pad()).name());
            JsonArray remove = new JsonArray();
            line.toRemove().forEach(o -> remove.add(WhyText.who(o)));
            one.add("toRemove", remove);
            line.reason().ifPresent(h -> one.addProperty("reason", h));
            if (line.reason().isEmpty()) {
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
