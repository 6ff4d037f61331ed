package padward.design;

/** What holds a resource of the fabric. Freeing it gives the resource back. */
public sealed interface Occupant {
    /** Name of the cell or net. */
    String name();

    /**
     * A cell: it holds its site, and the site's pins with it.
     *
     * @param cell the cell
     */
    record ByCell(Cell cell) implements Occupant {
        @Override
        public String name() {
            return cell.name();
        }
    }

    /**
     * A net: it holds wires, pads, and the sites that it goes through.
     *
     * @param net the net
     */
    record ByNet(Net net) implements Occupant {
        @Override
        public String name() {
            return net.name();
        }
    }
}
