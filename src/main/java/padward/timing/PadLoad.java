package padward.timing;

import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDriverOutput;

/**
 * What a pad's driver has to drive. The board states its capacitance, or each part on it states its
 * own; otherwise the load is unknown, and the rated one is taken, because a lighter one that is
 * only guessed would make the slow corner too quick.
 *
 * <p>A trace counts once. Shorter than a sixth of the edge's length it is one point, whose
 * capacitance is in the load; a longer one is a line, whose delay counts and whose capacitance does
 * not (H. Johnson and M. Graham, "High-Speed Digital Design", 1993, chapter 1, from memory). Where
 * the load is unknown, the trace is always a line: data sheets rate drivers without one.
 *
 * @param picofarads what the calculation takes, pF
 * @param known whether the board states it; otherwise it is the rated load, or what is known to be
 *     on the pad if that is more
 * @param traceIncluded whether the trace is part of it
 */
public record PadLoad(double picofarads, boolean known, boolean traceIncluded) {
    /** A longer part of an edge's length is a line. */
    public static final double PART_OF_EDGE = 1.0 / 6;

    /** Impedance of a trace when nothing else is known, ohms. */
    private static final double TRACE_OHMS = 50;

    /** Where the setting does not say what load does. */
    private static final PadLoad IRRELEVANT = new PadLoad(0, false, false);

    /**
     * The load of a pad.
     *
     * @param setting how the pad's driver is set; empty when not known
     */
    static PadLoad of(
            Design design, int pad, Optional<DriverSetting> setting, ExternalLineDelay external) {
        Optional<PadDriverOutput> output = setting.flatMap(DriverSetting::output);
        Optional<PadWiring> wiring = design.board().findWiring(pad);
        return output.map(o -> of(o, wiring, external)).orElse(IRRELEVANT);
    }

    private static PadLoad of(
            PadDriverOutput output, Optional<PadWiring> wiring, ExternalLineDelay external) {
        double tracePs = wiring.map(external::tracePs).orElse(0.0);
        boolean point = tracePs <= output.rise().fastPs() * PART_OF_EDGE;
        double tracePf = tracePs / TRACE_OHMS;
        double stated = wiring.map(PadWiring::loadPf).orElse(0.0);
        if (stated > 0) {
            double board = point ? stated : Math.max(0, stated - tracePf);
            return new PadLoad(board + external.probePf(), true, point);
        }
        List<Attachment> parts = wiring.map(PadWiring::attachments).orElse(List.of());
        double sum = parts.stream().mapToDouble(Attachment::picofarads).sum();
        boolean all =
                sum > 0 && parts.stream().allMatch(a -> a.kind().probeable() || a.picofarads() > 0);
        double together = sum + external.probePf();
        return all
                ? new PadLoad(together + (point ? tracePf : 0), true, point)
                : new PadLoad(Math.max(output.ratedPf(), together), false, false);
    }
}
