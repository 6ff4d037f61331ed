package padward.watch.place;

import java.util.List;
import java.util.Optional;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.fabric.CellFunction;
import padward.watch.circuit.Circuit;

/**
 * "Does this circuit fit on what the design leaves unused, and how?"
 *
 * @param design the finished design
 * @param circuit the circuit, made for the fabric's tables
 * @param pads index of the pad for each output of the circuit, in their order
 * @param driver what is wanted of the pads' drivers
 * @param lastAtPad where the register before the first pad has to be; empty to choose among free
 *     sites in the fabric
 * @param mayMove whether nets that are there may be rerouted, and cells relocated, where it does
 *     not fit otherwise
 */
public record WatchQuestion(
        Design design,
        Circuit circuit,
        List<Integer> pads,
        WantedDriver driver,
        Optional<PadRegister> lastAtPad,
        boolean mayMove) {
    /**
     * The register of a pad's IO register site.
     *
     * @param site index of the site
     * @param kind name of the kind of cell
     * @param function what that does
     */
    public record PadRegister(int site, String kind, CellFunction.Register function) {}

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

    /** A question that leaves all sites open. */
    public WatchQuestion(Design design, Circuit circuit, List<Integer> pads, WantedDriver driver) {
        this(design, circuit, pads, driver, Optional.empty(), false);
    }

    /** A question that leaves the drivers' settings to the pads' banks. */
    public WatchQuestion(Design design, Circuit circuit, List<Integer> pads) {
        this(design, circuit, pads, WantedDriver.NONE);
    }

    /** The same question about another circuit, with as many outputs. */
    public WatchQuestion with(Circuit other) {
        return new WatchQuestion(design, other, pads, driver, lastAtPad, mayMove);
    }

    /** The same question, with another answer to whether anything may be moved. */
    public WatchQuestion moving(boolean may) {
        return new WatchQuestion(design, circuit, pads, driver, lastAtPad, may);
    }
}
