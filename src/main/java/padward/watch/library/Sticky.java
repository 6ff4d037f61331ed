package padward.watch.library;

import java.util.Optional;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Start;
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
        Making making = new Making("sticky", kinds, Optional.of(clock));
        int now = making.event("--when", event);
        boolean startsLow = kinds.startsLow();
        if (reset.isEmpty() && !startsLow) {
            throw making.fault(
                    "--reset",
                    "a condition, as the fabric does not state that its registers can start low",
                    "none");
        }
        int out =
                making.builder()
                        .register(
                                Making.OUT,
                                clock,
                                startsLow ? Optional.of(false) : Optional.empty());
        int remembered = making.logic().or(out, now);
        int next =
                reset.isPresent()
                        ? making.logic()
                                .and(
                                        remembered,
                                        LogicGraph.not(making.event("--reset", reset.get())))
                        : remembered;
        making.builder().drive(out, next);
        String until =
                reset.map(r -> ", until a cycle in which " + r.isTrue() + ".")
                        .orElse(", for good.");
        Start.Kind kind = reset.isPresent() ? Start.Kind.AFTER_RESET : Start.Kind.INITIAL_VALUES;
        return making.circuit(
                out,
                "High from one cycle of "
                        + clock
                        + " after the first cycle in which "
                        + event.isTrue()
                        + until,
                1,
                new Start(kind, 0));
    }
}
