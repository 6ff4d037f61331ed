/** Reads and writes fabrics, designs and boards as JSON, and names every fault of a file. */
package padward.format;
