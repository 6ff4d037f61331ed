package padward.synth;

import padward.design.Design;
import padward.fabric.pattern.PatternSpec;

/**
 * What was made.
 *
 * @param spec the fabric's pattern
 * @param design the design on the fabric of that pattern, with its board
 * @param leftOut how many nets found no way of their own and are not in the design
 */
public record MadeDesign(PatternSpec spec, Design design, int leftOut) {}
