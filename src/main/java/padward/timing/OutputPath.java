package padward.timing;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.design.Design;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.EdgeDelays;

/**
 * From a pad's driver to the instrument: the second half of every line that is brought out, and the
 * one place where it is calculated.
 *
 * @param load what the driver drives
 * @param rated the driver's delay at its rated load
 * @param driver its delay at {@code load}
 * @param inPackage from the pad to the pin or ball
 * @param trace the board's trace; zero where it is part of the load
 * @param connector the connector
 * @param lead the lead
 * @param edges the driver's delay for each edge, at {@code load}; empty where that is not stated
 */
public record OutputPath(
        PadLoad load,
        Delay rated,
        Delay driver,
        Delay inPackage,
        Delay trace,
        Delay connector,
        Delay lead,
        Optional<EdgeDelays> edges) {
    /**
     * The output path of a pad.
     *
     * @param setting how its driver is set; empty when not known, then it adds nothing
     */
    public static OutputPath of(
            Design design, int pad, Optional<DriverSetting> setting, ExternalLineDelay external) {
        PadLoad load = PadLoad.of(design, pad, setting, external);
        Optional<PadWiring> line =
                design.board().findWiring(pad).filter(w -> !load.traceIncluded());
        return new OutputPath(
                load,
                setting.map(DriverSetting::delay).orElse(Delay.ZERO),
                setting.map(s -> s.delayAt(load.picofarads())).orElse(Delay.ZERO),
                design.fabric().pads().get(pad).use().packageDelay(),
                line.map(external::trace).orElse(Delay.ZERO),
                external.connector(),
                external.lead(),
                setting.flatMap(s -> s.edgesAt(load.picofarads())));
    }

    /** From a pad's driver to the pin, at the driver's rated load. */
    public static Delay toPin(Pad pad, Optional<DriverSetting> setting) {
        return setting.map(DriverSetting::delay).orElse(Delay.ZERO).plus(pad.use().packageDelay());
    }

    /** From the driver to the pin, at the rated load. */
    public Delay toPin() {
        return rated.plus(inPackage);
    }

    /** From the driver to the instrument, at the load that is stated. */
    public Delay toInstrument() {
        return Stream.concat(Stream.of(driver), outside().stream()).reduce(Delay.ZERO, Delay::plus);
    }

    /** The parts that do not share the die's corner. */
    private List<Delay> outside() {
        return List.of(inPackage, trace, connector, lead);
    }

    /**
     * A signal's arrival at the instrument.
     *
     * @param toPad its delay from the net's driver to the pad's driver
     */
    public Arrival after(Delay toPad) {
        double squares = 0;
        int outsidePs = 0;
        for (Delay part : outside()) {
            outsidePs += part.middlePs();
            double off = Math.ceil(part.spreadPs() / 2.0);
            squares += off * off;
        }
        // Which edge it is, is not known here: either is so far from the middle, at any corner.
        int half = edges.map(EdgeDelays::halfApartPs).orElse(0);
        int tolerance = (int) Math.ceil(Math.sqrt(squares) + half);
        Delay middle = edges.map(EdgeDelays::middle).orElse(driver);
        return new Arrival(middle, outsidePs, tolerance, edges).after(toPad);
    }
}
