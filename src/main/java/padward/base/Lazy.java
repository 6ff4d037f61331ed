package padward.base;

import java.util.function.Supplier;

/**
 * A value that is calculated once, when it is first needed; threads that ask meanwhile wait for it.
 * What it is calculated from is released then.
 *
 * @param <T> what it is
 */
public final class Lazy<T> {
    private Supplier<? extends T> source;
    private volatile T value;

    /**
     * @param source calculates it; never returns {@code null}. When it throws, the next caller
     *     tries again
     */
    public Lazy(Supplier<? extends T> source) {
        this.source = source;
    }

    /** The value. */
    public T get() {
        T known = value;
        return known != null ? known : calculate();
    }

    private synchronized T calculate() {
        if (value == null) {
            value = source.get();
            source = null;
        }
        return value;
    }
}
