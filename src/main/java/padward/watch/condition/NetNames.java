package padward.watch.condition;

import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.base.NearestName;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;

/**
 * The nets that a condition may name: by their full names, or by the last parts of those where that
 * means one net only.
 */
public interface NetNames {
    /** Vectors that are listed where a name means several. */
    int MOST_LISTED = 5;

    /** The full name of the net that a text means, if it means one. */
    Optional<String> find(String text);

    /** All full names. */
    Stream<String> all();

    /** Those of a design. */
    static NetNames of(Design design) {
        return new NetNames() {
            @Override
            public Optional<String> find(String text) {
                return text.contains("*") || text.contains("?")
                        ? design.findNet(text).map(Net::name)
                        : NameLookup.net(design, text) instanceof NameLookup.Match.Found<Net> found
                                ? Optional.of(found.value().name())
                                : Optional.empty();
            }

            @Override
            public Stream<String> all() {
                return design.nets().stream().map(Net::name);
            }
        };
    }

    /**
     * The full names of the vectors that a text may mean: the one of exactly that name, or else all
     * whose last parts it is, ignoring case.
     */
    private Set<String> vectors(String text) {
        String lower = text.toLowerCase(Locale.ROOT);
        Set<String> result = new TreeSet<>();
        Iterator<String> bases =
                all().map(NetNames::bit).flatMap(Optional::stream).map(Bit::vector).iterator();
        while (bases.hasNext()) {
            String base = bases.next();
            if (base.equals(text)) {
                return Set.of(base);
            }
            String known = base.toLowerCase(Locale.ROOT);
            if (known.equals(lower) || known.endsWith("/" + lower)) {
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
     * The bits of a vector, the lowest first; empty when its name means none or several, or when a
     * bit between the highest and the lowest is missing.
     */
    default List<String> bits(String text) {
        Optional<String> vector = findVector(text);
        if (vector.isEmpty()) {
            return List.of();
        }
        int[] numbers =
                all().map(NetNames::bit)
                        .flatMap(Optional::stream)
                        .filter(b -> b.vector().equals(vector.get()))
                        .mapToInt(Bit::number)
                        .sorted()
                        .distinct()
                        .toArray();
        if (numbers[numbers.length - 1] - numbers[0] != numbers.length - 1) {
            return List.of();
        }
        List<String> bits =
                IntStream.of(numbers)
                        .mapToObj(i -> findBit(vector.get(), i))
                        .flatMap(Optional::stream)
                        .toList();
        return bits.size() == numbers.length ? bits : List.of();
    }

    /** One bit of a vector, by the vector's full name: never a bit of another. */
    default Optional<String> findBit(String vector, int number) {
        String name = vector + "[" + number + "]";
        return find(name).filter(name::equals);
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
        Set<String> several = vectors(text);
        return several.size() > 1
                ? "“" + text + "”, which matches " + listed(several)
                : unknown(name);
    }

    private static String listed(Set<String> names) {
        String shown = names.stream().limit(MOST_LISTED).collect(Collectors.joining(", "));
        int more = names.size() - MOST_LISTED;
        return more > 0 ? shown + " and " + more + " more" : shown;
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
                                });
        return "“"
                + name
                + "”"
                + NearestName.find(name, known)
                        .map(n -> "; the nearest name is “" + n + "”")
                        .orElse("");
    }
}
