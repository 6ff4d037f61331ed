/** The board around a chip: which parts, headers and supplies hang on its pads. */
package padward.design.board;
