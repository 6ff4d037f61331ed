package padward.synth;

import java.util.Optional;
import padward.design.Design;
import padward.fabric.pattern.PatternSpec;

/**
 * A fabric and a design, both made.
 *
 * @param spec the fabric's pattern; empty for an irregular fabric, which has none
 * @param design the design on the fabric of that pattern, with its board
 * @param leftOut how many nets could not be routed and are not in the design
 */
public record MadeDesign(Optional<PatternSpec> spec, Design design, int leftOut) {}
