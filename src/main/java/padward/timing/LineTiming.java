package padward.timing;

import java.util.Optional;
import padward.design.Design;
import padward.design.RouteTree;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDriverOutput;

/**
 * The timing of one line that is brought out: when its signal arrives at the instrument, and what
 * of it is seen there.
 *
 * @param chain its delay, link by link
 * @param seen what the instrument sees
 */
public record LineTiming(Chain chain, InstrumentView seen) {
    /**
     * The timing of a net that is on a pad.
     *
     * @param tree the net's wires, the pad among them
     * @param pad index of the pad
     * @param setting how the pad's driver is set; empty when not known
     * @param clock whether the net is a clock
     */
    public static LineTiming of(
            Design design,
            RouteTree tree,
            int pad,
            Optional<DriverSetting> setting,
            ExternalLineDelay external,
            Instrument instrument,
            boolean clock) {
        Chain chain = Chain.of(design, tree, pad, setting, external);
        double load = chain.output().load().picofarads();
        Optional<PadDriverOutput> output = setting.flatMap(DriverSetting::output);
        return new LineTiming(
                chain,
                output.map(o -> InstrumentView.of(o, load, instrument, clock))
                        .orElseGet(() -> InstrumentView.unknown(instrument, clock)));
    }
}
