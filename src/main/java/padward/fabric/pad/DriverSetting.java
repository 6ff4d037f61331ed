package padward.fabric.pad;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.base.Volts;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * One setting of a pad's driver.
 *
 * @param name name used in files
 * @param standard signalling standard, as the device's data sheet calls it
 * @param millivolts supply of the bank, mV
 * @param milliamps drive strength, mA
 * @param slew {@code slow} or {@code fast}
 * @param delay delay from the driver's input to the pad, at the rated load
 * @param output its rise time and what load does to it; empty when the fabric does not say
 * @param differential whether the fabric says that it drives two pads as a pair
 * @param edges its delay for each edge, where they are stated; {@code delay} spans both
 */
public record DriverSetting(
        String name,
        String standard,
        int millivolts,
        int milliamps,
        String slew,
        Delay delay,
        Optional<PadDriverOutput> output,
        boolean differential,
        Optional<EdgeDelays> edges) {
    /** Words in the names of standards that drive two pads as a pair. */
    private static final List<String> PAIRS =
            List.of("diff", "lvds", "pecl", "rsds", "tmds", "hcsl", "slvs");

    /** A setting of which the two edges are not told apart. */
    public DriverSetting(
            String name,
            String standard,
            int millivolts,
            int milliamps,
            String slew,
            Delay delay,
            Optional<PadDriverOutput> output,
            boolean differential) {
        this(
                name,
                standard,
                millivolts,
                milliamps,
                slew,
                delay,
                output,
                differential,
                Optional.empty());
    }

    /** A setting of which only the delay is known. */
    public DriverSetting(
            String name, String standard, int millivolts, int milliamps, String slew, Delay delay) {
        this(name, standard, millivolts, milliamps, slew, delay, Optional.empty(), false);
    }

    /**
     * Whether it drives two pads as a pair: the fabric says so, or the name of its standard does
     * (TIA/EIA-644 LVDS, PECL and others).
     */
    public boolean drivesPair() {
        String known = standard.toLowerCase(Locale.ROOT);
        return differential || PAIRS.stream().anyMatch(known::contains);
    }

    /** The setting as a clause: {@code lv33-8: LVCMOS 3.3 V, 8 mA, slow slew}. */
    public String toText() {
        String text = name + ": " + (standard.isEmpty() ? Volts.text(millivolts) : standard);
        return text + ", " + milliamps + " mA, " + slew + " slew";
    }

    /**
     * Which levels survive on the pad, as a sentence; empty where the two edges are not told apart.
     *
     * @param loadPf what hangs on the pad, pF
     */
    public Optional<String> shortestLevels(double loadPf) {
        Delay rise = output.map(o -> o.riseAt(loadPf)).orElse(Delay.ZERO);
        return edges.map(
                e ->
                        String.format(
                                Locale.ROOT,
                                "Edges to high and to low leave the driver up to %.3f ns apart: a high"
                                        + " level of less than %.3f ns or a low one of less than %.3f ns"
                                        + " does not reach its full height on the pad%s.",
                                e.apartPs() / 1000.0,
                                e.shortestHighPs(rise) / 1000.0,
                                e.shortestLowPs(rise) / 1000.0,
                                rise.slowPs() == 0
                                        ? ", and longer ones do not either where edges take long (no"
                                                + " rise time is stated)"
                                        : ""));
    }

    /**
     * The delay at a load; where the fabric does not say what load does, that at the rated one.
     *
     * @param loadPf what hangs on the pad, pF
     */
    public Delay delayAt(double loadPf) {
        return at(delay, loadPf);
    }

    /**
     * The delay for each edge at a load, as {@link #delayAt}; empty where the two edges are not
     * told apart.
     *
     * @param loadPf what hangs on the pad, pF
     */
    public Optional<EdgeDelays> edgesAt(double loadPf) {
        return edges.map(e -> new EdgeDelays(at(e.toHigh(), loadPf), at(e.toLow(), loadPf)));
    }

    private Delay at(Delay rated, double loadPf) {
        if (output.isEmpty()) {
            return rated;
        }
        int fast = ps(rated, output.get(), loadPf, Corner.FAST);
        // A small load takes away more where the resistance is greater.
        return new Delay(fast, Math.max(fast, ps(rated, output.get(), loadPf, Corner.SLOW)));
    }

    private static int ps(Delay rated, PadDriverOutput driver, double loadPf, Corner corner) {
        double ps = rated.at(corner) + driver.addedPs(loadPf, corner);
        return (int) Math.max(0, Math.round(ps));
    }
}
