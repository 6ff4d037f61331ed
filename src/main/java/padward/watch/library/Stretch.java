package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;
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
        RecipeBuilder recipe = new RecipeBuilder("stretch", kinds, Optional.of(clock));
        recipe.require("--cycles", cycles, 2, RecipeBuilder.MOST_COUNTED);
        int now = recipe.event("--when", event);
        int bitCount = RecipeBuilder.bitsFor(cycles);
        // counts from 0 up to the last cycle, and stays there
        List<Integer> bits = recipe.builder().registers("count", bitCount, clock);
        int done = recipe.magnitudes().hasOnesOf(bits, cycles - 1);
        List<Integer> next =
                recipe.magnitudes().plusOne(bits, LogicGraph.not(done)).stream()
                        .map(b -> recipe.logic().and(b, LogicGraph.not(now)))
                        .toList();
        recipe.builder().drive(bits, next);
        int out =
                recipe.registered(RecipeBuilder.OUT, recipe.logic().or(now, LogicGraph.not(done)));
        String function =
                "High for "
                        + RecipeBuilder.cycles(cycles)
                        + " of "
                        + clock
                        + " from one cycle after each cycle in which "
                        + event.isTrue()
                        + ".";
        return recipe.circuit(out, function, 1, StartState.any(2 + (1 << bitCount)));
    }
}
