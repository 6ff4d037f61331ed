package padward.handover;

import java.util.List;
import java.util.Optional;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.AlikePins;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.SiteView;

/**
 * An end of a net that took the place of an alike one of its cell.
 *
 * @param before the end whose place it took, {@code cell.pin}
 * @param setting the cell's setting that states its function, which follows the pins; {@code ""}
 *     where it is not known
 */
record SwappedEnd(String before, String setting) {
    /**
     * The one whose place an end took between two designs. The i-th of the new ends at the alike
     * pins of a cell took the place of the i-th of the old ones.
     *
     * @param net name of a net in both
     * @param end one of its ends that is new, {@code cell.pin}
     */
    static Optional<SwappedEnd> find(Design before, Design after, String net, String end) {
        Optional<Net> old = before.findNet(net);
        Optional<Net> now = after.findNet(net);
        if (old.isEmpty() || now.isEmpty()) {
            return Optional.empty();
        }
        Optional<Terminal.CellPin> at =
                pins(now.get()).stream().filter(p -> after.textOf(p).equals(end)).findFirst();
        if (at.isEmpty()) {
            return Optional.empty();
        }
        Cell cell = after.cells().get(at.get().cell());
        if (before.findCell(cell.name()).isEmpty()) {
            return Optional.empty();
        }
        List<Terminal.CellPin> fresh = alike(after, now.get(), old.get(), cell, at.get());
        List<Terminal.CellPin> gone = alike(before, old.get(), now.get(), cell, at.get());
        int place = fresh.indexOf(at.get());
        return place >= gone.size()
                ? Optional.empty()
                : Optional.of(
                        new SwappedEnd(
                                before.textOf(gone.get(place)),
                                setting(after, cell, at.get().pin())));
    }

    /** The ends at pins like one that a net has and another state of it has not. */
    private static List<Terminal.CellPin> alike(
            Design design, Net net, Net other, Cell cell, Terminal.CellPin pin) {
        SiteView site = design.fabric().site(cell.site());
        return pins(net).stream()
                .filter(p -> p.cell() == pin.cell() && !other.sinks().contains(p))
                .filter(
                        p ->
                                p.pin().equals(pin.pin())
                                        || AlikePins.canSwap(
                                                design.fabric(),
                                                site,
                                                cell.kind(),
                                                p.pin(),
                                                pin.pin()))
                .toList();
    }

    private static List<Terminal.CellPin> pins(Net net) {
        return net.sinks().stream()
                .filter(Terminal.CellPin.class::isInstance)
                .map(Terminal.CellPin.class::cast)
                .toList();
    }

    private static String setting(Design design, Cell cell, String pin) {
        return design.fabric()
                .info()
                .findCellKind(cell.kind())
                .flatMap(CellKind::lookupTable)
                .filter(table -> table.inputs().contains(pin))
                .filter(table -> states(cell, table))
                .map(CellFunction.LookupTable::setting)
                .orElse("");
    }

    private static boolean states(Cell cell, CellFunction.LookupTable table) {
        String contents = cell.settings().getOrDefault(table.setting(), "");
        String first = table.inputs().get(0);
        return table.swapped(contents, first, first).isPresent();
    }
}
