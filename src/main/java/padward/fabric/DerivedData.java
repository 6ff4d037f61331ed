package padward.fabric;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;

/**
 * What other packages calculate from one fabric and keep for as long as the fabric is in use: one
 * object of each type. Each fabric owns one of these, so nothing has to be remembered in static
 * maps, and nothing outlives the fabric. Safe for all threads.
 */
public final class DerivedData {
    private final Map<Class<?>, Object> byType = new ConcurrentHashMap<>();

    /**
     * The object of a type, made at the first call.
     *
     * @param make makes it, in O(1): other callers wait meanwhile. What takes long is calculated by
     *     the object itself, when it is asked
     */
    public <T> T get(Class<T> type, Supplier<? extends T> make) {
        return type.cast(byType.computeIfAbsent(type, t -> make.get()));
    }
}
