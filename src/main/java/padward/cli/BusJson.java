package padward.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import padward.breakout.Bus;
import padward.design.Design;
import padward.timing.Outside;

/** A group as JSON, as docs/formats.md describes it. */
final class BusJson {
    private BusJson() {}

    static JsonObject object(Design design, Bus bus, Outside outside) {
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-bus/1");
        JsonArray lines = new JsonArray();
        bus.lines().forEach(l -> lines.add(line(design, l, outside)));
        result.add("lines", lines);
        JsonArray left = new JsonArray();
        for (Bus.Left one : bus.left()) {
            JsonObject net = new JsonObject();
            net.addProperty("net", one.net().name());
            net.addProperty("reason", one.reason());
            left.add(net);
        }
        result.add("left", left);
        JsonArray skews = new JsonArray();
        bus.skews().forEach(s -> skews.add(skew(s)));
        result.add("skews", skews);
        result.addProperty("total_ps", bus.totalPs());
        result.addProperty("alone_ps", bus.alonePs());
        JsonArray edits = new JsonArray();
        bus.edits().forEach(e -> edits.add(e.toText()));
        result.add("edits", edits);
        return result;
    }

    private static JsonObject line(Design design, Bus.Line line, Outside outside) {
        JsonObject result = new JsonObject();
        result.addProperty("net", line.net().name());
        result.addProperty("pad", Bus.padOf(design, line).name());
        result.add(
                "instrument_ps",
                AnswerJson.delay(line.way().total().plus(outside.delay(design, line.pad()))));
        AnswerJson.addWay(line.way(), result);
        return result;
    }

    private static JsonObject skew(Bus.Skew skew) {
        JsonObject result = new JsonObject();
        result.addProperty("one", skew.one().net().name());
        result.addProperty("other", skew.other().net().name());
        result.addProperty("fast_ps", skew.fastPs());
        result.addProperty("slow_ps", skew.slowPs());
        result.addProperty("across_ps", skew.acrossPs());
        return result;
    }
}
