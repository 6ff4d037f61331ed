package padward.design;

import padward.fabric.review.Oddity;

/** What is valid in a design but seldom meant. */
public enum DesignOddity implements Oddity {
    /** Nets with sinks but no route. */
    UNROUTED_NETS("nets with sinks but no route"),
    /** Sinks that their net's route does not reach. */
    UNREACHED_SINKS("sinks that their net's route does not reach"),
    /** Nets without sinks. */
    NETS_WITHOUT_SINKS("nets without sinks"),
    /** Nets with branches that end at no sink. */
    STUBS("nets with branches that end at no sink"),
    /** Cells not connected to any net. */
    UNCONNECTED_CELLS("cells not connected to any net"),
    /** Ports not connected to any net. */
    UNCONNECTED_PORTS("ports not connected to any net"),
    /** Ports on pads that are not for signals of a design. */
    PORTS_ON_OTHER_PADS("ports on pads that are not for signals of a design"),
    /** Ports with a driver setting that their pad does not have. */
    FOREIGN_SETTINGS("ports with a driver setting that their pad does not have"),
    /** Cells on unusable sites. */
    CELLS_ON_UNUSABLE("cells on unusable sites"),
    /** Pins of the board on two of its nets. */
    PINS_ON_TWO_NETS("pins of the board on two of its nets"),
    /** Nets over unusable wires or pins. */
    NETS_OVER_UNUSABLE("nets over unusable wires or pins"),
    /** Sinks of clocks that no clock wire feeds. */
    SINKS_OFF_CLOCK_WIRES("sinks of clocks that no clock wire feeds"),
    /** No net is marked as a clock. */
    NO_CLOCK("no net is marked as a clock"),
    /** No board: what is connected to the pads is unknown. */
    NO_BOARD("no board: what is connected to the pads is unknown");

    private final String what;

    DesignOddity(String what) {
        this.what = what;
    }

    @Override
    public String what() {
        return what;
    }
}
