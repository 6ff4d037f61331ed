package padward.watch.library;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Start;

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
        Making making = new Making("parity", kinds, clock);
        making.requireNets(nets.size(), 2, Changes.MOST_NETS);
        int odd = making.many().parity(making.nets(nets));
        String function = "High while an odd number of " + Making.listed(nets) + " is high";
        if (clock.isPresent()) {
            return making.circuit(
                    making.registered(Making.OUT, odd),
                    function + ", one cycle of " + clock.get() + " later.",
                    1,
                    Start.any(1));
        }
        making.cautionOfGlitches();
        return making.circuit(odd, function + ".", 0, Start.any(0));
    }
}
