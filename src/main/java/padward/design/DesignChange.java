package padward.design;

import java.util.List;

/**
 * How a design differs from the one before it, as records. What is put has the number of what it
 * replaces, or one from the collection's {@link Numbered#limit() limit} on when it is new; what is
 * removed is given as it stood.
 *
 * @param cells cells as they are from now on
 * @param cellsRemoved cells that are gone
 * @param nets nets as they are from now on
 * @param netsRemoved nets that are gone
 * @param ports ports as they are from now on
 * @param portsRemoved ports that are gone
 */
public record DesignChange(
        List<Cell> cells,
        List<Cell> cellsRemoved,
        List<Net> nets,
        List<Net> netsRemoved,
        List<Port> ports,
        List<Port> portsRemoved) {
    /** Copies the lists. */
    public DesignChange {
        cells = List.copyOf(cells);
        cellsRemoved = List.copyOf(cellsRemoved);
        nets = List.copyOf(nets);
        netsRemoved = List.copyOf(netsRemoved);
        ports = List.copyOf(ports);
        portsRemoved = List.copyOf(portsRemoved);
    }
}
