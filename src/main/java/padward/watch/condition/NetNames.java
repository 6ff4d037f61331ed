package padward.watch.condition;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
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
     * The bits of a vector, the lowest first; empty when there is none of that name, or when a bit
     * between the highest and the lowest is missing.
     */
    default List<String> bits(String vector) {
        int[] numbers =
                all().map(name -> number(name, vector))
                        .filter(OptionalInt::isPresent)
                        .mapToInt(OptionalInt::getAsInt)
                        .sorted()
                        .distinct()
                        .toArray();
        if (numbers.length == 0 || numbers[numbers.length - 1] - numbers[0] != numbers.length - 1) {
            return List.of();
        }
        List<String> bits =
                IntStream.of(numbers)
                        .mapToObj(i -> find(vector + "[" + i + "]"))
                        .flatMap(Optional::stream)
                        .toList();
        return bits.size() == numbers.length ? bits : List.of();
    }

    /** The number of a bit of a vector, when a net is one of it. */
    private static OptionalInt number(String net, String vector) {
        int open = net.lastIndexOf('[');
        boolean bit =
                open > 0
                        && net.endsWith("]")
                        && net.length() - open > 2
                        && net.length() - open < 8
                        && net.substring(open + 1, net.length() - 1)
                                .chars()
                                .allMatch(Character::isDigit);
        if (!bit) {
            return OptionalInt.empty();
        }
        String base = net.substring(0, open);
        return base.equals(vector) || base.endsWith("/" + vector)
                ? OptionalInt.of(Integer.parseInt(net.substring(open + 1, net.length() - 1)))
                : OptionalInt.empty();
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
