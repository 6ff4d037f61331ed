package padward.design;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.AbstractCollection;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.function.ToIntFunction;

/**
 * Cells, nets or ports of a design, each with its number. A number stays with its thing through all
 * edits; what is removed leaves a gap, and what is added gets a number that was never used. Walked
 * in the order of numbers. Immutable: a changed collection shares all that did not change.
 *
 * @param <T> what is numbered
 */
public final class Numbered<T> extends AbstractCollection<T> {
    private final List<T> base;

    /** What differs from {@link #base}, by number. */
    private final Int2ObjectOpenHashMap<T> changed;

    private final IntOpenHashSet removed;
    private final int limit;

    private Numbered(
            List<T> base, Int2ObjectOpenHashMap<T> changed, IntOpenHashSet removed, int limit) {
        this.base = base;
        this.changed = changed;
        this.removed = removed;
        this.limit = limit;
    }

    /** A list whose positions are the numbers. O(size). */
    static <T> Numbered<T> of(List<T> things) {
        return new Numbered<>(
                List.copyOf(things),
                new Int2ObjectOpenHashMap<>(),
                new IntOpenHashSet(),
                things.size());
    }

    /** With some things put in place of those of their numbers, or added, and some removed. */
    Numbered<T> with(List<T> put, List<T> gone, ToIntFunction<T> number) {
        if (put.isEmpty() && gone.isEmpty()) {
            return this;
        }
        Int2ObjectOpenHashMap<T> nowChanged = changed.clone();
        IntOpenHashSet nowRemoved = removed.clone();
        int nowLimit = limit;
        for (T thing : put) {
            int at = number.applyAsInt(thing);
            nowChanged.put(at, thing);
            nowRemoved.remove(at);
            nowLimit = Math.max(nowLimit, at + 1);
        }
        for (T thing : gone) {
            int at = number.applyAsInt(thing);
            nowChanged.remove(at);
            nowRemoved.add(at);
        }
        return new Numbered<>(base, nowChanged, nowRemoved, nowLimit);
    }

    /**
     * The thing of a number. O(1).
     *
     * @throws NoSuchElementException when there is none
     */
    public T get(int number) {
        return find(number)
                .orElseThrow(() -> new NoSuchElementException("there is no number " + number));
    }

    /** The thing of a number, if it is there. O(1). */
    public Optional<T> find(int number) {
        if (number < 0 || number >= limit || removed.contains(number)) {
            return Optional.empty();
        }
        T thing = changed.get(number);
        return Optional.of(thing == null ? base.get(number) : thing);
    }

    /** All numbers in use are less than this one, which is the next to be given. */
    public int limit() {
        return limit;
    }

    @Override
    public int size() {
        return limit - removed.size();
    }

    @Override
    public Iterator<T> iterator() {
        return new Iterator<>() {
            private int next = skip(0);

            private int skip(int from) {
                int at = from;
                while (at < limit && removed.contains(at)) {
                    at++;
                }
                return at;
            }

            @Override
            public boolean hasNext() {
                return next < limit;
            }

            @Override
            public T next() {
                T result = get(next);
                next = skip(next + 1);
                return result;
            }
        };
    }

    /** Whether the same things stand in the same order, whatever their numbers. O(size). */
    @Override
    public boolean equals(Object other) {
        return other instanceof Numbered<?> that
                && size() == that.size()
                && List.copyOf(this).equals(List.copyOf(that));
    }

    @Override
    public int hashCode() {
        return List.copyOf(this).hashCode();
    }
}
