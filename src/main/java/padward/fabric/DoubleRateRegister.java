package padward.fabric;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import padward.fabric.delay.Delay;

/**
 * A register that drives at both edges of its clock: after each rising edge it shows the level that
 * one data pin had, after each falling edge that of the other. With a constant high and a constant
 * low it shows a copy of its clock.
 *
 * @param rising name of the data pin that is shown after a rising edge
 * @param falling name of the data pin that is shown after a falling edge
 * @param clock name of its clock pin
 * @param output name of its out pin
 * @param risingSetting name of the cell's setting, 0 or 1, that is the level of {@code rising}
 *     while nothing is connected there
 * @param fallingSetting the same for {@code falling}
 * @param clockToOutput delay from its clock to its output, of either edge
 */
public record DoubleRateRegister(
        String rising,
        String falling,
        String clock,
        String output,
        Optional<String> risingSetting,
        Optional<String> fallingSetting,
        Optional<Delay> clockToOutput) {
    /** All its pins. */
    public List<String> pins() {
        return List.of(rising, falling, clock, output);
    }

    /** Whether a site has the pins, in the right directions. */
    public boolean fits(SiteView site) {
        return has(site, rising, PinDirection.IN)
                && has(site, falling, PinDirection.IN)
                && has(site, clock, PinDirection.IN)
                && has(site, output, PinDirection.OUT);
    }

    private static boolean has(SiteView site, String name, PinDirection direction) {
        return site.pins().stream()
                .anyMatch(p -> p.name().equals(name) && p.direction() == direction);
    }

    /**
     * The settings with which it shows its clock in phase; empty when the fabric does not say how
     * its data pins become constant.
     */
    public Optional<Map<String, String>> copyOfClock() {
        if (risingSetting.isEmpty() || fallingSetting.isEmpty()) {
            return Optional.empty();
        }
        Map<String, String> settings = new TreeMap<>();
        settings.put(risingSetting.get(), "1");
        settings.put(fallingSetting.get(), "0");
        return Optional.of(settings);
    }

    /** Whether a cell with these settings shows its clock in phase. */
    public boolean isCopyOfClock(Map<String, String> settings) {
        return copyOfClock().filter(c -> settings.entrySet().containsAll(c.entrySet())).isPresent();
    }

    /** Names of its settings that the fabric states. */
    public List<String> settings() {
        List<String> result = new ArrayList<>();
        risingSetting.ifPresent(result::add);
        fallingSetting.ifPresent(result::add);
        return result;
    }
}
