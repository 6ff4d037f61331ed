package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;

/**
 * High for a cycle after each cycle in which any of several nets has another level than before.
 *
 * @param nets names of the nets
 * @param clock name of the clock's net
 */
public record AnyChange(List<String> nets, String clock) implements Recipe {
    /** Most nets that a circuit puts together. */
    static final int MOST_NETS = 256;

    /** Copies the list. */
    public AnyChange {
        nets = List.copyOf(nets);
    }

    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("any", kinds, Optional.of(clock));
        recipe.requireNets(nets.size(), 1, MOST_NETS);
        List<Integer> changed =
                recipe.nets(nets).stream()
                        .map(net -> recipe.logic().xor(net, recipe.conditions().earlier(net)))
                        .toList();
        int out = recipe.registered(RecipeBuilder.OUT, recipe.many().any(changed));
        String function =
                "High for one cycle of "
                        + clock
                        + " after each cycle in which any of "
                        + RecipeBuilder.listed(nets)
                        + " has changed.";
        return recipe.circuit(out, function, 1, StartState.any(2));
    }
}
