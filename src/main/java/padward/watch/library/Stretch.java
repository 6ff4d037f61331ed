package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Start;
import padward.watch.logic.LogicGraph;

/**
 * High for some cycles after each cycle in which a condition is true.
 *
 * @param event the condition
 * @param clock name of the clock's net
 * @param cycles for how many, 2 to 65,536
 */
public record Stretch(Event event, String clock, int cycles) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        Making making = new Making("stretch", kinds, Optional.of(clock));
        making.require("--cycles", cycles, 2, Making.MOST_COUNTED);
        int now = making.event("--when", event);
        int bitCount = Making.bitsFor(cycles);
        // counts from 0 up to the last cycle, and stays there
        List<Integer> bits = making.builder().registers("count", bitCount, clock);
        int done = making.magnitudes().hasOnesOf(bits, cycles - 1);
        List<Integer> next =
                making.magnitudes().plusOne(bits, LogicGraph.not(done)).stream()
                        .map(b -> making.logic().and(b, LogicGraph.not(now)))
                        .toList();
        making.builder().drive(bits, next);
        int out = making.registered(Making.OUT, making.logic().or(now, LogicGraph.not(done)));
        String function =
                "High for "
                        + Making.cycles(cycles)
                        + " of "
                        + clock
                        + " from one cycle after each cycle in which "
                        + event.isTrue()
                        + ".";
        return making.circuit(out, function, 1, Start.any(2 + (1 << bitCount)));
    }
}
