package padward.fabric.pad;

import java.util.List;

/**
 * What a fabric says of how a pad is driven.
 *
 * @param inverts whether the path through the IO register site and the driver inverts the signal
 * @param settings names of the driver settings that the pad has; empty when all that fit its bank
 * @param partner full name of the other pad of a differential pair, {@code ""} for none
 */
public record PadDriving(boolean inverts, List<String> settings, String partner) {
    /** Of a pad of which nothing of the kind is said. */
    public static final PadDriving UNSTATED = new PadDriving(false, List.of(), "");

    /** Copies the list. */
    public PadDriving {
        settings = List.copyOf(settings);
    }

    /** Whether the pad has a driver setting. */
    public boolean allows(String setting) {
        return settings.isEmpty() || settings.contains(setting);
    }
}
