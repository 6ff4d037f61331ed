package padward.watch.circuit;

/** Where an element of a circuit gets a value from. */
public sealed interface Signal {
    /**
     * A net of the design that the circuit observes: its tree is branched, never cut.
     *
     * @param net name of the net
     */
    record Observed(String net) implements Signal {}

    /**
     * The output of an element of the same circuit.
     *
     * @param element its number in {@link Circuit#elements()}
     */
    record Made(int element) implements Signal {}

    /**
     * The level at a pad that no port of the design reads yet, set by a jumper for example.
     *
     * @param pad name of the pad
     */
    record AtPad(String pad) implements Signal {}
}
