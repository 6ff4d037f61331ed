package padward.cli;

import java.util.Arrays;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Picocli's messages about wrong options, in the form of all other fault messages. */
final class OptionFault {
    private static final Pattern CHOICE =
            Pattern.compile(
                    "(?s)Invalid value for option '([^']*)'[^:]*: expected one of \\[(.*)] "
                            + "\\(case-insensitive\\) but was '(.*)'");
    private static final Pattern NUMBER =
            Pattern.compile(
                    "(?s)Invalid value for option '([^']*)'[^:]*: '(.*)' is not an? "
                            + "(int|long|float|double)");
    private static final Pattern PAIR =
            Pattern.compile(
                    "(?s)Value for option (?:option )?'([^']*)' \\((.*)\\) should be in KEY=VALUE "
                            + "format but was (.*)");

    private OptionFault() {}

    /** The message in Padward's form, or picocli's own. */
    static String describe(String message) {
        Matcher choice = CHOICE.matcher(message);
        if (choice.matches()) {
            // Each choice once, spelled as in the help.
            String choices =
                    Arrays.stream(choice.group(2).split(", "))
                            .map(c -> c.toLowerCase(Locale.ROOT).replace('_', '-'))
                            .distinct()
                            .collect(Collectors.joining(", "));
            return fault(choice.group(1), "one of " + choices, choice.group(3));
        }
        Matcher number = NUMBER.matcher(message);
        if (number.matches()) {
            String kind =
                    switch (number.group(3)) {
                        case "int" -> "a whole number up to " + Integer.MAX_VALUE;
                        case "long" -> "a whole number up to " + Long.MAX_VALUE;
                        default -> "a number";
                    };
            return fault(number.group(1), kind, number.group(2));
        }
        Matcher pair = PAIR.matcher(message);
        return pair.matches() ? fault(pair.group(1), pair.group(2), pair.group(3)) : message;
    }

    private static String fault(String option, String expected, String found) {
        return option + ": expected " + expected + ", found “" + found + "”";
    }
}
