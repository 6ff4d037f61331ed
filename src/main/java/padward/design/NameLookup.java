package padward.design;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntPredicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Listing;
import padward.base.NearestName;

/**
 * The one look-up from what a person writes to a net or a pad, for the command line and the window.
 * The first of these rules that matches anything decides:
 *
 * <ol>
 *   <li>the exact name; for a pad its full name, and then its other {@linkplain PadNames names},
 *       for a net {@linkplain Design#findOtherName another name};
 *   <li>a pattern with {@code *} and {@code ?} for the whole name;
 *   <li>the whole name or, for hierarchical names, its last parts ({@code rx/cnt[2]} for {@code
 *       uart/rx/cnt[2]}), ignoring case;
 *   <li>the spellings of messages, schematics and people: {@code J1-3}, {@code header J1 pin 3} for
 *       a pad; {@code cell.pin}, {@code the D of register x} for a net.
 * </ol>
 *
 * <p>Parts of words do not match: a script would take another net as soon as the design changes.
 * O(number of names × their length).
 */
public final class NameLookup {
    private static final int MOST_LISTED = 5;
    private static final int MOST_NEAR = 3;

    private NameLookup() {}

    /**
     * What a text means.
     *
     * @param <T> {@link Net}, or the index of a pad
     */
    public sealed interface Match<T> {
        /**
         * One thing.
         *
         * @param value the thing
         */
        record Found<T>(T value) implements Match<T> {}

        /**
         * More than one.
         *
         * @param names their full names, in the design's order
         */
        record Several<T>(List<String> names) implements Match<T> {
            /** Copies the names. */
            public Several {
                names = List.copyOf(names);
            }
        }

        /**
         * None.
         *
         * @param nearest names that may have been meant, the nearest first; may be empty
         */
        record None<T>(List<String> nearest) implements Match<T> {
            /** Copies the names. */
            public None {
                nearest = List.copyOf(nearest);
            }
        }
    }

    /** The net that a text means. */
    public static Match<Net> net(Design design, String text) {
        if (design.findNet(text).isPresent()) {
            return new Match.Found<>(design.findNet(text).get());
        }
        Optional<String> named = design.findOtherName(text);
        if (named.isPresent()) {
            // Another name of another name would be one too many.
            return net(design.withOtherNames(Map.of()), named.get());
        }
        List<Net> nets = List.copyOf(design.nets());
        Match<Net> byName =
                match(
                        text,
                        nets.size(),
                        i -> List.of(nets.get(i).name()),
                        i -> nets.get(i).name(),
                        nets::get);
        if (!(byName instanceof Match.None<Net>)) {
            return byName;
        }
        List<Net> byPin = PinNetLookup.find(design, text.strip());
        if (!byPin.isEmpty()) {
            return of(
                    IntStream.range(0, byPin.size()).boxed().toList(),
                    i -> byPin.get(i).name(),
                    byPin::get);
        }
        return byName;
    }

    /** The pad that a text means, as its index in {@code fabric.pads()}. */
    public static Match<Integer> pad(Design design, String text) {
        int count = design.fabric().pads().size();
        List<Integer> exact = PadNames.find(design, text);
        if (!exact.isEmpty()) {
            return of(exact, i -> design.fabric().pads().get(i).name(), i -> i);
        }
        Match<Integer> byName =
                match(
                        text,
                        count,
                        i -> PadNames.namesOf(design, i),
                        i -> design.fabric().pads().get(i).name(),
                        i -> i);
        if (!(byName instanceof Match.None<Integer>) || text.isBlank()) {
            return byName;
        }
        String plain = PadSpelling.plain(text);
        List<Integer> spelt = all(count, i -> PadSpelling.fits(PadNames.namesOf(design, i), plain));
        if (!spelt.isEmpty()) {
            return of(spelt, i -> design.fabric().pads().get(i).name(), i -> i);
        }
        List<String> pins =
                stream(count, i -> PadNames.namesOf(design, i))
                        .filter(n -> PadSpelling.plain(n).startsWith(plain + "."))
                        .limit(MOST_LISTED)
                        .toList();
        return pins.isEmpty() ? byName : new Match.None<>(pins);
    }

