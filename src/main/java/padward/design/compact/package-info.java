/**
 * The compact copy of a design: how its parts are written as bytes and read back. Vertices, pins
 * and kinds of cell are numbers among what the fabric has at a place, so that whatever a copy says,
 * it names something there is.
 */
package padward.design.compact;
