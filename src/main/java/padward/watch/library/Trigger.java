package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Start;

/**
 * High while a condition is true.
 *
 * @param when the condition
 * @param clock name of the clock's net; needed for a register, and for conditions that compare
 *     cycles
 * @param registered whether a register stands before the output
 */
public record Trigger(Event when, Optional<String> clock, boolean registered) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        Making making = new Making("trigger", kinds, clock);
        int event = making.event("--when", when);
        int earlier = when.condition().needsClock() ? 1 : 0;
        if (registered) {
            if (clock.isEmpty()) {
                throw making.fault("--clock", "a clock for the register", "none");
            }
            return making.circuit(
                    making.registered(Making.OUT, event),
                    "High while " + when.isTrue() + ", one cycle of " + clock.get() + " later.",
                    1,
                    Start.any(1 + earlier));
        }
        making.cautionOfGlitches();
        return making.circuit(event, "High while " + when.isTrue() + ".", 0, Start.any(earlier));
    }
}
