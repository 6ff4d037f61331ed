package padward.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.List;
import java.util.Locale;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.NearbySignal;
import padward.breakout.WhyBlocked;
import padward.breakout.WhyText;
import padward.clearance.Chokepoint;
import padward.clearance.Consequence;
import padward.clearance.Endpoint;
import padward.clearance.Explanation;
import padward.clearance.Removal;
import padward.clearance.Shift;

/** Explanations as JSON, as docs/formats.md describes it. */
final class WhyJson {
    private WhyJson() {}

    static JsonObject object(Answer.Blocked blocked, WhyBlocked why) {
        Explanation explanation = why.explanation();
        JsonObject result = new JsonObject();
        result.addProperty("provenFewest", explanation.provenFewest());
        result.addProperty("atLeast", explanation.atLeast());
        JsonArray chokepoints = new JsonArray();
        explanation.chokepoints().forEach(c -> chokepoints.add(chokepoint(c)));
        result.add("chokepoints", chokepoints);
        JsonArray narrow = new JsonArray();
        explanation.oneOfThese().forEach(o -> narrow.add(AnswerJson.occupant(o)));
        result.add("oneOfThese", narrow);
        JsonArray clearances = new JsonArray();
        why.options().forEach(o -> clearances.add(option(blocked, o)));
        result.add("clearances", clearances);
        return result;
    }

    static JsonObject chokepoint(Chokepoint choke) {
        JsonObject result = new JsonObject();
        result.addProperty("resource", choke.resource());
        result.addProperty("resourceKind", choke.resourceKind());
        choke.holder().ifPresent(h -> result.add("heldBy", AnswerJson.occupant(h)));
        return result;
    }

    private static JsonObject option(Answer.Blocked blocked, WhyBlocked.Option option) {
        JsonObject result = new JsonObject();
        JsonArray obstacles = new JsonArray();
        List<Removal> removals = option.clearance().removals();
        for (int i = 0; i < removals.size(); i++) {
            JsonObject one = AnswerJson.obstacle(option.obstacles().get(i));
            one.addProperty("onEveryWay", removals.get(i).onEveryWay());
            addConsequence(removals.get(i), one);
            one.addProperty("sentence", WhyText.consequence(blocked, removals.get(i)));
            obstacles.add(one);
        }
        result.add("obstacles", obstacles);
        JsonArray edits = new JsonArray();
        option.clearance().edits(blocked.letGo()).forEach(e -> edits.add(e.toText()));
        result.add("edits", edits);
        AnswerJson.addWay(option.way(), result);
        return result;
    }

    private static void addConsequence(Removal removal, JsonObject result) {
        Consequence consequence = removal.consequence();
        if (consequence instanceof Consequence.Spare) {
            result.addProperty("consequence", "spare");
        } else if (consequence instanceof Consequence.Movable movable) {
            result.addProperty("consequence", "movable");
            String means = movable.means().name().toLowerCase(Locale.ROOT).replace('_', '-');
            result.addProperty("means", means);
            JsonArray shifts = new JsonArray();
            movable.shifts().forEach(s -> shifts.add(shift(s)));
            result.add("moved", shifts);
        } else {
            result.addProperty("consequence", "costly");
            JsonArray lost = new JsonArray();
            ((Consequence.Costly) consequence)
                    .lost().stream().map(Endpoint::toText).forEach(lost::add);
            result.add("lost", lost);
        }
    }

    private static JsonObject shift(Shift shift) {
        JsonObject result = new JsonObject();
        result.addProperty("net", shift.net());
        result.addProperty("sink", shift.sink());
        result.add("before_ps", AnswerJson.delay(shift.before()));
        result.add("after_ps", AnswerJson.delay(shift.after()));
        shift.slackBeforePs().ifPresent(s -> result.addProperty("slackBefore_ps", s));
        shift.slackAfterPs().ifPresent(s -> result.addProperty("slackAfter_ps", s));
        return result;
    }

    static JsonObject nearby(NearbySignal signal) {
        JsonObject result = new JsonObject();
        result.addProperty("net", signal.net().name());
        result.addProperty("difference", signal.difference());
        result.addProperty("answer", AnswerText.word(signal.answer()).toLowerCase(Locale.ROOT));
        return result;
    }
}