    /** Something about the thing at a place of a list. */
    private interface At<T> {
        T get(int index);
    }

    private static <T> Match<T> match(
            String text, int count, At<List<String>> names, At<String> fullName, At<T> value) {
        boolean pattern = text.contains("*") || text.contains("?");
        Glob glob = Glob.of(text);
        List<Integer> fitting =
                pattern
                        ? all(count, i -> names.get(i).stream().anyMatch(glob::matches))
                        : List.of();
        if (fitting.isEmpty() && !text.isEmpty()) {
            String lower = text.toLowerCase(Locale.ROOT);
            fitting = all(count, i -> names.get(i).stream().anyMatch(n -> isTail(n, lower)));
        }
        if (fitting.isEmpty()) {
            return new Match.None<>(nearest(text, count, names));
        }
        return of(fitting, fullName, value);
    }

    private static <T> Match<T> of(List<Integer> fitting, At<String> fullName, At<T> value) {
        return fitting.size() == 1
                ? new Match.Found<>(value.get(fitting.get(0)))
                : new Match.Several<>(fitting.stream().map(fullName::get).toList());
    }

    private static List<Integer> all(int count, IntPredicate test) {
        return IntStream.range(0, count).filter(test).boxed().toList();
    }

    /** Whether a text in lower case is all of a name, or its last parts. */
    static boolean isTail(String name, String lower) {
        String all = name.toLowerCase(Locale.ROOT);
        return all.equals(lower) || all.endsWith("/" + lower);
    }

    private static List<String> nearest(String text, int count, At<List<String>> names) {
        if (text.isEmpty()) {
            return List.of();
        }
        String lower = text.toLowerCase(Locale.ROOT);
        Set<String> result = new LinkedHashSet<>();
        NearestName.find(text, stream(count, names)).ifPresent(result::add);
        stream(count, names)
                .filter(n -> n.toLowerCase(Locale.ROOT).contains(lower))
                .limit(MOST_NEAR)
                .forEach(result::add);
        return result.stream().limit(MOST_NEAR).toList();
    }

    private static Stream<String> stream(int count, At<List<String>> names) {
        return IntStream.range(0, count).boxed().flatMap(i -> names.get(i).stream());
    }

    /**
     * The net that a text means.
     *
     * @param source the option or field that the text stands in
     * @throws BadInput when it means none or several
     */
    public static Net requireNet(Design design, String text, String source) throws BadInput {
        return required(
                net(design, text),
                text,
                "the name of a net, or a pattern that matches only one",
                source);
    }

    /**
     * The index of the pad that a text means.
     *
     * @param source the option or field that the text stands in
     * @throws BadInput when it means none or several
     */
    public static int requirePad(Design design, String text, String source) throws BadInput {
        String expected = "one pad, by its name, package pin, port, board net or header pin";
        return required(pad(design, text), text, expected, source);
    }

    private static <T> T required(Match<T> match, String text, String expected, String source)
            throws BadInput {
        if (match instanceof Match.Found<T> found) {
            return found.value();
        }
        String given = text.isEmpty() ? "nothing" : "“" + text + "”";
        if (match instanceof Match.Several<T> several) {
            throw new BadInput(
                    source, "", expected, given + ", which matches " + listed(several.names()));
        }
        List<String> nearest = ((Match.None<T>) match).nearest();
        throw new BadInput(source, "", expected, given + hint(nearest));
    }

    private static String hint(List<String> nearest) {
        if (nearest.isEmpty()) {
            return "";
        }
        String names = nearest.stream().map(n -> "“" + n + "”").collect(Collectors.joining(", "));
        return (nearest.size() == 1 ? "; the nearest name is " : "; the nearest names are ")
                + names;
    }

    private static String listed(List<String> names) {
        return Listing.first(names, MOST_LISTED);
    }
}
