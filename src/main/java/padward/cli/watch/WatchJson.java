package padward.cli.watch;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.List;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.change.Edit;
import padward.cli.output.AnswerJson;
import padward.cli.output.PriceJson;
import padward.fabric.Delay;
import padward.timing.SinkDelayChange;
import padward.watch.circuit.Circuit;
import padward.watch.place.WatchResult;
import padward.watch.place.WatchText;
import padward.watch.place.WatchTiming;

/** What came of a watch circuit as JSON, as docs/formats.md describes it. */
final class WatchJson {
    private WatchJson() {}

    static JsonObject object(WatchResult result) {
        JsonObject object = new JsonObject();
        Circuit circuit = result.question().circuit();
        object.addProperty("format", "padward-watch/1");
        object.addProperty("circuit", circuit.name());
        object.addProperty("function", circuit.function());
        object.addProperty("fits", result instanceof WatchResult.Placed);
        object.addProperty("sentence", WatchText.sentence(result));
        object.addProperty("latency", circuit.latency());
        object.add("clocks", texts(List.copyOf(circuit.clocks())));
        if (result instanceof WatchResult.DoesNotFit not) {
            object.addProperty("reason", not.reason().label());
            object.addProperty("proven", not.proven());
        } else {
            add((WatchResult.Placed) result, object);
        }
        return object;
    }

    private static void add(WatchResult.Placed placed, JsonObject object) {
        JsonArray cells = new JsonArray();
        for (WatchResult.PlacedCell cell : placed.cells()) {
            JsonObject one = new JsonObject();
            one.addProperty("name", cell.cell());
            one.addProperty("kind", cell.kind());
            one.addProperty("site", cell.site());
            cells.add(one);
        }
        object.add("cells", cells);
        JsonArray outputs = new JsonArray();
        for (WatchResult.Leg leg : placed.legs()) {
            JsonObject one = new JsonObject();
            one.addProperty("output", leg.output());
            one.add("answer", AnswerJson.object(leg.answer()));
            outputs.add(one);
        }
        object.add("outputs", outputs);
        JsonArray delays = new JsonArray();
        for (WatchTiming.Arrival arrival : placed.timing().arrivals()) {
            delays.add(delay("net", arrival.net(), arrival.end(), arrival.delay()));
        }
        for (WatchTiming.ClockUse clock : placed.timing().clocks()) {
            for (WatchTiming.ToPad pad : clock.toPads()) {
                delays.add(delay("clock", clock.net(), "pad " + pad.pad(), pad.delay()));
            }
        }
        object.add("delays", delays);
        JsonArray arrivals = new JsonArray();
        for (WatchTiming.ClockUse clock : placed.timing().clocks()) {
            JsonObject one = new JsonObject();
            one.addProperty("clock", clock.net());
            one.add("here_ps", AnswerJson.delay(clock.arrival()));
            one.add("elsewhere_ps", AnswerJson.delay(clock.elsewhere()));
            arrivals.add(one);
        }
        object.add("clockArrivals", arrivals);
        JsonArray loads = new JsonArray();
        for (SinkDelayChange change : placed.loads()) {
            JsonObject one = new JsonObject();
            one.addProperty("net", change.net());
            one.addProperty("sink", change.sink());
            one.add("before_ps", AnswerJson.delay(change.before()));
            one.add("after_ps", AnswerJson.delay(change.after()));
            loads.add(one);
        }
        object.add("loads", loads);
        object.add("edits", texts(placed.edits().stream().map(Edit::toText).toList()));
        object.add("notes", texts(WatchText.cautions(placed)));
        object.add(
                "price",
                PriceJson.object(Price.ofPads(placed.question().design(), placed.edits())));
        PriceJson.addShared(Cautions.ofEdits(placed.question().design(), placed.edits()), object);
    }

    private static JsonObject delay(String what, String from, String to, Delay delay) {
        JsonObject one = new JsonObject();
        one.addProperty(what, from);
        one.addProperty("to", to);
        one.add("delay_ps", AnswerJson.delay(delay));
        return one;
    }

    private static JsonArray texts(List<String> texts) {
        JsonArray result = new JsonArray();
        texts.forEach(result::add);
        return result;
    }
}
