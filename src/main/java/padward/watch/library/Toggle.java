package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;

/**
 * Another level each time that a condition becomes true.
 *
 * @param event the condition
 * @param clock name of the clock's net
 */
public record Toggle(Event event, String clock) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("toggle", kinds, Optional.of(clock));
        int rising = recipe.conditions().rising(recipe.event("--when", event));
        int out = recipe.register(RecipeBuilder.OUT);
        recipe.builder().drive(out, recipe.logic().xor(out, rising));
        String function =
                "Changes its level each time that "
                        + event.quoted()
                        + " becomes true, one cycle of "
                        + clock
                        + " later.";
        return recipe.circuit(out, function, 1, StartState.any(2));
    }
}
