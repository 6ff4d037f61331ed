package padward.fabric;

/**
 * One way to set a pad's driver.
 *
 * @param name name used in files
 * @param standard signalling standard, as the device's data sheet calls it
 * @param millivolts supply of the bank, mV
 * @param milliamps drive strength, mA
 * @param slew {@code slow} or {@code fast}
 * @param delay delay from the driver's input to the pad
 */
public record DriverSetting(
        String name, String standard, int millivolts, int milliamps, String slew, Delay delay) {}
