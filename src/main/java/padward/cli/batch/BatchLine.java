package padward.cli.batch;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonObject;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Question;
import padward.breakout.text.WhyText;
import padward.cli.output.AnswerJson;
import padward.format.question.WrittenQuestion;

/** The lines that a run of many questions prints, as docs/formats.md describes them. */
final class BatchLine {
    private static final Gson GSON = new GsonBuilder().disableHtmlEscaping().create();

    private BatchLine() {}

    private static JsonObject head(long line, String id) {
        JsonObject result = new JsonObject();
        result.addProperty("line", line);
        if (!id.isEmpty()) {
            result.addProperty("id", id);
        }
        return result;
    }

    /** A question that could not be asked. */
    static String fault(long line, String id, BadInput fault) {
        JsonObject error = new JsonObject();
        error.addProperty("source", fault.source());
        if (!fault.place().isEmpty()) {
            error.addProperty("place", fault.place());
        }
        error.addProperty("expected", fault.expected());
        error.addProperty("found", fault.found());
        JsonObject result = head(line, id);
        result.add("error", error);
        return GSON.toJson(result);
    }

    /** An answer. */
    static String answer(WrittenQuestion written, Answer answer, boolean brief) {
        JsonObject result = head(written.line(), written.id());
        result.add("answer", brief ? brief(answer) : AnswerJson.object(answer));
        return GSON.toJson(result);
    }

    /** A question whose search was stopped. */
    static String undecided(WrittenQuestion written, Question question) {
        String sentence = "Undecided: the search was stopped before it had an answer.";
        JsonObject result = head(written.line(), written.id());
        result.add("answer", AnswerJson.undecided(question, sentence));
        return GSON.toJson(result);
    }

    private static JsonObject brief(Answer answer) {
        Question question = answer.question();
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-brief-answer/1");
        result.addProperty("answer", AnswerKind.of(answer).label());
        result.addProperty("net", question.net().name());
        result.addProperty("pad", question.padValue().name());
        result.addProperty("corner", question.corner().label());
        answer.findRoute().ifPresent(r -> result.add("delay_ps", AnswerJson.delay(r.total())));
        question.losingPort().ifPresent(p -> result.addProperty("losesPad", p.name()));
        if (answer instanceof Answer.Blocked blocked) {
            result.add(
                    "obstacles",
                    AnswerJson.texts(
                            blocked.obstacles().stream().map(BatchLine::occupant).toList()));
        } else if (answer instanceof Answer.NoRoute none) {
            result.addProperty("reason", AnswerJson.word(none.reason()));
        }
        return result;
    }

    private static String occupant(Obstacle obstacle) {
        return WhyText.who(obstacle.occupant());
    }
}
