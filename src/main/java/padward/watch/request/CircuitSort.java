package padward.watch.request;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;

/** The circuits of the library, with what has to be said about each. */
public enum CircuitSort {
    TRIGGER("high while a condition is true", EnumSet.of(Part.WHEN), EnumSet.of(Part.REGISTERED)),
    SELECT(
            "one of several nets, chosen by the levels at other nets or at pads",
            EnumSet.of(Part.NETS, Part.STEER),
            EnumSet.of(Part.REGISTERED)),
    COUNT(
            "each of several nets in turn, for some cycles; a second pad marks the first",
            EnumSet.of(Part.NETS, Part.CYCLES),
            EnumSet.noneOf(Part.class)),
    DIVIDE(
            "the clock, or the cycles in which a condition is true, divided by a number",
            EnumSet.of(Part.DIVISOR),
            EnumSet.of(Part.WHEN)),
    TOGGLE(
            "another level each time that a condition becomes true",
            EnumSet.of(Part.WHEN),
            EnumSet.noneOf(Part.class)),
    STRETCH(
            "high for some cycles after a condition was true",
            EnumSet.of(Part.WHEN, Part.CYCLES),
            EnumSet.noneOf(Part.class)),
    STICKY(
            "high from the first time that a condition is true, until a reset",
            EnumSet.of(Part.WHEN),
            EnumSet.of(Part.RESET)),
    SYNC(
            "a net of another clock, through two registers",
            EnumSet.of(Part.NETS),
            EnumSet.noneOf(Part.class)),
    REGISTER("a net, through one register", EnumSet.of(Part.NETS), EnumSet.noneOf(Part.class)),
    ANY(
            "high for a cycle after any of several nets has changed",
            EnumSet.of(Part.NETS),
            EnumSet.noneOf(Part.class)),
    PARITY(
            "high while an odd number of several nets is high",
            EnumSet.of(Part.NETS),
            EnumSet.of(Part.REGISTERED)),
    SIGNATURE(
            "a checksum of several nets over many cycles, from a reset on",
            EnumSet.of(Part.NETS, Part.RESET),
            EnumSet.of(Part.WHEN)),
    OWN(
            "what a netlist of your own makes of the nets that its inputs are bound to",
            EnumSet.of(Part.NETLIST, Part.MAPPING),
            EnumSet.of(Part.TOP, Part.BIND));

    /** What can be said about a circuit. */
    public enum Part {
        /** The nets that it observes. */
        NETS("--nets"),
        /** The condition that it shows or counts. */
        WHEN("--when"),
        /** The condition under which it begins again. */
        RESET("--reset"),
        /** The nets or pads whose levels choose. */
        STEER("--by"),
        /** By which number the clock is divided. */
        DIVISOR("--by"),
        /** A number of clock cycles. */
        CYCLES("--cycles"),
        /** Whether a register stands before the pad. */
        REGISTERED("--combinational"),
        /** The file of a netlist. */
        NETLIST("--netlist"),
        /** The file that says which kinds of cell the netlist's types are. */
        MAPPING("--mapping"),
        /** The top module of the netlist. */
        TOP("--top"),
        /** Which nets the netlist's inputs are. */
        BIND("--bind");

        private final String option;

        Part(String option) {
            this.option = option;
        }

        /** The option that states it; faults name it. */
        public String option() {
            return option;
        }
    }

    private final String purpose;
    private final Set<Part> needed;
    private final Set<Part> possible;

    CircuitSort(String purpose, Set<Part> needed, Set<Part> possible) {
        this.purpose = purpose;
        this.needed = needed;
        this.possible = possible;
    }

    /** Its word. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** What its pad shows, as a clause. */
    public String purpose() {
        return purpose;
    }

    /** Whether it cannot be made without this. */
    public boolean needs(Part part) {
        return needed.contains(part);
    }

    /** Whether this can be said about it. */
    public boolean has(Part part) {
        return needed.contains(part) || possible.contains(part);
    }

    /** Whether it shows several nets one at a time, so that it is smaller with fewer of them. */
    public boolean showsOneAtATime() {
        return this == SELECT || this == COUNT;
    }

    /** Whether it needs more than one pad, or may. */
    public boolean hasSeveralPads() {
        return this == COUNT || this == OWN;
    }
}
