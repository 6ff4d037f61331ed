package padward.ui.design;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The search for names that complete a text, as plainly as can be. */
final class PlainSearch {
    private PlainSearch() {}

    static List<String> find(String typed, List<String> names, int most) {
        String text = typed.strip().toLowerCase(Locale.ROOT);
        StringBuilder regex = new StringBuilder();
        text.codePoints()
                .forEach(
                        c ->
                                regex.append(
                                        c == '*'
                                                ? ".*"
                                                : c == '?'
                                                        ? "."
                                                        : Pattern.quote(Character.toString(c))));
        Pattern part = Pattern.compile(regex.toString());
        boolean marks = text.contains("*") || text.contains("?");
        Stream<String> beginning =
                marks ? Stream.of() : names.stream().filter(n -> lower(n).startsWith(text));
        Stream<String> others =
                names.stream()
                        .filter(n -> marks || !lower(n).startsWith(text))
                        .filter(n -> part.matcher(lower(n)).find());
        return Stream.concat(beginning, others).limit(most).toList();
    }

    private static String lower(String name) {
        return name.toLowerCase(Locale.ROOT);
    }
}
