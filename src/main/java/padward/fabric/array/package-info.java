/** Arrays that grow, are read in pages, or keep equal contents once. */
package padward.fabric.array;
