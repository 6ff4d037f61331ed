package padward.format.question;

import com.google.gson.stream.JsonToken;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;
import padward.format.json.JsonIn;
import padward.format.source.Source;

/** A question as an object of JSON in one line. */
final class JsonQuestion implements QuestionLines.LineForm {
    private final String source;
    private final Form<Stated> form = form();

    JsonQuestion(String source) {
        this.source = source;
    }

    /** What a line states. */
    private record Stated(
            String id, String net, String pad, Optional<Corner> corner, List<String> whatIf) {}

    private static Form<Stated> form() {
        var question = new Fields<Stated>();
        var id =
                question.optional("id", Kinds.word(), "", Stated::id)
                        .means("what the answer's line calls it");
        var net =
                question.needed("net", Kinds.name(), Stated::net)
                        .means("name of the net, or a pattern with * and ? of several");
        var pad =
                question.needed("pad", Kinds.name(), Stated::pad)
                        .means(
                                "the pad's name of any kind, a pattern of several, `header NAME`,"
                                        + " `bank NAME` or `any`");
        var corner =
                question.maybe(
                                "corner",
                                Kinds.choice(Corner.values(), Corner::label),
                                Stated::corner)
                        .means("at which the route has the shortest delay");
        var whatIf =
                question.optional("whatIf", Kinds.list(Kinds.name()), List.of(), Stated::whatIf)
                        .means("edits in words, as if they were made");
        return question.makes(
                () -> new Stated(id.get(), net.get(), pad.get(), corner.get(), whatIf.get()));
    }

    /** The text of the schema of a line. */
    static String schema() {
        return form().schema().toFile("A question of many, in a line of its own");
    }

    @Override
    public WrittenQuestion read(String line, long number) throws BadInput {
        Source text = new Source.OfText(source + ", line " + number, line);
        try (JsonIn in = new JsonIn(text, Progress.NONE)) {
            Stated stated = form.read(in);
            if (in.peek() != JsonToken.END_DOCUMENT) {
                throw in.fault("one object in each line", "more after it");
            }
            return new WrittenQuestion(
                    number,
                    stated.id(),
                    stated.net(),
                    stated.pad(),
                    stated.corner(),
                    stated.whatIf());
        }
    }
}
