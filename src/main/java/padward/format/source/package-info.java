/** Files as sources of characters and bytes: opening, limits, faults, locks, folders. */
package padward.format.source;
