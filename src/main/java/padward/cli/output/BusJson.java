package padward.cli.output;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.Optional;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.group.Bus;
import padward.breakout.group.MatchedGroup;
import padward.breakout.group.RegisteredGroup;
import padward.breakout.group.UnblockedGroup;
import padward.breakout.text.WhyText;
import padward.change.Outcome;
import padward.design.Design;
import padward.timing.ExternalLine;
import padward.timing.SinkDelayChange;

/** A group as JSON, as docs/formats.md describes it. */
public final class BusJson {
    private BusJson() {}

    /**
     * The group.
     *
     * @param done whether what had to be removed for it was removed
     * @param recorded what changes: the group, or the one of its registers' nets
     */
    public static JsonObject object(
            Design design,
            Bus bus,
            Bus recorded,
            Optional<UnblockedGroup> unblocked,
            boolean done,
            Optional<MatchedGroup> matched,
            Optional<RegisteredGroup> registered,
            ExternalLine external,
            double localPercent) {
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-bus/1");
        JsonArray lines = new JsonArray();
        Optional<UnblockedGroup> applied = unblocked.filter(u -> done);
        for (Bus.Line line : bus.lines()) {
            JsonObject one = line(design, line, external);
            Price price =
                    applied.map(u -> u.price(design, line))
                            .orElseGet(() -> Price.ofPad(Bus.question(design, line)));
            one.add("price", PriceJson.object(price));
            lines.add(one);
        }
        result.add("lines", lines);
        JsonArray left = new JsonArray();
        for (Bus.Left one : bus.left()) {
            JsonObject net = new JsonObject();
            net.addProperty("net", one.net().name());
            net.addProperty("reason", one.reason());
            left.add(net);
        }
        result.add("notServed", left);
        bus.proof().ifPresent(p -> result.add("proof", proof(design, p)));
        JsonArray skews = new JsonArray();
        bus.skews(design, external, localPercent).forEach(s -> skews.add(skew(s)));
        result.add("skews", skews);
        result.addProperty("total_ps", bus.totalPs());
        result.addProperty("lowerBound_ps", bus.alonePs());
        Price price = applied.map(u -> u.price(design)).orElseGet(() -> bus.price(design));
        result.add("price", PriceJson.object(price));
        unblocked.ifPresent(c -> result.add("unblocked", unblocked(design, c)));
        registered.ifPresent(h -> result.add("registered", RegisteredTable.json(design, h)));
        matched.ifPresent(m -> result.add("matched", matched(design, m)));
        result.add("delayChanges", delayChanges(design, recorded));
        JsonArray edits = new JsonArray();
        recorded.edits().forEach(e -> edits.add(e.toText()));
        result.add("edits", edits);
        PriceJson.addShared(Cautions.ofEdits(design, recorded.edits()), result);
        return result;
    }

    private static JsonObject proof(Design design, Bus.Proof proof) {
        JsonObject result = new JsonObject();
        result.addProperty("most", true);
        proof.bottleneck()
                .ifPresent(
                        b -> {
                            JsonArray nets = new JsonArray();
                            b.nets().forEach(n -> nets.add(n.name()));
                            JsonArray resources = new JsonArray();
                            b.vertices().forEach(v -> resources.add(design.fabric().vertexName(v)));
                            result.add("nets", nets);
                            result.add("pass", resources);
                        });
        return result;
    }

    private static JsonObject line(Design design, Bus.Line line, ExternalLine external) {
        JsonObject result = new JsonObject();
        result.addProperty("net", line.net().name());
        result.addProperty("pad", Bus.padOf(design, line).name());
        result.add("instrument_ps", AnswerJson.delay(line.atInstrument(design, external)));
        AnswerJson.addRoute(line.route(), result);
        return result;
    }

    private static JsonObject unblocked(Design design, UnblockedGroup unblocked) {
        JsonObject result = new JsonObject();
        result.addProperty("served", unblocked.bus().lines().size());
        result.addProperty("provenMinimum", unblocked.provenMinimum());
        result.addProperty("lowerBound", unblocked.lowerBound());
        JsonArray all = new JsonArray();
        for (UnblockedGroup.Removed removed : unblocked.removed()) {
            JsonObject one = new JsonObject();
            one.addProperty("occupant", WhyText.who(removed.removal().occupant()));
            one.addProperty("net", removed.blocked().question().net().name());
            one.addProperty("pad", removed.blocked().question().padValue().name());
            one.addProperty("sentence", WhyText.consequence(removed.blocked(), removed.removal()));
            all.add(one);
        }
        result.add("removed", all);
        result.add("price", PriceJson.object(unblocked.price(design)));
        return result;
    }

    private static JsonObject matched(Design design, MatchedGroup matched) {
        JsonObject result = new JsonObject();
        result.addProperty("tolerance_ps", matched.tolerancePs());
        result.addProperty("before_ps", matched.beforePs());
        result.addProperty("after_ps", matched.afterPs());
        result.addProperty("uncertain_ps", matched.uncertainPs());
        JsonArray misses = new JsonArray();
        for (MatchedGroup.Miss miss : matched.misses()) {
            JsonObject one = new JsonObject();
            one.addProperty("net", miss.line().net().name());
            one.addProperty("pad", Bus.padOf(design, miss.line()).name());
            one.addProperty("proven", miss.proven());
            misses.add(one);
        }
        result.add("notMatched", misses);
        return result;
    }

    private static JsonArray delayChanges(Design design, Bus bus) {
        JsonArray result = new JsonArray();
        if (design.fabric().info().electrical().isUnknown()) {
            return result;
        }
        for (SinkDelayChange delayChange :
                SinkDelayChange.between(design, Outcome.apply(design, bus.edits()))) {
            JsonObject one = new JsonObject();
            one.addProperty("net", delayChange.net());
            one.addProperty("sink", delayChange.sink());
            one.add("before_ps", AnswerJson.delay(delayChange.before()));
            one.add("after_ps", AnswerJson.delay(delayChange.after()));
            delayChange.slackBeforePs().ifPresent(s -> one.addProperty("slackBefore_ps", s));
            delayChange.slackAfterPs().ifPresent(s -> one.addProperty("slackAfter_ps", s));
            result.add(one);
        }
        return result;
    }

    private static JsonObject skew(Bus.Skew skew) {
        JsonObject result = new JsonObject();
        result.addProperty("one", skew.one().net().name());
        result.addProperty("other", skew.other().net().name());
        RegisteredTable.addSkew(skew.skew(), result);
        return result;
    }
}
