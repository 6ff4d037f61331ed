package padward.watch.place;

import java.util.List;
import padward.breakout.ask.DriverWish;
import padward.design.Design;
import padward.watch.circuit.Circuit;

/**
 * "Does this circuit fit on what the design leaves unused, and how?"
 *
 * @param design the finished design
 * @param circuit the circuit, made for the fabric's tables
 * @param pads index of the pad for each output of the circuit, in their order
 * @param driver what is wanted of the pads' drivers
 */
public record WatchQuestion(Design design, Circuit circuit, List<Integer> pads, DriverWish driver) {
    /**
     * Copies the list.
     *
     * @throws IllegalArgumentException when outputs and pads differ in number, or a pad is given
     *     twice
     */
    public WatchQuestion {
        pads = List.copyOf(pads);
        if (pads.size() != circuit.outputs().size()) {
            throw new IllegalArgumentException(
                    pads.size() + " pads for " + circuit.outputs().size() + " outputs");
        }
        if (pads.stream().distinct().count() != pads.size()) {
            throw new IllegalArgumentException("a pad is given twice");
        }
    }

    /** A question that leaves the drivers' settings to the pads' banks. */
    public WatchQuestion(Design design, Circuit circuit, List<Integer> pads) {
        this(design, circuit, pads, DriverWish.NONE);
    }
}
