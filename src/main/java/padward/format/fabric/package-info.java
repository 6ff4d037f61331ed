/** Reads and writes fabrics as JSON, in both forms. */
package padward.format.fabric;
