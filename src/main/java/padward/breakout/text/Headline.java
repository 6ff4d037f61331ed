package padward.breakout.text;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Price;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.design.board.Attachment;

/** Answers in one line: to which pad, what is in the way, the delay, the price. */
public final class Headline {
    private Headline() {}

    /** The line for an answer; of a blocked one, for its best option to unblock. */
    public static String of(Answer answer) {
        if (answer instanceof Answer.FreeRoute free) {
            return free(free);
        }
        if (answer instanceof Answer.Blocked blocked) {
            return blocked(blocked, blocked.route(), Price.of(answer));
        }
        return noRoute((Answer.NoRoute) answer);
    }

    /** The line for a blocked answer with one of its options to unblock. */
    public static String of(Answer.Blocked blocked, WhyBlocked.Option option) {
        return blocked(
                blocked, option.route(), Price.of(blocked.question(), option.option().removals()));
    }

    /** The line for any of several pads, best first: how many of them are open, and the best. */
    public static String ofAny(List<Answer> answers) {
        long open = answers.stream().filter(a -> a instanceof Answer.Open).count();
        String count = answers.size() == 1 ? "1 pad" : answers.size() + " pads";
        String best =
                answers.stream()
                        .findFirst()
                        .map(a -> "; best: " + AnswerText.word(a) + " " + of(a))
                        .orElse("");
        return count + ", " + open + " open" + best + ". Choose one under Routes out.";
    }

    private static String free(Answer.FreeRoute free) {
        String pad = AnswerText.padText(free.question());
        String delay = free.route().total().toText();
        return AnswerEdits.isThere(free)
                ? "already on " + pad + ", " + delay + " after its driver"
                : "to " + pad + " in " + delay + price(Price.of(free));
    }

    private static String blocked(Answer.Blocked blocked, Route route, Price price) {
        return "to "
                + AnswerText.padText(blocked.question())
                + " by "
                + obstacles(price)
                + "; once unblocked, "
                + route.total().toText()
                + price(price);
    }

    /** How many obstacles of which kind: {@code 3 obstacles (2 movable, 1 removable)}. */
    private static String obstacles(Price price) {
        Map<Price.Fate, Integer> counts = new EnumMap<>(Price.Fate.class);
        price.obstacles().forEach(o -> counts.merge(o.fate(), 1, Integer::sum));
        int all = price.obstacles().size();
        String count = all == 1 ? "1 obstacle" : all + " obstacles";
        if (counts.size() == 1) {
            String word = word(counts.keySet().iterator().next());
            return count + (all == 1 ? " (" : " (all ") + word + ")";
        }
        return count
                + counts.entrySet().stream()
                        .map(e -> e.getValue() + " " + word(e.getKey()))
                        .collect(Collectors.joining(", ", " (", ")"));
    }

    private static String word(Price.Fate fate) {
        return switch (fate) {
            case REMOVABLE -> "removable";
            case MOVABLE -> "movable";
            case LOSES_FUNCTION -> "loses function";
            case NOT_EXAMINED -> "not examined";
        };
    }

    private static String price(Price price) {
        List<String> parts = new ArrayList<>();
        price.drives().forEach(d -> parts.add(name(d.part()) + " drives the pad"));
        price.follows().forEach(f -> parts.add(name(f.part()) + " follows"));
        price.ports().forEach(p -> parts.add("port " + p.name() + " loses its pad"));
        return parts.stream().map(p -> "; " + p).collect(Collectors.joining());
    }

    private static String name(Attachment part) {
        return part.pin().isEmpty() ? part.name() : part.name() + " pin " + part.pin();
    }

    private static String noRoute(Answer.NoRoute none) {
        String pad = AnswerText.padText(none.question());
        String related =
                none.nearby().isEmpty()
                        ? ""
                        : none.nearby().size() == 1
                                ? "; 1 related signal has one"
                                : "; " + none.nearby().size() + " related signals have one";
        return "to " + pad + ": " + because(none) + related;
    }

    private static String because(Answer.NoRoute none) {
        return switch (none.reason()) {
            case INPUT_ONLY_PAD -> "it is input-only";
            case NO_FITTING_SETTING -> "no driver setting fits the voltage of its bank";
            case OWN_DRIVER_ON_ENABLE -> "the net's own driver switches the pad on and off";
            case LOCKED -> "cells or nets that are locked are in the way";
            case UNUSABLE_ON_ROUTE -> "every route needs something unusable";
            case NEVER_LEAVES_ITS_SITE -> "the net is internal to its site";
            case CLOCK_WIRES_ONLY -> "the clock runs on clock wires only";
            case DEDICATED_WIRES -> "the net reaches dedicated wires only";
            case NOTHING_LEADS_TO_PAD -> "no wire leads there";
            case PAD_OUT_OF_REACH -> "not even on an empty fabric";
            case OWN_PASS_THROUGH -> "each route needs a site that the net itself passes through";
            case SWITCHES_EXCLUDE ->
                    none.detail().isEmpty()
                            ? "all routes need two switches that exclude each other"
                            : "none was found without two switches that exclude each other";
        };
    }
}
