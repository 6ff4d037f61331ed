package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;

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
        RecipeBuilder recipe = new RecipeBuilder("trigger", kinds, clock);
        int event = recipe.event("--when", when);
        int earlier = when.condition().needsClock() ? 1 : 0;
        if (registered) {
            if (clock.isEmpty()) {
                throw recipe.fault("--clock", "a clock for the register", "none");
            }
            return recipe.circuit(
                    recipe.registered(RecipeBuilder.OUT, event),
                    "High while " + when.isTrue() + ", one cycle of " + clock.get() + " later.",
                    1,
                    StartState.any(1 + earlier));
        }
        recipe.cautionOfGlitches();
        return recipe.circuit(
                event, "High while " + when.isTrue() + ".", 0, StartState.any(earlier));
    }
}
