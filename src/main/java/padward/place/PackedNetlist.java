package padward.place;

import java.util.List;
import padward.design.Netlist;

/**
 * A netlist as blocks that are placed as a whole: each cell is one, and each port, with the
 * register in its pad's IO register site if there is one.
 *
 * @param netlist the netlist with packed registers renamed to their kinds and pins at pads
 * @param groups what groups of blocks there are, in words
 * @param groupOfBlock group of each block
 * @param blockOfCell block of each cell
 * @param blockOfPort block of each port
 * @param registerOfPort the cell packed with each port, or -1
 */
record PackedNetlist(
        Netlist netlist,
        List<String> groups,
        int[] groupOfBlock,
        int[] blockOfCell,
        int[] blockOfPort,
        int[] registerOfPort) {
    int blockCount() {
        return groupOfBlock.length;
    }
}
