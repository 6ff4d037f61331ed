package padward.timing;

import padward.design.Design;
import padward.design.PadWiring;
import padward.fabric.Delay;

/**
 * What lies between a pad and the instrument: the board's trace, a connector, a lead.
 *
 * @param dielectric dielectric constant of the board
 * @param connectorPs delay of the connector, ps
 * @param metres length of the leads
 * @param velocity their velocity factor
 * @param probePf what the lead's end and the instrument load the line with, pF
 */
public record ExternalLine(
        double dielectric, int connectorPs, double metres, double velocity, double probePf) {
    /** The handbook formula leaves the trace's shape out: so much either way. */
    public static final double TRACE_TOLERANCE = 0.1;

    /** A usual board, and nothing else between the pad and the instrument. */
    public static final ExternalLine NONE = new ExternalLine(4.3, 0, 0, 0.66, 0);

    /** Delay of the board's trace at a pad: an outer layer, ten per cent either way. */
    public Delay trace(Design design, int pad) {
        double millimetres =
                design.board().findWiring(pad).map(PadWiring::traceMillimetres).orElse(0.0);
        double ps = millimetres * LineDelay.microstripPsPerMm(dielectric);
        return new Delay(
                (int) Math.round(ps * (1 - TRACE_TOLERANCE)),
                (int) Math.round(ps * (1 + TRACE_TOLERANCE)));
    }

    /** Delay of the connector. */
    public Delay connector() {
        return new Delay(connectorPs, connectorPs);
    }

    /** Delay of the lead. */
    public Delay lead() {
        int ps = (int) Math.round(metres * LineDelay.cablePsPerMetre(velocity));
        return new Delay(ps, ps);
    }

    /** All three, for one pad. */
    public Delay delay(Design design, int pad) {
        return trace(design, pad).plus(connector()).plus(lead());
    }
}
