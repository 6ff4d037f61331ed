package padward.watch.condition;

import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.base.Listing;
import padward.base.NearestName;
import padward.design.Design;
import padward.design.Net;

/**
 * The nets and vectors that somebody may name: by their full names, or by the last parts of those
 * where that means one net or vector only.
 */
public interface ConditionNetNames {
    /** Names that are listed where a text means several. */
    int MOST_LISTED = 5;

    /** Whether a net has exactly this name. */
    boolean isNet(String name);

    /** All full names. */
    Stream<String> all();

    /** Those of a design. */
    static ConditionNetNames of(Design design) {
        return new ConditionNetNames() {
            @Override
            public boolean isNet(String name) {
                return design.findNet(name).isPresent();
            }

            @Override
            public Stream<String> all() {
                return design.nets().stream().map(Net::name);
            }
        };
    }

    /** What a text means. */
    sealed interface Meaning {
        /**
         * One net.
         *
         * @param name its full name
         */
        record OneNet(String name) implements Meaning {}

        /**
         * A vector.
         *
         * @param name its full name
         */
        record OneVector(String name) implements Meaning {}

        /**
         * Several nets or vectors, or none.
         *
         * @param names their full names, sorted
         */
        record NotOne(Set<String> names) implements Meaning {}
    }

    /**
     * What a text means: the net or else the vector of exactly that name; or else the only net or
     * vector whose last parts it is, ignoring case.
     */
    default Meaning meaning(String text) {
        if (isNet(text)) {
            return new Meaning.OneNet(text);
        }
        Set<String> vectors = vectors(text);
        if (vectors.contains(text)) {
            return new Meaning.OneVector(text);
        }
        Set<String> nets = new TreeSet<>();
        String lower = text.toLowerCase(Locale.ROOT);
        all().filter(net -> isTail(net, lower)).forEach(nets::add);
        if (nets.size() + vectors.size() != 1) {
            nets.addAll(vectors);
            return new Meaning.NotOne(nets);
        }
        return vectors.isEmpty()
                ? new Meaning.OneNet(nets.iterator().next())
                : new Meaning.OneVector(vectors.iterator().next());
    }

    /** Whether a text in lower case is all of a name, or its last parts. */
    private static boolean isTail(String name, String lower) {
        String all = name.toLowerCase(Locale.ROOT);
        return all.equals(lower) || all.endsWith("/" + lower);
    }

    /**
     * The full names of the vectors that a text may mean: the one of exactly that name, or else all
     * whose last parts it is, ignoring case.
     */
    private Set<String> vectors(String text) {
        String lower = text.toLowerCase(Locale.ROOT);
        Set<String> result = new TreeSet<>();
        Iterator<String> bases =
                all().map(ConditionNetNames::bit)
                        .flatMap(Optional::stream)
                        .map(Bit::vector)
                        .iterator();
        while (bases.hasNext()) {
            String base = bases.next();
            if (base.equals(text)) {
                return Set.of(base);
            }
            if (isTail(base, lower)) {
                result.add(base);
            }
        }
        return result;
    }

    /** The full name of the vector that a text means; empty when it means none or several. */
    default Optional<String> findVector(String text) {
        Set<String> all = vectors(text);
        return all.size() == 1 ? Optional.of(all.iterator().next()) : Optional.empty();
    }

    /**
     * The bits of a vector, by its full name, the lowest first; empty when a bit between the
     * highest and the lowest is missing.
     */
    default List<String> bits(String vector) {
        int[] numbers =
                all().map(ConditionNetNames::bit)
                        .flatMap(Optional::stream)
                        .filter(b -> b.vector().equals(vector))
                        .mapToInt(Bit::number)
                        .sorted()
                        .distinct()
                        .toArray();
        if (numbers[numbers.length - 1] - numbers[0] != numbers.length - 1) {
            return List.of();
        }
        List<String> bits =
                IntStream.of(numbers)
                        .mapToObj(i -> findBit(vector, i))
                        .flatMap(Optional::stream)
                        .toList();
        return bits.size() == numbers.length ? bits : List.of();
    }

    /** One bit of a vector, by the vector's full name: never a bit of another. */
    default Optional<String> findBit(String vector, int number) {
        return Optional.of(vector + "[" + number + "]").filter(this::isNet);
    }

    /** The vectors of which there are bits, each once and with its numbers: {@code count[7:0]}. */
    default Stream<String> vectorRanges() {
        Map<String, int[]> ends = new TreeMap<>();
        all().map(ConditionNetNames::bit)
                .flatMap(Optional::stream)
                .forEach(
                        b ->
                                ends.merge(
                                        b.vector(),
                                        new int[] {b.number(), b.number()},
                                        (one, other) ->
                                                new int[] {
                                                    Math.max(one[0], other[0]),
                                                    Math.min(one[1], other[1])
                                                }));
        return ends.entrySet().stream()
                .map(e -> e.getKey() + "[" + e.getValue()[0] + ":" + e.getValue()[1] + "]");
    }

    /**
     * A net that is a bit of a vector.
     *
     * @param vector the vector's full name
     * @param number the bit's number
     */
    record Bit(String vector, int number) {}

    /** The vector and number of a net, when it is a bit. */
    private static Optional<Bit> bit(String net) {
        int open = net.lastIndexOf('[');
        boolean bit =
                open > 0
                        && net.endsWith("]")
                        && net.length() - open > 2
                        && net.length() - open < 8
                        && net.substring(open + 1, net.length() - 1)
                                .chars()
                                .allMatch(c -> c >= '0' && c <= '9');
        return bit
                ? Optional.of(
                        new Bit(
                                net.substring(0, open),
                                Integer.parseInt(net.substring(open + 1, net.length() - 1))))
                : Optional.empty();
    }

    /** A vector that is not known, or one of several; with their names, or the nearest. */
    default String unknownVector(String text, String name) {
        return notOne(text, name, vectors(text));
    }

    /** A net or vector that is not known, or one of several; with their names, or the nearest. */
    default String notOne(String text, Meaning.NotOne meaning) {
        return notOne(text, text, meaning.names());
    }

    private String notOne(String text, String name, Set<String> several) {
        return several.size() > 1
                ? "“" + text + "”, which matches " + listed(several)
                : unknown(name);
    }

    private static String listed(Set<String> names) {
        return Listing.first(names, MOST_LISTED);
    }

    /** A name that is not known, with the nearest of those that are. */
    default String unknown(String name) {
        Stream<String> known =
                all().flatMap(
                                net -> {
                                    int open = net.lastIndexOf('[');
                                    return open > 0
                                            ? Stream.of(net, net.substring(0, open))
                                            : Stream.of(net);
                                })
                        .flatMap(n -> Stream.of(n, n.substring(n.lastIndexOf('/') + 1)))
                        .distinct();
        return "“"
                + name
                + "”"
                + NearestName.find(name, known)
                        .map(n -> "; the nearest name is “" + n + "”")
                        .orElseGet(() -> containing(name));
    }

    /** Nets and vectors in whose names a text stands, as a clause; empty when there are none. */
    private String containing(String text) {
        String lower = text.toLowerCase(Locale.ROOT);
        Set<String> names =
                all().filter(n -> lower.length() > 1 && n.toLowerCase(Locale.ROOT).contains(lower))
                        .map(n -> bit(n).map(Bit::vector).orElse(n))
                        .collect(Collectors.toCollection(TreeSet::new));
        return names.isEmpty() ? "" : "; names with it are " + listed(names);
    }
}
