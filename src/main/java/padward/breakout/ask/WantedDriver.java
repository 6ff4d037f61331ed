package padward.breakout.ask;

/**
 * What somebody wants of the driver that shows a net.
 *
 * @param setting name of the driver's setting; {@code ""} for the gentlest that will do
 * @param signalMhz highest frequency of the signal, MHz; 0 when not known
 */
public record WantedDriver(String setting, double signalMhz) {
    /** Nothing in particular: the gentlest setting that fits the bank. */
    public static final WantedDriver NONE = new WantedDriver("", 0);

    /** A wish for a setting. */
    public static WantedDriver of(String setting) {
        return new WantedDriver(setting, 0);
    }

    /** Whether a certain setting is wanted. */
    public boolean isNamed() {
        return !setting.isEmpty();
    }
}
