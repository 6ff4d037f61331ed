package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;
import padward.watch.logic.LogicGraph;

/**
 * High from the first time that a condition is true until a reset.
 *
 * @param event the condition
 * @param clock name of the clock's net
 * @param reset the condition that makes it low, before the first; without it, only the device's
 *     start does
 */
public record Sticky(Event event, String clock, Optional<Event> reset) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("sticky", kinds, Optional.of(clock));
        int now = recipe.event("--when", event);
        boolean startsLow = kinds.startsLow();
        if (reset.isEmpty() && !startsLow) {
            throw recipe.fault(
                    "--reset",
                    "a condition, as the fabric does not state that its registers can start low",
                    "none");
        }
        int out =
                recipe.builder()
                        .register(
                                RecipeBuilder.OUT,
                                clock,
                                startsLow ? Optional.of(false) : Optional.empty());
        int remembered = recipe.logic().or(out, now);
        int next =
                reset.isPresent()
                        ? recipe.logic()
                                .and(
                                        remembered,
                                        LogicGraph.not(recipe.event("--reset", reset.get())))
                        : remembered;
        recipe.builder().drive(out, next);
        String until =
                reset.map(r -> ", until a cycle in which " + r.isTrue() + ".")
                        .orElse(", for good.");
        StartState.Kind kind =
                reset.isPresent() ? StartState.Kind.AFTER_RESET : StartState.Kind.INITIAL_VALUES;
        return recipe.circuit(
                out,
                "High from one cycle of "
                        + clock
                        + " after the first cycle in which "
                        + event.isTrue()
                        + until,
                1,
                new StartState(kind, 0));
    }
}
