package padward.fabric.explicit;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.fabric.DerivedData;

/** Counts the primitive arrays that hang on an object of ours, by walking over its fields. */
final class ArrayBytes {
    private final Set<Object> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    private long bytes;

    private ArrayBytes() {}

    static long of(Object root) throws IllegalAccessException {
        ArrayBytes count = new ArrayBytes();
        count.walk(root);
        return count.bytes;
    }

    private void walk(Object object) throws IllegalAccessException {
        // What was derived from a fabric is not part of it, and can be made again.
        boolean none = object == null || object instanceof Enum || object instanceof DerivedData;
        if (none || !seen.add(object)) {
            return;
        }
        Class<?> type = object.getClass();
        if (type.isArray() && type.getComponentType().isPrimitive()) {
            bytes += (long) Array.getLength(object) * width(type.getComponentType());
        } else if (object instanceof Object[] all) {
            for (Object one : all) {
                walk(one);
            }
        } else if (object instanceof Iterable<?> all) {
            for (Object one : all) {
                walk(one);
            }
        } else if (object instanceof Map<?, ?> map) {
            walk(map.values());
        } else if (object instanceof Optional<?> one
                && one.isPresent()
                && one.get() instanceof TileSwitchGroups) {
            // What kinds of cell may state is of one size, however large the fabric is.
            walk(one.get());
        }
        if (type.getName().startsWith("padward.") || type.getName().startsWith("it.unimi.")) {
            for (Class<?> c = type; c != Object.class; c = c.getSuperclass()) {
                walkFields(object, c);
            }
        }
    }

    private void walkFields(Object object, Class<?> type) throws IllegalAccessException {
        for (Field field : type.getDeclaredFields()) {
            boolean other = Modifier.isStatic(field.getModifiers());
            if (!other && !field.getType().isPrimitive() && !type.getName().startsWith("java.")) {
                field.setAccessible(true);
                walk(field.get(object));
            }
        }
    }

    private static int width(Class<?> primitive) {
        return primitive == long.class || primitive == double.class
                ? Long.BYTES
                : primitive == int.class || primitive == float.class
                        ? Integer.BYTES
                        : primitive == short.class || primitive == char.class ? Short.BYTES : 1;
    }
}
