package padward.watch.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import padward.design.Design;
import padward.design.Net;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;
import padward.watch.circuit.TruthTable;

/** Circuits without a purpose, drawn for tests of where they can be placed. */
final class SomeCircuits {
    private SomeCircuits() {}

    /**
     * A circuit of tables and registers: each reads nets of the design and what was made before,
     * and the last one leaves.
     *
     * @param count how many elements
     * @param most inputs of a table
     * @param clock name of the registers' clock; empty for tables alone
     */
    static Circuit drawn(
            Design design, int count, int most, Optional<String> clock, Random random) {
        List<Net> nets = design.nets().stream().filter(n -> !n.clock()).toList();
        List<CircuitElement> elements = new ArrayList<>();
        for (int e = 0; e < count; e++) {
            List<Signal> inputs = new ArrayList<>();
            if (e > 0) {
                inputs.add(new Signal.Made(e - 1));
            }
            boolean register = clock.isPresent() && random.nextInt(3) == 0;
            int wanted = register ? 1 : 1 + random.nextInt(most);
            while (inputs.size() < wanted) {
                Signal more =
                        e > 0 && random.nextInt(3) == 0
                                ? new Signal.Made(random.nextInt(e))
                                : new Signal.Observed(nets.get(random.nextInt(nets.size())).name());
                if (!inputs.contains(more)) {
                    inputs.add(more);
                } else if (random.nextInt(4) == 0) {
                    break;
                }
            }
            elements.add(
                    register
                            ? new CircuitElement.Register(
                                    "r[" + e + "]", inputs.get(0), clock.get(), Optional.empty())
                            : new CircuitElement.Table(
                                    "t[" + e + "]",
                                    inputs,
                                    TruthTable.of(inputs.size(), row -> random.nextBoolean())));
        }
        return new Circuit(
                "some",
                "Nothing in particular.",
                elements,
                List.of(new Circuit.Output("out", new Signal.Made(count - 1))),
                0,
                StartState.any(0),
                List.of());
    }
}
