/** Output for the bench and for other tools: bench sheets, change lists, delays. */
package padward.handover;
