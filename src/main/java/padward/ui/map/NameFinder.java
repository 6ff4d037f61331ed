package padward.ui.map;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.ui.design.OpenDesign;

/** Finds the place of a name on the map: of a net, cell, pad, site, wire or tile. */
final class NameFinder {
    private NameFinder() {}

    /** The vertex at which the thing with a name is shown. */
    static OptionalInt find(OpenDesign opened, String text) {
        Design design = opened.design();
        String name = text.strip();
        Fabric fabric = design.fabric();
        if (name.isEmpty()) {
            return OptionalInt.empty();
        }
        Optional<Net> net = design.findNet(name);
        if (net.isPresent()) {
            return OptionalInt.of(net.get().route().root());
        }
        Optional<Cell> cell = design.findCell(name);
        if (cell.isPresent()) {
            return at(opened, fabric.site(cell.get().site()));
        }
        int vertex = fabric.findVertex(name);
        if (vertex != Fabric.NOTHING) {
            return OptionalInt.of(vertex);
        }
        int site = fabric.findSite(name);
        if (site != Fabric.NOTHING) {
            return at(opened, fabric.site(site));
        }
        List<Integer> pads = PadNames.find(design, name);
        if (pads.size() == 1) {
            return OptionalInt.of(fabric.pads().get(pads.get(0)).vertex());
        }
        return inTile(opened, name);
    }

    /** A site's first pin; of a site without pins, the first vertex of its tile. */
    private static OptionalInt at(OpenDesign opened, SiteView site) {
        return site.pins().isEmpty()
                ? inTile(opened, opened.design().fabric().tileName(site.tile()))
                : OptionalInt.of(site.firstPin());
    }

    /** The first vertex of the tile with that name. */
    private static OptionalInt inTile(OpenDesign opened, String name) {
        Fabric fabric = opened.design().fabric();
        if (!name.matches("x\\d{1,6}y\\d{1,6}")) {
            return OptionalInt.empty();
        }
        int y = name.indexOf('y');
        int column = Integer.parseInt(name.substring(1, y));
        int row = Integer.parseInt(name.substring(y + 1));
        if (column >= fabric.columns() || row >= fabric.rows()) {
            return OptionalInt.empty();
        }
        int tile = row * fabric.columns() + column;
        int first = opened.index().first(tile);
        return first < opened.index().first(tile + 1)
                ? OptionalInt.of(opened.index().vertex(first))
                : OptionalInt.empty();
    }
}
