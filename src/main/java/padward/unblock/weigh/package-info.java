/** What removing a set of obstacles means: which are removable, movable, or lose a function. */
package padward.unblock.weigh;
