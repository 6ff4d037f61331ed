package padward.ui.design;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.IntPredicate;
import java.util.function.Predicate;
import java.util.stream.Stream;
import padward.design.Glob;

/**
 * A list of names with what finds those that begin with a text, contain it or match it as a
 * pattern, ignoring case, without looking at all of them. A long list is indexed on another thread
 * when it is first searched, unless {@link #prepare} has done it before; until then every name is
 * looked at. Immutable to its callers; safe for all threads.
 */
public final class SearchableNames {
    /** No names. */
    public static final SearchableNames NONE = new SearchableNames(List.of());

    /** Fewer names than this are looked at one by one. */
    static final int FEW = 2_000;

    private final List<String> names;
    private final AtomicBoolean begun = new AtomicBoolean();
    private volatile Optional<NameGrams> grams = Optional.empty();

    /**
     * @param names the names in the order in which they are found; copied
     */
    public SearchableNames(List<String> names) {
        this.names = List.copyOf(names);
    }

    /** All names. */
    public Stream<String> stream() {
        return names.stream();
    }

    /** Begins to make the index of a long list, on another thread. */
    public void prepare() {
        if (names.size() >= FEW && begun.compareAndSet(false, true)) {
            CompletableFuture.runAsync(this::index);
        }
    }

    /** Makes the index now; call it off the UI thread. */
    public void index() {
        grams = Optional.of(new NameGrams(names));
    }

    /**
     * The first names that begin with a text, then the first of the others that contain it; with
     * {@code *} or {@code ?} in it, the first that have a part that matches.
     *
     * @param most at most so many
     */
    public List<String> find(String typed, int most) {
        String text = typed.strip().toLowerCase(Locale.ROOT);
        boolean pattern = text.contains("*") || text.contains("?");
        Predicate<String> contains =
                pattern ? Glob.of("*" + text + "*")::matches : n -> n.contains(text);
        Optional<NameGrams> index = grams;
        if (index.isEmpty() || text.isEmpty() || !index.get().canFind(text)) {
            prepare();
            return lookAtAll(text, pattern, contains, most);
        }
        IntPredicate begins = i -> lower(i).startsWith(text);
        IntPredicate has = i -> contains.test(lower(i));
        IntArrayList result = new IntArrayList();
        if (!pattern) {
            result.addAll(index.get().find(text, true, begins, i -> true, most));
        }
        if (result.size() < most) {
            IntPredicate wanted = pattern ? i -> true : begins.negate();
            result.addAll(index.get().find(text, false, has, wanted, most - result.size()));
        }
        return result.intStream().limit(most).mapToObj(names::get).toList();
    }

    private String lower(int name) {
        return names.get(name).toLowerCase(Locale.ROOT);
    }

    private List<String> lookAtAll(
            String text, boolean pattern, Predicate<String> contains, int most) {
        List<String> first = new ArrayList<>();
        List<String> later = new ArrayList<>();
        for (String name : names) {
            String lower = name.toLowerCase(Locale.ROOT);
            if (!pattern && lower.startsWith(text)) {
                first.add(name);
            } else if (later.size() < most && contains.test(lower)) {
                later.add(name);
            }
            if (first.size() == most) {
                break;
            }
        }
        first.addAll(later);
        return first.size() <= most ? first : List.copyOf(first.subList(0, most));
    }
}
