package padward.watch.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;
import padward.watch.logic.LogicGraph;

/**
 * A cyclic redundancy check of what nets do: polynomial x^16 + x^12 + x^5 + 1 (hexadecimal 1021),
 * begun with all ones by a reset. The first net enters with the feedback, so that one net alone
 * gives the check of its bits; net i enters at bit i mod 16.
 *
 * @param nets names of the nets
 * @param clock name of the clock's net
 * @param reset the condition that begins it
 * @param show the condition while which the check is shifted out, highest bit first; without it the
 *     output is the highest bit
 */
public record Signature(List<String> nets, String clock, Event reset, Optional<Event> show)
        implements Recipe {
    private static final int BITS = 16;
    private static final int POLYNOMIAL = 0x1021;

    /** Copies the list. */
    public Signature {
        nets = List.copyOf(nets);
    }

    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("signature", kinds, Optional.of(clock));
        recipe.requireNets(nets.size(), 1, AnyChange.MOST_NETS);
        LogicGraph logic = recipe.logic();
        int restart = recipe.event("--reset", reset);
        int taken =
                show.isPresent()
                        ? LogicGraph.not(recipe.event("--when", show.get()))
                        : LogicGraph.HIGH;
        List<Integer> state = recipe.builder().registers("check", BITS, clock);
        List<List<Integer>> entering = new ArrayList<>();
        for (int i = 0; i < BITS; i++) {
            entering.add(new ArrayList<>());
        }
        List<Integer> literals = recipe.nets(nets);
        for (int i = 1; i < literals.size(); i++) {
            entering.get(i % BITS).add(literals.get(i));
        }
        int feedback = logic.and(taken, logic.xor(state.get(BITS - 1), literals.get(0)));
        for (int i = 0; i < BITS; i++) {
            int next = i == 0 ? LogicGraph.LOW : state.get(i - 1);
            next = (POLYNOMIAL >> i & 1) != 0 ? logic.xor(next, feedback) : next;
            next = logic.xor(next, logic.and(taken, recipe.many().parity(entering.get(i))));
            recipe.builder().drive(state.get(i), logic.or(next, restart));
        }
        String shown =
                show.map(s -> "; while " + s.isTrue() + ", it is shifted out, highest bit first.")
                        .orElse("; the output is its highest bit.");
        return recipe.circuit(
                state.get(BITS - 1),
                "A cyclic redundancy check (1021, begun with all ones by "
                        + reset.quoted()
                        + ") of "
                        + RecipeBuilder.listed(nets)
                        + " at each cycle of "
                        + clock
                        + shown,
                1,
                new StartState(StartState.Kind.AFTER_RESET, 0));
    }
}
