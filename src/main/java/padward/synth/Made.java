package padward.synth;

import padward.design.Design;
import padward.fabric.PatternSpec;

/**
 * What was made.
 *
 * @param spec the fabric's pattern
 * @param design the design on the fabric of that pattern, with its board
 */
public record Made(PatternSpec spec, Design design) {}
