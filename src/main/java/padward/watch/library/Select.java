package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;

/**
 * One of several nets, chosen by levels at nets or pads.
 *
 * @param nets names of the nets, 2 to 16, in the order of their numbers
 * @param steer what chooses, the lowest bit first
 * @param clock name of the clock's net, when a register stands before the output
 */
public record Select(List<String> nets, List<Signal> steer, Optional<String> clock)
        implements Recipe {
    static final int MOST_NETS = 16;

    /** Copies the lists. */
    public Select {
        nets = List.copyOf(nets);
        steer = List.copyOf(steer);
    }

    /** How many nets or pads it takes to choose between as many nets. */
    public static int bits(int nets) {
        return RecipeBuilder.bitsFor(nets);
    }

    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        RecipeBuilder recipe = new RecipeBuilder("select", kinds, clock);
        recipe.requireNets(nets.size(), 2, MOST_NETS);
        int bits = bits(nets.size());
        if (steer.size() != bits) {
            throw recipe.fault(
                    "--by",
                    bits
                            + (bits == 1 ? " net or pad" : " nets or pads")
                            + ", to choose between "
                            + nets.size()
                            + " nets",
                    steer.isEmpty() ? "none" : "" + steer.size());
        }
        List<Integer> which = steer.stream().map(recipe.builder()::signal).toList();
        int chosen = recipe.magnitudes().chosen(which, recipe.nets(nets));
        String none = nets.size() < 1 << bits ? "; low for other numbers" : "";
        String function =
                "The net whose number stands at "
                        + RecipeBuilder.listed(steer.stream().map(Select::name).toList())
                        + ", lowest bit first: "
                        + RecipeBuilder.numbered(nets)
                        + none
                        + ".";
        if (clock.isPresent()) {
            return recipe.circuit(
                    recipe.registered(RecipeBuilder.OUT, chosen), function, 1, StartState.any(1));
        }
        recipe.cautionOfGlitches();
        return recipe.circuit(chosen, function, 0, StartState.any(0));
    }

    private static String name(Signal signal) {
        return signal instanceof Signal.AtPad pad
                ? "pad " + pad.pad()
                : ((Signal.Observed) signal).net();
    }
}
