/** Whether an obstacle can make room: nets rerouted, cells relocated. */
package padward.unblock.move;
