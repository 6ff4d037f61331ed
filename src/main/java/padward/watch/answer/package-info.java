/**
 * What a placed watch circuit costs and shows: price, lines out with their delays, setup and hold,
 * text.
 */
package padward.watch.answer;
