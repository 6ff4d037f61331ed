package padward.handover;

import java.util.Locale;
import java.util.Optional;
import padward.breakout.ask.Caution;
import padward.design.board.PadWiring;
import padward.fabric.delay.Delay;
import padward.timing.ExternalLineDelay;
import padward.timing.PadLoad;

/**
 * Whether an edge is short against its line. A line longer than a sixth of the edge's length is no
 * longer one point: it reflects (H. Johnson and M. Graham, "High-Speed Digital Design", 1993,
 * chapter 1, from memory).
 */
final class Ringing {
    private Ringing() {}

    /**
     * The caution, if the line is long.
     *
     * @param rise rise time on the pad; zero when not known
     * @param wiring what the board has on the pad
     */
    static Optional<Caution> of(
            Delay rise, Optional<PadWiring> wiring, ExternalLineDelay external) {
        double traceMillimetres = wiring.map(PadWiring::traceMillimetres).orElse(0.0);
        PadWiring.Layer layer = wiring.map(PadWiring::layer).orElse(PadWiring.Layer.OUTER);
        double psPerMm = external.tracePsPerMm(layer);
        double leadMm = external.metres() * 1000;
        double edgeMm = rise.fastPs() / psPerMm;
        if (rise.fastPs() == 0 || traceMillimetres + leadMm <= edgeMm * PadLoad.PART_OF_EDGE) {
            return Optional.empty();
        }
        return Optional.of(
                new Caution(
                        Caution.Kind.RINGING,
                        String.format(
                                Locale.ROOT,
                                "The edge of %.2f ns is %.0f mm long, trace and lead are %.0f mm:"
                                        + " expect ringing. Use a resistor at the pin, the weakest"
                                        + " drive, or a lead with an isolating resistor.",
                                rise.fastPs() / 1000.0,
                                edgeMm,
                                traceMillimetres + leadMm)));
    }
}
