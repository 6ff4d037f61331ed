package padward.ui.question;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.breakout.ask.Answer;

/**
 * Which pads are listed for a typed text: those with all its words, and with a delay below a bound
 * such as {@code < 2.5}.
 */
final class PadFilter {
    private static final Pattern BELOW =
            Pattern.compile("(?:delay\\s*)?<\\s*(\\d+(?:[.,]\\d+)?)(?:\\s*ns)?");
    private static final Pattern VOLTS = Pattern.compile("(\\d+(?:\\.\\d+)?)\\s*v\\b");
    private static final double PS = 1000;

    private final List<String> words;
    private final OptionalDouble below;

    private PadFilter(List<String> words, OptionalDouble below) {
        this.words = List.copyOf(words);
        this.below = below;
    }

    /** Reads a text; an empty one lets all pads through. */
    static PadFilter of(String text) {
        String rest = text.strip().toLowerCase(Locale.ROOT);
        OptionalDouble below = OptionalDouble.empty();
        Matcher bound = BELOW.matcher(rest);
        if (bound.find()) {
            below = OptionalDouble.of(Double.parseDouble(bound.group(1).replace(',', '.')));
            rest = rest.substring(0, bound.start()) + " " + rest.substring(bound.end());
        }
        List<String> words = new ArrayList<>();
        Matcher volts = VOLTS.matcher(rest);
        if (volts.find()) {
            words.add(String.format(Locale.ROOT, "%.1f v", Double.parseDouble(volts.group(1))));
            rest = rest.substring(0, volts.start()) + " " + rest.substring(volts.end());
        }
        if (!rest.isBlank()) {
            String phrase = rest.strip().replaceAll("\\s+", " ");
            // A bank is one word with its name.
            if (phrase.startsWith("bank ")) {
                words.add(phrase);
            } else {
                words.addAll(List.of(phrase.split(" ")));
            }
        }
        return new PadFilter(words, below);
    }

    /**
     * Whether a pad is listed.
     *
     * @param named all that can be found of it
     */
    boolean fits(Answer answer, String named) {
        String all = named.toLowerCase(Locale.ROOT);
        boolean fast =
                below.isEmpty()
                        || answer.findRoute()
                                .filter(r -> r.total().slowPs() < below.getAsDouble() * PS)
                                .isPresent();
        return fast && words.stream().allMatch(all::contains);
    }
}
