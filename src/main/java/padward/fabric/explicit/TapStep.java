package padward.fabric.explicit;

import padward.fabric.Fabric;

/**
 * A tap relative to the tile in which its wire begins, so that the wires of equal tiles share it.
 *
 * @param tileStep the tap's tile less the wire's
 * @param nameStep the tile that the name there states less the wire's; 0 when it states none
 * @param rest the number in the pool of what the name is without the tile; {@link Fabric#NOTHING}
 *     where the wire has its own name
 */
record TapStep(int tileStep, int nameStep, int rest) {}
