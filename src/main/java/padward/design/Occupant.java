package padward.design;

/**
 * What uses a resource of the fabric: removing it gives the resource back. Searches handle
 * occupants by number: a net by its own, a cell by its own with {@link #CELLS} added, so that nets
 * come before cells in every order.
 */
public sealed interface Occupant {
    /** What is added to a cell's number; more nets than that are never read. */
    int CELLS = 1 << 30;

    /** The occupant's number for a net. */
    static int ofNet(int net) {
        return net;
    }

    /** The occupant's number for a cell. */
    static int ofCell(int cell) {
        return CELLS + cell;
    }

    /** Whether an occupant's number is a cell's. */
    static boolean isCell(int number) {
        return number >= CELLS;
    }

    /** The number of the cell that an occupant's number stands for. */
    static int cellOf(int number) {
        return number - CELLS;
    }

    /** The number of the net that an occupant's number stands for. */
    static int netOf(int number) {
        return number;
    }

    /** The occupant's number. */
    int number();

    /** Name of the cell or net. */
    String name();

    /**
     * A cell: it uses its site, and the site's pins with it.
     *
     * @param cell the cell
     */
    record ByCell(Cell cell) implements Occupant {
        @Override
        public int number() {
            return ofCell(cell.id());
        }

        @Override
        public String name() {
            return cell.name();
        }
    }

    /**
     * A net: it uses wires, pads, and the sites that it goes through.
     *
     * @param net the net
     */
    record ByNet(Net net) implements Occupant {
        @Override
        public int number() {
            return ofNet(net.id());
        }

        @Override
        public String name() {
            return net.name();
        }
    }
}
