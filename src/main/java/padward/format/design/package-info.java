/** Reads and writes designs and boards as JSON, and checks the rules of sound designs. */
package padward.format.design;
