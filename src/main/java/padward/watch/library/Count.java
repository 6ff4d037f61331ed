package padward.watch.library;

import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;
import padward.watch.logic.LogicGraph;

/**
 * Several nets, one after the other, each for some cycles; a second output marks the first.
 *
 * @param nets names of the nets, 2 to 16, in their order
 * @param clock name of the clock's net
 * @param cycles clock cycles for which each is shown, 1 to 65,536
 */
public record Count(List<String> nets, String clock, int cycles) implements Recipe {
    /** Copies the list. */
    public Count {
        nets = List.copyOf(nets);
    }

    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("count", kinds, Optional.of(clock));
        recipe.requireNets(nets.size(), 2, Select.MOST_NETS);
        recipe.require("--cycles", cycles, 1, RecipeBuilder.MOST_COUNTED);
        int step = LogicGraph.HIGH;
        if (cycles > 1) {
            List<Integer> within = recipe.counter("within", cycles, LogicGraph.HIGH);
            step = recipe.magnitudes().hasOnesOf(within, cycles - 1);
        }
        List<Integer> which = recipe.counter("which", nets.size(), step);
        int chosen = recipe.magnitudes().chosen(which, recipe.nets(nets));
        BigInteger all = BigInteger.valueOf((1 << which.size()) - 1);
        int first = recipe.magnitudes().equal(which, BigInteger.ZERO, all);
        int out = recipe.registered(RecipeBuilder.OUT, chosen);
        recipe.builder().output(RecipeBuilder.OUT, out);
        recipe.builder().output("marker", recipe.registered("marker", first));
        String function =
                "Each net in turn for "
                        + RecipeBuilder.cycles(cycles)
                        + " of "
                        + clock
                        + ": "
                        + RecipeBuilder.listed(nets)
                        + "; the output marker is high with the first.";
        int longest = (1 << which.size()) * (cycles == 1 ? 1 : 2 * cycles);
        return recipe.circuit(out, function, 1, StartState.any(1 + longest));
    }
}
