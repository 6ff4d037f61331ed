/** What every layer may use: faults of input, progress of long work. Knows nothing of fabrics. */
package padward.base;
