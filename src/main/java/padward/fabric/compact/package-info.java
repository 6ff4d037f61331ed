/**
 * The compact copy of a fabric: how its parts are written as bytes and read back, each byte
 * checked. What a part consists of, and what must hold in it, the part says itself.
 */
package padward.fabric.compact;
