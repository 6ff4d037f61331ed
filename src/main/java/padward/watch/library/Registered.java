package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;

/**
 * A net through a register.
 *
 * @param net name of the net
 * @param clock name of the clock's net
 */
public record Registered(String net, String clock) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("register", kinds, Optional.of(clock));
        int out = recipe.registered(RecipeBuilder.OUT, recipe.builder().net(net));
        return recipe.circuit(
                out, net + ", one cycle of " + clock + " later.", 1, StartState.any(1));
    }
}
