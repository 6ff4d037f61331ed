package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;
import padward.watch.logic.LogicGraph;

/**
 * One period of the output for each so many cycles of a clock, or for each so many cycles in which
 * a condition is true.
 *
 * @param clock name of the clock's net
 * @param by how many, 2 to 65,536
 * @param counted the condition; without one, all cycles count
 */
public record Divide(String clock, int by, Optional<Event> counted) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("divide", kinds, Optional.of(clock));
        recipe.require("--by", by, 2, RecipeBuilder.MOST_COUNTED);
        int step = counted.isPresent() ? recipe.event("--when", counted.get()) : LogicGraph.HIGH;
        String what =
                counted.map(e -> by + " cycles of " + clock + " in which " + e.isTrue())
                        .orElse(by + " cycles of " + clock);
        String function =
                "One period for every " + what + "; high for " + by / 2 + " of the " + by + ".";
        return recipe.circuit(output(recipe, step), function, 1, StartState.any(4 * by));
    }

    private int output(RecipeBuilder recipe, int step) {
        if (Integer.bitCount(by) == 1) {
            List<Integer> bits = recipe.counter("count", by, step);
            return bits.get(bits.size() - 1);
        }
        int out = recipe.register(RecipeBuilder.OUT);
        if (by % 2 == 0) {
            int half = by / 2;
            List<Integer> bits = recipe.counter("count", half, step);
            int flip = recipe.logic().and(step, recipe.magnitudes().hasOnesOf(bits, half - 1));
            recipe.builder().drive(out, recipe.logic().xor(out, flip));
            return out;
        }
        List<Integer> bits = recipe.counter("count", by, step);
        int last = recipe.logic().and(step, recipe.magnitudes().hasOnesOf(bits, by - 1));
        int half = recipe.logic().and(step, recipe.magnitudes().hasOnesOf(bits, (by - 1) / 2));
        int next = recipe.logic().and(recipe.logic().or(out, half), LogicGraph.not(last));
        recipe.builder().drive(out, next);
        return out;
    }
}
