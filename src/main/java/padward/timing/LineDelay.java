package padward.timing;

/**
 * Delay of lines outside the chip.
 *
 * <p>Traces on boards by the formulas of the handbooks (constants as the MECL System Design
 * Handbook gives them, quoted after third parties): 85 ps an inch times the root of an effective
 * dielectric constant, which leave the trace's shape out; allow ten per cent. Cables by their
 * velocity factor.
 */
public final class LineDelay {
    private static final double PS_PER_INCH = 85;
    private static final double MM_PER_INCH = 25.4;
    private static final double LIGHT_MM_PER_PS = 0.299792458;

    private LineDelay() {}

    /** A trace on an outer layer, ps/mm. */
    public static double microstripPsPerMm(double dielectricConstant) {
        return PS_PER_INCH * Math.sqrt(0.475 * dielectricConstant + 0.67) / MM_PER_INCH;
    }

    /** A trace between planes, ps/mm. */
    public static double striplinePsPerMm(double dielectricConstant) {
        return PS_PER_INCH * Math.sqrt(dielectricConstant) / MM_PER_INCH;
    }

    /** A cable or lead, ps/m, by its velocity factor, the speed as a share of light's. */
    public static double cablePsPerMetre(double velocityFactor) {
        return 1000 / (LIGHT_MM_PER_PS * velocityFactor);
    }
}
