package padward.breakout.group;

import padward.design.Design;
import padward.design.Net;
import padward.timing.ExternalLineDelay;

/**
 * Whether the signals of a group can be registered by a clock.
 *
 * @param design the design
 * @param bus the group; its own routes are not used
 * @param clock the clock's net
 * @param clockMhz frequency of the clock, MHz; 0 when not known
 * @param external what is between pads and instrument
 * @param localPercent by how much two routes of the same delay can differ on one die
 */
public record RegisterQuestion(
        Design design,
        Bus bus,
        Net clock,
        double clockMhz,
        ExternalLineDelay external,
        double localPercent) {
    /** The same for another group. */
    public RegisterQuestion with(Bus other) {
        return new RegisterQuestion(design, other, clock, clockMhz, external, localPercent);
    }

    /** Period of the clock, ps; 0 when not known. */
    double periodPs() {
        return clockMhz > 0 ? 1e6 / clockMhz : 0;
    }
}
