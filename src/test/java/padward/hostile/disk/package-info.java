/** Disks that fail, fill up, or stop with the program at any one of its operations. */
package padward.hostile.disk;
