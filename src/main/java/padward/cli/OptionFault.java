package padward.cli;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import padward.base.Decimals;
import padward.base.NearestName;
import picocli.CommandLine;

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
    private static final Pattern COMMA =
            Pattern.compile("(?s)Invalid value for option '([^']*)'[^:]*: '(.*)' has a comma");
    private static final Pattern PAIR =
            Pattern.compile(
                    "(?s)Value for option (?:option )?'([^']*)' \\((.*)\\) should be in KEY=VALUE "
                            + "format but was (.*)");

    private static final Pattern EXCLUSIVE =
            Pattern.compile("(?s)Error: (.*) are mutually exclusive \\(specify only one\\)");

    private static final Pattern UNMATCHED = Pattern.compile("(?s)Unmatched argument.*|Unknown .*");

    private OptionFault() {}

    /** A number with a point, or with a comma that can only be one. */
    static double number(String text) {
        if (Decimals.mayMeanThousands(text)) {
            throw new CommandLine.TypeConversionException("'" + text + "' has a comma");
        }
        try {
            return Decimals.typed(text)
                    .map(BigDecimal::doubleValue)
                    .orElseGet(() -> Double.valueOf(text));
        } catch (NumberFormatException wrong) {
            throw new CommandLine.TypeConversionException("'" + text + "' is not a double");
        }
    }

    /**
     * The message in Padward's form, or picocli's own.
     *
     * @param words all words of the command line
     */
    static String describe(CommandLine.ParameterException fault, String[] words) {
        String message = fault.getMessage();
        boolean unmatched = fault instanceof CommandLine.UnmatchedArgumentException;
        boolean missing = fault instanceof CommandLine.MissingParameterException;
        if (unmatched || missing || UNMATCHED.matcher(message).matches()) {
            // What is missing may only be misspelt, and a word too many may be its value.
            Optional<String> strange = strangeWord(fault, words);
            if (strange.isPresent()) {
                return strange.get();
            }
        }
        return describe(message);
    }

    private static Optional<String> strangeWord(
            CommandLine.ParameterException fault, String[] words) {
        CommandLine.Model.CommandSpec command = fault.getCommandLine().getCommandSpec();
        List<String> options =
                command.options().stream().flatMap(o -> Arrays.stream(o.names())).toList();
        for (String word : words) {
            String name = word.replaceFirst("=.*", "");
            if (name.startsWith("--") && name.length() > 2 && !options.contains(name)) {
                return Optional.of(strange("an option of " + command.name(), name, options));
            }
        }
        if (!(fault instanceof CommandLine.UnmatchedArgumentException unmatched)) {
            return Optional.empty();
        }
        String word = unmatched.getUnmatched().get(0);
        if (!command.subcommands().isEmpty()) {
            return Optional.of(strange("a command", word, command.subcommands().keySet()));
        }
        return Optional.of(
                word.startsWith("-")
                        ? strange("an option of " + command.name(), word, options)
                        : command.name() + ": expected options, found the word “" + word + "”");
    }

    private static String strange(String expected, String word, Collection<String> known) {
        return "expected "
                + expected
                + ", found “"
                + word
                + "”"
                + NearestName.find(word, known.stream())
                        .map(n -> "; did you mean “" + n + "”?")
                        .orElse("");
    }

    private static String describe(String message) {
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
        Matcher comma = COMMA.matcher(message);
        if (comma.matches()) {
            return fault(comma.group(1), Decimals.POINT, comma.group(2));
        }
        Matcher exclusive = EXCLUSIVE.matcher(message);
        if (exclusive.matches()) {
            return "expected only one of these options, found " + exclusive.group(1);
        }
        Matcher pair = PAIR.matcher(message);
        return pair.matches() ? fault(pair.group(1), pair.group(2), pair.group(3)) : message;
    }

    private static String fault(String option, String expected, String found) {
        return option + ": expected " + expected + ", found “" + found + "”";
    }
}
