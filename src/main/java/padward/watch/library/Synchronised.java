package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;

/**
 * A net of another clock, through two registers one after the other.
 *
 * @param net name of the net
 * @param clock name of the clock's net
 */
public record Synchronised(String net, String clock) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("sync", kinds, Optional.of(clock));
        int first = recipe.registered("first", recipe.builder().net(net));
        int out = recipe.registered(RecipeBuilder.OUT, first);
        recipe.caution(
                "A pulse of "
                        + net
                        + " that is shorter than a cycle of "
                        + clock
                        + " can be missed, and each edge is shown up to a cycle late.");
        return recipe.circuit(
                out,
                net + ", taken by two registers one after the other at " + clock + ".",
                2,
                StartState.any(2));
    }
}
