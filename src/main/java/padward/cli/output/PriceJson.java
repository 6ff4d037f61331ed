package padward.cli.output;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.Collection;
import java.util.List;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import padward.design.Attachment;
import padward.design.Port;
import padward.unblock.release.Endpoint;

/** Prices and cautions as JSON, the same in every command, as docs/formats.md describes them. */
public final class PriceJson {
    private PriceJson() {}

    /** A price. */
    public static JsonObject object(Price price) {
        JsonObject result = new JsonObject();
        result.addProperty("text", PriceText.sentences(price));
        result.add("losesPad", LedgerJson.texts(price.ports().stream().map(Port::name).toList()));
        JsonArray follows = new JsonArray();
        for (Price.Follower follower : price.follows()) {
            JsonObject one = part(follower.pad(), follower.part());
            one.addProperty("net", follower.net());
            follows.add(one);
        }
        result.add("follows", follows);
        JsonArray drives = new JsonArray();
        price.drives().forEach(d -> drives.add(part(d.pad(), d.part())));
        result.add("drives", drives);
        JsonArray obstacles = new JsonArray();
        for (Price.Cleared cleared : price.obstacles()) {
            JsonObject one = AnswerJson.occupant(cleared.occupant());
            one.addProperty("consequence", cleared.fate().label());
            obstacles.add(one);
        }
        result.add("obstacles", obstacles);
        JsonArray moved = new JsonArray();
        price.moved()
                .forEach(
                        m -> {
                            JsonObject one = new JsonObject();
                            one.addProperty("net", m.net());
                            one.addProperty("sink", m.sink());
                            one.add("before_ps", AnswerJson.delay(m.before()));
                            one.add("after_ps", AnswerJson.delay(m.after()));
                            moved.add(one);
                        });
        result.add("moved", moved);
        List<String> lost = price.lost().stream().map(Endpoint::toText).toList();
        result.add("losesSignal", LedgerJson.texts(lost));
        return result;
    }

    private static JsonObject part(String pad, Attachment part) {
        JsonObject result = new JsonObject();
        result.addProperty("pad", pad);
        result.addProperty("kind", part.kind().label());
        result.addProperty("part", part.name());
        result.addProperty("pin", part.pin());
        return result;
    }

    /** Adds the cautions about one pad, and the line under them. */
    static void addCautions(Collection<Caution> cautions, JsonObject result) {
        JsonArray all = new JsonArray();
        cautions.forEach(c -> all.add(caution(c)));
        result.add("cautions", all);
        result.addProperty("footer", Cautions.FOOTER);
    }

    /** Adds the cautions about several pads, and the line under them. */
    public static void addShared(Collection<Cautions.Shared> cautions, JsonObject result) {
        JsonArray all = new JsonArray();
        for (Cautions.Shared shared : cautions) {
            JsonObject one = caution(shared.caution());
            one.add("pads", LedgerJson.texts(shared.pads()));
            all.add(one);
        }
        result.add("cautions", all);
        result.addProperty("footer", Cautions.FOOTER);
    }

    private static JsonObject caution(Caution caution) {
        JsonObject result = new JsonObject();
        result.addProperty("kind", caution.kind().label());
        result.addProperty("serious", caution.kind().isSerious());
        result.addProperty("text", caution.text());
        return result;
    }
}
