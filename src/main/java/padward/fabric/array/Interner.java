package padward.fabric.array;

import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.Fabric;

/** Different values, numbered from 0 in the order in which they came. Belongs to one thread. */
public final class Interner<T> {
    private final List<T> values = new ArrayList<>();
    private final Object2IntOpenHashMap<T> numbers = new Object2IntOpenHashMap<>();

    /** The number of a value, which is added when it is new. */
    public int number(T value) {
        int number = numbers.getOrDefault(value, Fabric.NOTHING);
        if (number == Fabric.NOTHING) {
            number = values.size();
            values.add(value);
            numbers.put(value, number);
        }
        return number;
    }

    /** The value of a number. */
    public T value(int number) {
        return values.get(number);
    }

    /** All values by their numbers. */
    public List<T> values() {
        return List.copyOf(values);
    }
}
