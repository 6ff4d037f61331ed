package padward.fabric;

import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/**
 * A pad and its driver, enable and IO register sites.
 *
 * @param name full name, {@code x0y3/pad[1]}
 * @param vertex its vertex
 * @param tile number of its tile
 * @param packagePin pin or ball of the package, {@code ""} when the description gives none
 * @param bank bank it belongs to, {@code ""} when the description gives none
 * @param directions in which direction signals can cross it
 * @param dataSite the IO register site before its driver, or {@link Fabric#NOTHING}
 * @param enableSite the IO register site of its driver's enable, or {@link Fabric#NOTHING} when the
 *     driver is always on
 * @param defaultSetting name of the driver setting used when a port states none, {@code ""} for
 *     none
 * @param use what it is meant for, and whether the package connects it
 * @param enable what is known of its driver's enable
 */
public record Pad(
        String name,
        int vertex,
        int tile,
        String packagePin,
        String bank,
        PadDirections directions,
        int dataSite,
        int enableSite,
        String defaultSetting,
        PadUse use,
        PadEnable enable) {
    /**
     * Whether its driver drives with nothing done: it has no enable, or is on while nothing is
     * connected to that.
     */
    public boolean drivesUnasked() {
        return enableSite == Fabric.NOTHING || enable.unconnected() == PadEnable.Unconnected.ON;
    }
}
