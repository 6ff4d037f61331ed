package padward.breakout;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;

/**
 * What differs between a design before and after: proof that nothing else was touched.
 *
 * @param netsGone nets that are no more
 * @param netsChanged nets whose wires, ends or driver differ
 * @param netsNew nets that were not there
 * @param netsSame how many nets keep every wire, and with it every delay
 * @param cellsGone cells that are no more
 * @param cellsChanged cells on another site or with other settings
 * @param cellsNew cells that were not there
 * @param cellsSame how many cells are as they were
 */
public record Harmlessness(
        List<String> netsGone,
        List<String> netsChanged,
        List<String> netsNew,
        int netsSame,
        List<String> cellsGone,
        List<String> cellsChanged,
        List<String> cellsNew,
        int cellsSame) {
    /** Compares two designs on one fabric, by names. Delays follow from the wires. O(size). */
    public static Harmlessness between(Design before, Design after) {
        Split<Net> nets =
                split(
                        before.nets(),
                        after.nets(),
                        Net::name,
                        (a, b) -> isSame(before, a, after, b));
        Split<Cell> cells = split(before.cells(), after.cells(), Cell::name, Harmlessness::isSame);
        return new Harmlessness(
                nets.gone(),
                nets.changed(),
                nets.fresh(),
                nets.same(),
                cells.gone(),
                cells.changed(),
                cells.fresh(),
                cells.same());
    }

    private record Split<T>(
            List<String> gone, List<String> changed, List<String> fresh, int same) {}

    private interface Sameness<T> {
        boolean test(T one, T other);
    }

    private static <T> Split<T> split(
            List<T> before, List<T> after, Function<T, String> name, Sameness<T> sameness) {
        Map<String, T> later = after.stream().collect(Collectors.toMap(name, Function.identity()));
        List<String> gone = new ArrayList<>();
        List<String> changed = new ArrayList<>();
        int same = 0;
        for (T one : before) {
            Optional<T> other = Optional.ofNullable(later.remove(name.apply(one)));
            if (other.isEmpty()) {
                gone.add(name.apply(one));
            } else if (sameness.test(one, other.get())) {
                same++;
            } else {
                changed.add(name.apply(one));
            }
        }
        return new Split<>(gone, changed, later.keySet().stream().sorted().toList(), same);
    }

    private static boolean isSame(Design before, Net one, Design after, Net other) {
        return one.route().equals(other.route())
                && before.textOf(one.driver()).equals(after.textOf(other.driver()))
                && one.sinks().stream()
                        .map(before::textOf)
                        .toList()
                        .equals(other.sinks().stream().map(after::textOf).toList());
    }

    private static boolean isSame(Cell one, Cell other) {
        return one.site() == other.site()
                && one.kind().equals(other.kind())
                && one.settings().equals(other.settings());
    }

    /** Whether nothing differs. */
    public boolean isNothing() {
        return netsGone.isEmpty()
                && netsChanged.isEmpty()
                && netsNew.isEmpty()
                && cellsGone.isEmpty()
                && cellsChanged.isEmpty()
                && cellsNew.isEmpty();
    }
}
