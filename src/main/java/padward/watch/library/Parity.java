package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;

/**
 * High while an odd number of nets is high.
 *
 * @param nets names of the nets
 * @param clock name of the clock's net, when a register stands before the output
 */
public record Parity(List<String> nets, Optional<String> clock) implements Recipe {
    /** Copies the list. */
    public Parity {
        nets = List.copyOf(nets);
    }

    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("parity", kinds, clock);
        recipe.requireNets(nets.size(), 2, AnyChange.MOST_NETS);
        int odd = recipe.many().parity(recipe.nets(nets));
        String function = "High while an odd number of " + RecipeBuilder.listed(nets) + " is high";
        if (clock.isPresent()) {
            return recipe.circuit(
                    recipe.registered(RecipeBuilder.OUT, odd),
                    function + ", one cycle of " + clock.get() + " later.",
                    1,
                    StartState.any(1));
        }
        recipe.cautionOfGlitches();
        return recipe.circuit(odd, function + ".", 0, StartState.any(0));
    }
}
