package padward.timing;

import padward.design.board.PadWiring;
import padward.fabric.delay.Delay;

/**
 * What lies between a pin and the instrument: the board's trace, a connector, a lead.
 *
 * @param dielectric dielectric constant of the board
 * @param connectorPs delay of the connector, ps
 * @param metres length of the leads
 * @param velocity their velocity factor
 * @param probePf what the lead's end and the instrument load the line with, pF
 */
public record ExternalLineDelay(
        double dielectric, int connectorPs, double metres, double velocity, double probePf) {
    /** The handbook formula leaves the trace's shape out: so much either way. */
    static final double TRACE_TOLERANCE = 0.1;

    /** Of a lead's velocity factor (common practice, no source). */
    static final double LEAD_TOLERANCE = 0.05;

    /** Of a connector's delay (common practice, no source). */
    static final double CONNECTOR_TOLERANCE = 0.2;

    /** A usual board and the tip of a usual lead, whose length is not counted. */
    public static final ExternalLineDelay USUAL = new ExternalLineDelay(4.3, 0, 0, 0.66, 10);

    /** The same with leads of another length. */
    public ExternalLineDelay withMetres(double length) {
        return new ExternalLineDelay(dielectric, connectorPs, length, velocity, probePf);
    }

    /** Delay of a trace on a layer, ps/mm, by the handbooks. */
    public double tracePsPerMm(PadWiring.Layer layer) {
        return switch (layer) {
            case OUTER -> LineDelay.microstripPsPerMm(dielectric);
            case INNER -> LineDelay.striplinePsPerMm(dielectric);
        };
    }

    /** Delay of the trace at a pad, as the handbooks' formula gives it, ps. */
    double tracePs(PadWiring wiring) {
        return wiring.traceMillimetres() * tracePsPerMm(wiring.layer());
    }

    /** The same with its tolerance. */
    Delay trace(PadWiring wiring) {
        return within(tracePs(wiring), TRACE_TOLERANCE);
    }

    /** Delay of the connector. */
    Delay connector() {
        return within(connectorPs, CONNECTOR_TOLERANCE);
    }

    /** Delay of the lead. */
    Delay lead() {
        return within(metres * LineDelay.cablePsPerMetre(velocity), LEAD_TOLERANCE);
    }

    private static Delay within(double ps, double tolerance) {
        return new Delay(
                (int) Math.round(ps * (1 - tolerance)), (int) Math.round(ps * (1 + tolerance)));
    }
}
