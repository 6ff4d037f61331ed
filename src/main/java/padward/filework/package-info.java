/**
 * Work that reads files and writes others: deskewing a capture, importing tables, placing and
 * routing a netlist. Commands and the window share it.
 */
package padward.filework;
