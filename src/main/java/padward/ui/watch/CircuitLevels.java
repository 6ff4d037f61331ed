package padward.ui.watch;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.Signal;

/**
 * Which column of a diagram each part of a circuit stands in: right of all that it reads, but for
 * what comes back to it.
 */
final class CircuitLevels {
    private final Circuit circuit;
    private final Map<Signal, Integer> columns = new LinkedHashMap<>();
    private final Set<Signal> open = new HashSet<>();
    private final Map<Signal, Set<Integer>> back = new HashMap<>();

    CircuitLevels(Circuit circuit) {
        this.circuit = circuit;
        circuit.outputs().forEach(o -> column(o.signal()));
        for (int e = 0; e < circuit.elements().size(); e++) {
            column(new Signal.Made(e));
        }
    }

    private int column(Signal signal) {
        Integer known = columns.get(signal);
        if (known != null) {
            return known;
        }
        int column = 0;
        if (signal instanceof Signal.Made made) {
            open.add(signal);
            for (Signal read : circuit.elements().get(made.element()).inputs()) {
                if (open.contains(read)) {
                    back.computeIfAbsent(read, s -> new HashSet<>()).add(made.element());
                } else {
                    column = Math.max(column, column(read) + 1);
                }
            }
            column = Math.max(column, 1);
            open.remove(signal);
        }
        columns.put(signal, column);
        return column;
    }

    /** The column of an element, or of a net or pad that is read. */
    int of(Signal signal) {
        return columns.get(signal);
    }

    /** The column of the outputs: the last. */
    int last() {
        return 1 + columns.values().stream().mapToInt(c -> c).max().orElse(0);
    }

    /** All signals of a column. */
    List<Signal> in(int column) {
        List<Signal> result = new ArrayList<>();
        columns.forEach(
                (signal, at) -> {
                    if (at == column) {
                        result.add(signal);
                    }
                });
        return result;
    }

    /** Whether an element reads a signal that comes back to it, from its own column or later. */
    boolean isBack(Signal read, int element) {
        return back.getOrDefault(read, Set.of()).contains(element);
    }
}
