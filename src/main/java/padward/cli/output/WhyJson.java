package padward.cli.output;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.List;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.NearbySignal;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.WhyText;
import padward.unblock.Explanation;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.Endpoint;
import padward.unblock.weigh.Removal;
import padward.unblock.why.Chokepoint;

/** Explanations as JSON, as docs/formats.md describes it. */
final class WhyJson {
    private WhyJson() {}

    static JsonObject object(Answer.Blocked blocked, WhyBlocked why) {
        Explanation explanation = why.explanation();
        JsonObject result = new JsonObject();
        result.addProperty("provenMinimum", explanation.provenFewest());
        result.addProperty("lowerBound", explanation.atLeast());
        JsonArray chokepoints = new JsonArray();
        explanation.chokepoints().forEach(c -> chokepoints.add(chokepoint(c)));
        result.add("chokepoints", chokepoints);
        JsonArray narrow = new JsonArray();
        explanation.oneOfThese().forEach(o -> narrow.add(AnswerJson.occupant(o)));
        result.add("oneOfThese", narrow);
        JsonArray options = new JsonArray();
        why.options().forEach(o -> options.add(option(blocked, o)));
        result.add("options", options);
        return result;
    }

    static JsonObject chokepoint(Chokepoint choke) {
        JsonObject result = new JsonObject();
        result.addProperty("resource", choke.resource());
        result.addProperty("resourceKind", choke.resourceKind());
        choke.occupant().ifPresent(h -> result.add("usedBy", AnswerJson.occupant(h)));
        return result;
    }

    private static JsonObject option(Answer.Blocked blocked, WhyBlocked.Option option) {
        JsonObject result = new JsonObject();
        JsonArray obstacles = new JsonArray();
        List<Removal> removals = option.option().removals();
        for (int i = 0; i < removals.size(); i++) {
            JsonObject one = AnswerJson.obstacle(option.obstacles().get(i));
            one.addProperty("onEveryRoute", removals.get(i).onEveryRoute());
            addConsequence(removals.get(i), one);
            one.addProperty("sentence", WhyText.consequence(blocked, removals.get(i)));
            obstacles.add(one);
        }
        result.add("obstacles", obstacles);
        JsonArray edits = new JsonArray();
        option.option().edits(blocked.disconnected()).forEach(e -> edits.add(e.toText()));
        result.add("edits", edits);
        AnswerJson.addRoute(option.route(), result);
        return result;
    }

    private static void addConsequence(Removal removal, JsonObject result) {
        Consequence consequence = removal.consequence();
        if (consequence instanceof Consequence.Removable) {
            result.addProperty("consequence", "removable");
        } else if (consequence instanceof Consequence.Movable movable) {
            result.addProperty("consequence", "movable");
            result.addProperty("means", word(movable.means()));
            JsonArray delayChanges = new JsonArray();
            movable.delayChanges().forEach(s -> delayChanges.add(delayChange(s)));
            result.add("delayChanges", delayChanges);
        } else {
            result.addProperty("consequence", "loses-function");
            JsonArray lost = new JsonArray();
            ((Consequence.LosesFunction) consequence)
                    .lost().stream().map(Endpoint::toText).forEach(lost::add);
            result.add("wouldLoseSignal", lost);
        }
    }

    private static String word(Consequence.Means means) {
        return switch (means) {
            case REROUTE -> "reroute";
            case RELOCATE -> "relocate";
            case PASS_THROUGH -> "pass-through";
        };
    }

    private static JsonObject delayChange(DelayChange delayChange) {
        JsonObject result = new JsonObject();
        result.addProperty("net", delayChange.net());
        result.addProperty("sink", delayChange.sink());
        result.add("before_ps", AnswerJson.delay(delayChange.before()));
        result.add("after_ps", AnswerJson.delay(delayChange.after()));
        if (delayChange.earlierPs() > 0) {
            result.addProperty("earlierSink", delayChange.earlierSink());
            result.addProperty("earlier_ps", delayChange.earlierPs());
        }
        delayChange.slackBeforePs().ifPresent(s -> result.addProperty("slackBefore_ps", s));
        delayChange.slackAfterPs().ifPresent(s -> result.addProperty("slackAfter_ps", s));
        return result;
    }

    static JsonObject nearby(NearbySignal signal) {
        JsonObject result = new JsonObject();
        result.addProperty("net", signal.net().name());
        result.addProperty("difference", signal.difference());
        result.addProperty("answer", AnswerKind.of(signal.answer()).label());
        return result;
    }
}
