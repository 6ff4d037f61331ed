package padward.fabric.pad;

import java.util.List;
import java.util.Optional;
import padward.fabric.delay.AtCorners;

/**
 * Resistances and capacitances of a fabric's wires and switches, by kind of wire, where its maker
 * states them. Ends of switches that are no wires are of kind {@link #PIN} or {@link #PAD}.
 *
 * @param wires what is known of kinds of wire
 * @param switches what is known of switches and fixed connections; of several rows that fit, the
 *     first counts
 */
public record Electrical(List<WireLoad> wires, List<SwitchLoad> switches) {
    /** Nothing is known. */
    public static final Electrical UNKNOWN = new Electrical(List.of(), List.of());

    /** Stands for a site's pin where a kind of wire is asked for. */
    public static final String PIN = "pin";

    /** Stands for a pad where a kind of wire is asked for. */
    public static final String PAD = "pad";

    /** Stands for any kind. */
    public static final String ANY = "*";

    /** Copies the lists. */
    public Electrical {
        wires = List.copyOf(wires);
        switches = List.copyOf(switches);
    }

    /**
     * A kind of wire.
     *
     * @param wire its name
     * @param ohms resistance from end to end, ohms
     * @param femtofarads capacitance to ground, spread evenly along it, fF
     */
    public record WireLoad(String wire, AtCorners ohms, AtCorners femtofarads) {}

    /**
     * A kind of switch or fixed connection, named by what it joins.
     *
     * @param from kind of wire that it leaves, or {@link #PIN}, {@link #PAD}, {@link #ANY}
     * @param to kind of wire that it enters, or one of these
     * @param buffered whether it restores the signal; if not, it is a pass transistor, or plain
     *     metal
     * @param ohms buffered: output resistance; else resistance when closed, ohms
     * @param femtofarads buffered: what its input loads the wire before it with; else what it hangs
     *     on the wire behind it, fF
     */
    public record SwitchLoad(
            String from, String to, boolean buffered, AtCorners ohms, AtCorners femtofarads) {}

    /** Whether nothing is known, so that every edge's own delay is all there is. */
    public boolean isUnknown() {
        return wires.isEmpty() && switches.isEmpty();
    }

    /** What is known of a kind of wire. */
    public Optional<WireLoad> findWire(String wire) {
        return wires.stream().filter(w -> w.wire().equals(wire)).findFirst();
    }

    /** What is known of the switch between two kinds. */
    public Optional<SwitchLoad> findSwitch(String from, String to) {
        return switches.stream().filter(s -> fits(s.from(), from) && fits(s.to(), to)).findFirst();
    }

    private static boolean fits(String pattern, String kind) {
        return pattern.equals(ANY) || pattern.equals(kind);
    }
}
