package padward.ui.question;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import padward.base.Decimals;
import padward.base.Volts;
import padward.breakout.ask.Answer;

/**
 * Which pads are listed for a typed text: those with all its words, of the bank that it names, and
 * with a delay below a bound such as {@code < 2.5}. Blanks and commas separate words.
 */
final class PadFilter {
    private static final Pattern BELOW =
            Pattern.compile("(?:delay\\s*)?<\\s*(\\d+(?:[.,]\\d+)*)(?:\\s*ns)?");
    private static final Pattern BANK = Pattern.compile("(?<![^\\s,])bank\\s+([^\\s,]+)");
    private static final Pattern VOLTS = Pattern.compile("(\\d+(?:\\.\\d+)?)\\s*v\\b");
    private static final double PS = 1000;

    private final List<String> words;
    private final Optional<String> bank;
    private final OptionalDouble below;
    private final String fault;

    private PadFilter(
            List<String> words, Optional<String> bank, OptionalDouble below, String fault) {
        this.words = List.copyOf(words);
        this.bank = bank;
        this.below = below;
        this.fault = fault;
    }

    /** Reads a text; an empty one lets all pads through. */
    static PadFilter of(String text) {
        String rest = text.strip().toLowerCase(Locale.ROOT);
        OptionalDouble below = OptionalDouble.empty();
        String fault = "";
        Matcher bound = BELOW.matcher(rest);
        if (bound.find()) {
            Optional<BigDecimal> ns = Decimals.typed(bound.group(1));
            if (ns.isEmpty()) {
                String expected =
                        Decimals.mayMeanThousands(bound.group(1)) ? Decimals.POINT : "a number";
                fault = "Expected " + expected + ", found “" + bound.group(1) + "”.";
            }
            below = ns.stream().mapToDouble(BigDecimal::doubleValue).findFirst();
            rest = rest.substring(0, bound.start()) + " " + rest.substring(bound.end());
        }
        // With its name at once, so that bank 1 does not list bank 10.
        Optional<String> bank = Optional.empty();
        Matcher named = BANK.matcher(rest);
        if (named.find()) {
            bank = Optional.of(named.group(1));
            rest = rest.substring(0, named.start()) + " " + rest.substring(named.end());
        }
        List<String> words = new ArrayList<>();
        Matcher volts = VOLTS.matcher(rest);
        if (volts.find()) {
            long millivolts = Math.round(Double.parseDouble(volts.group(1)) * 1000);
            words.add(Volts.text(millivolts).toLowerCase(Locale.ROOT));
            rest = rest.substring(0, volts.start()) + " " + rest.substring(volts.end());
        }
        Stream.of(rest.split("[\\s,]+")).filter(w -> !w.isEmpty()).forEach(words::add);
        return new PadFilter(words, bank, below, fault);
    }

    /** What is wrong with a number in the text, as a sentence; empty when nothing is. */
    String fault() {
        return fault;
    }

    /**
     * Whether a pad is listed; none is while a number is wrong.
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
        String ofPad = answer.question().padValue().bank();
        return fault.isEmpty()
                && fast
                && bank.filter(b -> !b.equalsIgnoreCase(ofPad)).isEmpty()
                && words.stream().allMatch(all::contains);
    }
}
