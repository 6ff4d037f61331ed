package padward.synth;

import padward.design.Design;
import padward.fabric.pattern.PatternSpec;

/**
 * A fabric and a design, both made.
 *
 * @param spec the fabric's pattern
 * @param design the design on the fabric of that pattern, with its board
 * @param leftOut how many nets could not be routed and are not in the design
 */
public record MadeDesign(PatternSpec spec, Design design, int leftOut) {}
