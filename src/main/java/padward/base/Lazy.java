package padward.base;

import java.util.function.Supplier;

/**
 * A value that is worked out when it is first asked for, once, whichever thread asks first; others
 * that ask meanwhile wait for it. What it is worked out from is let go of then.
 *
 * @param <T> what it is
 */
public final class Lazy<T> {
    private Supplier<? extends T> source;
    private volatile T value;

    /**
     * @param source works it out; never gives {@code null}. When it throws, whoever asks next tries
     *     again
     */
    public Lazy(Supplier<? extends T> source) {
        this.source = source;
    }

    /** The value. */
    public T get() {
        T known = value;
        return known != null ? known : workOut();
    }

    private synchronized T workOut() {
        if (value == null) {
            value = source.get();
            source = null;
        }
        return value;
    }
}
