package padward.place;

import java.util.List;
import padward.design.Netlist;

/**
 * A netlist as blocks that are placed as a whole: each port, with the register in its pad's IO
 * register site if there is one, each pair of cells in two parts of one site, and each other cell.
 *
 * @param netlist the netlist with packed registers renamed to their kinds and pins at pads
 * @param groups what groups of blocks there are, in words
 * @param kindsOfGroup kinds of the cells in blocks of each group; none for ports
 * @param groupOfBlock group of each block
 * @param blockOfCell block of each cell
 * @param blockOfPort block of each port
 * @param registerOfPort the cell packed with each port, or -1
 * @param firstOfCell for each cell in the second part of its site the one in the first, or -1
 */
record PackedNetlist(
        Netlist netlist,
        List<String> groups,
        List<List<String>> kindsOfGroup,
        int[] groupOfBlock,
        int[] blockOfCell,
        int[] blockOfPort,
        int[] registerOfPort,
        int[] firstOfCell) {
    int blockCount() {
        return groupOfBlock.length;
    }
}
