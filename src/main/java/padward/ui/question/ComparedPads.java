package padward.ui.question;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Price;
import padward.breakout.survey.PadRank;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.design.Port;

/**
 * Several pads for one net side by side, as the rows of a table.
 *
 * @param answers the answers for the pads
 */
record ComparedPads(List<Answer> answers) {
    private static final String NOTHING = "nothing";
    private static final String NONE = "none";

    ComparedPads {
        answers = List.copyOf(answers);
    }

    /**
     * One row.
     *
     * @param what what is compared
     * @param values its value for each pad
     */
    record Row(String what, List<String> values) {
        Row {
            values = List.copyOf(values);
        }

        /** Whether the pads do not all have the same. */
        boolean differs() {
            return values.stream().distinct().count() > 1;
        }
    }

    /** The head of a pad's column: its pin, and where a lead can be put. */
    static String head(Answer answer) {
        String pin = answer.question().padValue().packagePin();
        String lead = PadFacts.leadPlace(answer);
        String name = pin.isEmpty() ? answer.question().padValue().name() : pin;
        return lead.isEmpty() ? name : name + ", " + lead;
    }

    /** The rows, what decides first. */
    List<Row> rows() {
        List<Row> rows = new ArrayList<>();
        add(rows, "answer", "", AnswerText::word);
        add(rows, "delay, ns", NONE, PadFacts::delay);
        add(rows, "price", "", a -> PriceText.sentences(Price.of(a)));
        add(
                rows,
                "what follows",
                NOTHING,
                a ->
                        Price.of(a).follows().stream()
                                .map(f -> f.part().toShortText())
                                .collect(Collectors.joining(", ")));
        add(
                rows,
                "what drives it",
                NOTHING,
                a ->
                        Price.of(a).drives().stream()
                                .map(d -> d.part().toShortText())
                                .collect(Collectors.joining(", ")));
        add(rows, "obstacles", NONE, AnswerText::obstacleNames);
        add(rows, "rank", "", a -> PadRank.of(a).reason());
        add(rows, "header pin", NONE, PadFacts::leadPlace);
        add(rows, "bank, supply", "unknown", PadFacts::bank);
        add(rows, "port there", NONE, a -> PadFacts.port(a).map(Port::name).orElse(""));
        add(rows, "on the board", NOTHING, a -> AnswerText.onBoard(a.question()));
        add(rows, "pin", NONE, a -> a.question().padValue().packagePin());
        add(rows, "pad", "", a -> a.question().padValue().name());
        return rows;
    }

    private void add(List<Row> rows, String what, String empty, Function<Answer, String> value) {
        rows.add(
                new Row(
                        what,
                        answers.stream()
                                .map(value)
                                .map(text -> text.isBlank() ? empty : text)
                                .toList()));
    }
}
