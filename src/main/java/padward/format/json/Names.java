package padward.format.json;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.format.source.Nearest;
import padward.format.source.Text;

/** The names of one sort of thing, numbered in order; each is used once. */
public final class Names {
    private final String sort;
    private final Map<String, Integer> numberByName = new LinkedHashMap<>();

    /**
     * @param sort what they name, as messages call it: {@code cell}
     */
    public Names(String sort) {
        this.sort = sort;
    }

    /** What they name, as messages call it. */
    public String sort() {
        return sort;
    }

    /** Reads a new name. */
    public String readNew(JsonIn in) throws BadInput {
        String name = in.name();
        if (!add(name)) {
            throw in.fault("a name that only one " + sort + " has", Text.quote(name) + " again");
        }
        return name;
    }

    /** Reads a name that is known; its number. */
    public int readKnown(JsonIn in) throws BadInput {
        String name = in.name();
        return number(name).orElseThrow(() -> unknown(in, sort, name, this::stream));
    }

    /** As {@link #readKnown}, the name itself. */
    public String readKnownName(JsonIn in) throws BadInput {
        String name = in.name();
        check(in, name);
        return name;
    }

    /** Requires that the name just read is known. */
    public void check(JsonIn in, String name) throws BadInput {
        if (number(name).isEmpty()) {
            throw unknown(in, sort, name, this::stream);
        }
    }

    /** Adds a name; false when it is there already. */
    public boolean add(String name) {
        return numberByName.putIfAbsent(name, numberByName.size()) == null;
    }

    /** A fault: the name just read is not known. */
    public static BadInput unknown(
            JsonIn in, String sort, String name, Supplier<Stream<String>> known) {
        return in.fault("the name of a " + sort, Nearest.describe(name, known.get()));
    }

    public Optional<Integer> number(String name) {
        return Optional.ofNullable(numberByName.get(name));
    }

    public Stream<String> stream() {
        return numberByName.keySet().stream();
    }

    public int size() {
        return numberByName.size();
    }
}
