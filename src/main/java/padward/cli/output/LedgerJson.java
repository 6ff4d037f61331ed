package padward.cli.output;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.List;
import padward.breakout.verify.CarryOver;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.DesignDiff;
import padward.breakout.verify.NetDiff;
import padward.breakout.verify.PartDiff;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;

/** The output of the ledger commands as JSON, as docs/formats.md describes it. */
public final class LedgerJson {
    private LedgerJson() {}

    /** An entry, with its number from 1 and its edits in words. */
    public static JsonObject entry(int number, LedgerEntry entry) {
        JsonObject result = new JsonObject();
        result.addProperty("number", number);
        result.addProperty("when", entry.when());
        result.addProperty("who", entry.who());
        result.addProperty("note", entry.note());
        result.addProperty("net", entry.net());
        result.addProperty("pad", entry.pad());
        result.add("edits", edits(entry.edits()));
        JsonArray accepted = new JsonArray();
        for (LedgerEntry.Acceptance one : entry.accepted()) {
            JsonObject acceptance = new JsonObject();
            acceptance.addProperty("what", one.what());
            acceptance.addProperty("who", one.who());
            acceptance.addProperty("when", one.when());
            accepted.add(acceptance);
        }
        result.add("accepted", accepted);
        return result;
    }

    private static JsonArray edits(List<Edit> edits) {
        return texts(edits.stream().map(Edit::toText).toList());
    }

    static JsonArray texts(List<String> texts) {
        JsonArray result = new JsonArray();
        texts.forEach(result::add);
        return result;
    }

    /** Whether an entry fits another run. */
    public static JsonObject outcome(CarryOver.Outcome outcome) {
        JsonObject result = entry(outcome.index() + 1, outcome.entry());
        String word = outcome.fits() ? "fits" : outcome.edits().isEmpty() ? "left-out" : "rerouted";
        result.addProperty("outcome", word);
        result.add("reasons", texts(outcome.reasons()));
        if (!outcome.lines().isEmpty()) {
            JsonArray lines = new JsonArray();
            outcome.lines().forEach(l -> lines.add(line(l)));
            result.add("lines", lines);
        }
        result.add("applied", edits(outcome.edits()));
        result.add("price", PriceJson.object(outcome.price()));
        PriceJson.addShared(outcome.cautions(), result);
        return result;
    }

    private static JsonObject line(CarryOver.Line line) {
        JsonObject result = new JsonObject();
        result.addProperty("net", line.net());
        result.addProperty("pad", line.pad());
        if (line instanceof CarryOver.Line.Found found) {
            result.addProperty("route", "new");
            AnswerJson.addRoute(found.route(), result);
        } else if (line instanceof CarryOver.Line.Left left) {
            result.addProperty("route", "none");
            result.addProperty("reason", left.reason());
        } else {
            result.addProperty("route", "same");
        }
        return result;
    }

    /** The report that nothing else changed. */
    public static JsonObject audit(ChangeAudit report, Fabric fabric) {
        JsonObject result = new JsonObject();
        result.addProperty("nothingElseChanged", report.holds());
        result.addProperty("sentence", report.sentence());
        JsonArray touched = new JsonArray();
        for (ChangeAudit.Touched one : report.touched()) {
            JsonObject part = new JsonObject();
            part.addProperty("kind", one.kind().label());
            part.addProperty("name", one.name());
            part.addProperty("how", one.how().label());
            JsonArray entries = new JsonArray();
            one.entries().forEach(entries::add);
            part.add("entries", entries);
            touched.add(part);
        }
        result.add("touched", touched);
        result.add("unexpected", texts(report.unlisted()));
        result.add("diff", diff(report.diff(), fabric));
        return result;
    }

    /** The differences between two designs. */
    public static JsonObject diff(DesignDiff diff, Fabric fabric) {
        JsonObject result = new JsonObject();
        JsonArray nets = new JsonArray();
        diff.nets().forEach(n -> nets.add(net(n, fabric)));
        result.add("nets", nets);
        result.add("cells", parts(diff.cells()));
        result.add("ports", parts(diff.ports()));
        JsonObject same = new JsonObject();
        same.addProperty("nets", diff.same().nets());
        same.addProperty("steps", diff.same().steps());
        same.addProperty("delays", diff.same().delays());
        same.addProperty("cells", diff.same().cells());
        same.addProperty("ports", diff.same().ports());
        result.add("unchanged", same);
        return result;
    }

    private static JsonObject net(NetDiff net, Fabric fabric) {
        JsonObject result = new JsonObject();
        result.addProperty("name", net.name());
        result.addProperty("how", net.how().label());
        result.add("facts", facts(net.facts()));
        result.add("stepsRemoved", steps(net.stepsGone(), fabric));
        result.add("stepsAdded", steps(net.stepsNew(), fabric));
        JsonArray ends = new JsonArray();
        for (NetDiff.EndDelay end : net.ends()) {
            JsonObject one = new JsonObject();
            one.addProperty("end", end.end());
            end.before().ifPresent(d -> one.add("before_ps", AnswerJson.delay(d)));
            end.after().ifPresent(d -> one.add("after_ps", AnswerJson.delay(d)));
            ends.add(one);
        }
        result.add("ends", ends);
        return result;
    }

    private static JsonArray steps(List<NetDiff.Step> steps, Fabric fabric) {
        JsonArray result = new JsonArray();
        for (NetDiff.Step step : steps) {
            JsonArray pair = new JsonArray();
            pair.add(fabric.vertexName(step.from()));
            pair.add(fabric.vertexName(step.to()));
            result.add(pair);
        }
        return result;
    }

    private static JsonArray parts(List<PartDiff> parts) {
        JsonArray result = new JsonArray();
        for (PartDiff part : parts) {
            JsonObject one = new JsonObject();
            one.addProperty("name", part.name());
            one.addProperty("how", part.how().label());
            one.add("facts", facts(part.facts()));
            result.add(one);
        }
        return result;
    }

    private static JsonArray facts(List<NetDiff.Fact> facts) {
        JsonArray result = new JsonArray();
        for (NetDiff.Fact fact : facts) {
            JsonObject one = new JsonObject();
            one.addProperty("what", fact.what());
            one.addProperty("before", fact.before());
            one.addProperty("after", fact.after());
            result.add(one);
        }
        return result;
    }
}
