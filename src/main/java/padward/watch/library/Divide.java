package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Start;
import padward.watch.logic.LogicGraph;

/**
 * One period of the output for each so many cycles of a clock, or for each so many cycles in which
 * a condition is true.
 *
 * @param clock name of the clock's net
 * @param by how many, 2 to 65,536
 * @param counted the condition; without one, all cycles count
 */
public record Divide(String clock, int by, Optional<Event> counted) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        Making making = new Making("divide", kinds, Optional.of(clock));
        making.require("--by", by, 2, Making.MOST_COUNTED);
        int step = counted.isPresent() ? making.event("--when", counted.get()) : LogicGraph.HIGH;
        String what =
                counted.map(e -> by + " cycles of " + clock + " in which " + e.isTrue())
                        .orElse(by + " cycles of " + clock);
        String function =
                "One period for every " + what + "; high for " + by / 2 + " of the " + by + ".";
        return making.circuit(output(making, step), function, 1, Start.any(4 * by));
    }

    private int output(Making making, int step) {
        if (Integer.bitCount(by) == 1) {
            List<Integer> bits = making.counter("count", by, step);
            return bits.get(bits.size() - 1);
        }
        int out = making.register(Making.OUT);
        if (by % 2 == 0) {
            int half = by / 2;
            List<Integer> bits = making.counter("count", half, step);
            int flip = making.logic().and(step, making.magnitudes().hasOnesOf(bits, half - 1));
            making.builder().drive(out, making.logic().xor(out, flip));
            return out;
        }
        List<Integer> bits = making.counter("count", by, step);
        int last = making.logic().and(step, making.magnitudes().hasOnesOf(bits, by - 1));
        int half = making.logic().and(step, making.magnitudes().hasOnesOf(bits, (by - 1) / 2));
        int next = making.logic().and(making.logic().or(out, half), LogicGraph.not(last));
        making.builder().drive(out, next);
        return out;
    }
}
