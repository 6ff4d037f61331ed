package padward.cli.output;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.Locale;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.Hop;
import padward.breakout.ask.NoRouteReason;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.survey.PadRank;
import padward.breakout.text.AnswerText;
import padward.design.Occupant;
import padward.fabric.Delay;
import padward.fabric.Fabric;
import padward.unblock.release.DisconnectedBranch;

/** Answers as JSON, as docs/formats.md describes it. */
public final class AnswerJson {
    private static final Gson GSON =
            new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();

    private AnswerJson() {}

    public static String text(Answer answer) {
        return GSON.toJson(object(answer));
    }

    public static String text(JsonObject object) {
        return GSON.toJson(object);
    }

    /** A question whose search was stopped. */
    public static JsonObject undecided(Question question, String sentence) {
        return head(question, "undecided", sentence);
    }

    private static JsonObject head(Question question, String word, String sentence) {
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-answer/1");
        result.addProperty("answer", word);
        result.addProperty("sentence", sentence);
        result.addProperty("net", question.net().name());
        result.addProperty("pad", question.padValue().name());
        result.addProperty("packagePin", question.padValue().packagePin());
        result.addProperty("corner", question.corner().label());
        return result;
    }

    /** One answer. */
    public static JsonObject object(Answer answer) {
        Question question = answer.question();
        Fabric fabric = question.design().fabric();
        JsonObject result =
                head(question, AnswerKind.of(answer).label(), AnswerText.sentence(answer));
        if (answer instanceof Answer.FreeRoute free) {
            addRoute(free.route(), result);
            if (!free.chokepoints().isEmpty()) {
                JsonArray chokepoints = new JsonArray();
                free.chokepoints().forEach(c -> chokepoints.add(WhyJson.chokepoint(c)));
                result.add("chokepoints", chokepoints);
            }
        } else if (answer instanceof Answer.Blocked blocked) {
            JsonArray obstacles = new JsonArray();
            blocked.obstacles().forEach(o -> obstacles.add(obstacle(o)));
            result.add("obstacles", obstacles);
            addRoute(blocked.route(), result);
            blocked.why().ifPresent(w -> result.add("why", WhyJson.object(blocked, w)));
        } else if (answer instanceof Answer.NoRoute noRoute) {
            result.addProperty("reason", word(noRoute.reason()));
            JsonArray nearby = new JsonArray();
            noRoute.nearby().forEach(n -> nearby.add(WhyJson.nearby(n)));
            result.add("nearby", nearby);
        }
        answer.disconnected().ifPresent(l -> result.add("disconnected", disconnected(l, fabric)));
        if (!(answer instanceof Answer.NoRoute)) {
            result.add("price", PriceJson.object(Price.of(answer)));
        }
        PriceJson.addCautions(answer.cautions(), result);
        return result;
    }

    /** One answer of a survey, with its rank. */
    public static JsonObject surveyed(Answer answer) {
        JsonObject result = object(answer);
        PadRank rank = PadRank.of(answer);
        result.addProperty("rank", rank.grade().label());
        result.addProperty("rankReason", rank.reason());
        return result;
    }

    private static String word(NoRouteReason reason) {
        return reason.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static void addRoute(Route route, JsonObject result) {
        result.add("delay_ps", delay(route.total()));
        if (!route.proven()) {
            result.addProperty("proven", false);
        }
        route.setting().ifPresent(s -> result.addProperty("setting", s.name()));
        route.setting().ifPresent(s -> result.add("setting_delay_ps", delay(s.delay())));
        JsonArray hops = new JsonArray();
        route.hops().forEach(h -> hops.add(hop(h)));
        result.add("hops", hops);
    }

    private static JsonObject hop(Hop hop) {
        JsonObject result = new JsonObject();
        result.addProperty("vertex", hop.name());
        result.addProperty("kind", hop.kind().name().toLowerCase(Locale.ROOT));
        result.addProperty("tile", hop.tile());
        result.addProperty("edge", hop.edge().map(e -> e.label()).orElse("driver"));
        result.add("delay_ps", delay(hop.step()));
        result.add("total_ps", delay(hop.total()));
        result.addProperty("onNet", hop.onNet());
        hop.obstacle().ifPresent(o -> result.add("usedBy", occupant(o)));
        return result;
    }

    static JsonObject occupant(Occupant occupant) {
        JsonObject result = new JsonObject();
        result.addProperty("kind", occupant instanceof Occupant.ByCell ? "cell" : "net");
        result.addProperty("name", occupant.name());
        return result;
    }

    static JsonObject obstacle(Obstacle obstacle) {
        JsonObject result = occupant(obstacle.occupant());
        result.addProperty("resource", obstacle.resource());
        result.addProperty("resourceKind", obstacle.resourceKind());
        if (!obstacle.switchOn().isEmpty()) {
            result.addProperty("switchOn", obstacle.switchOn());
        }
        result.addProperty("tile", obstacle.tile());
        result.addProperty("removable", obstacle.removable());
        result.addProperty("wouldLoseSignal", obstacle.wouldLose());
        return result;
    }

    private static JsonObject disconnected(DisconnectedBranch disconnected, Fabric fabric) {
        JsonObject result = new JsonObject();
        result.addProperty("port", disconnected.port().name());
        result.addProperty("net", disconnected.net().name());
        JsonArray vertices = new JsonArray();
        disconnected.vertices().forEach(v -> vertices.add(fabric.vertexName(v)));
        result.add("vertices", vertices);
        return result;
    }

    /** A delay: fast and slow, in picoseconds. */
    public static JsonArray delay(Delay delay) {
        JsonArray result = new JsonArray();
        result.add(delay.fastPs());
        result.add(delay.slowPs());
        return result;
    }
}
