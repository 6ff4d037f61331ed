package padward.ui.map;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.design.TileName;
import padward.ui.scene.WorldRectangle;

/** Finds the place of a name on the map: of a net, cell, pad, site, wire or tile. */
final class NameFinder {
    private NameFinder() {}

    /** Where the thing with a name is, or all pads that share it; empty when nothing has it. */
    static Optional<FoundPlace> find(OpenDesign opened, String text) {
        Design design = opened.design();
        String name = text.strip();
        Fabric fabric = design.fabric();
        if (name.isEmpty()) {
            return Optional.empty();
        }
        Optional<Net> net = design.findNet(name);
        if (net.isPresent()) {
            int[] all = net.get().route().toVertices();
            return Optional.of(
                    new FoundPlace(
                            OptionalInt.of(net.get().route().root()),
                            WorldRectangle.of(opened.layout(), Arrays.stream(all)),
                            net));
        }
        Optional<Cell> cell = design.findCell(name);
        if (cell.isPresent()) {
            return Optional.of(site(opened, fabric.site(cell.get().site())));
        }
        int vertex = fabric.findVertex(name);
        if (vertex != Fabric.NOTHING) {
            return Optional.of(vertex(opened, vertex));
        }
        int site = fabric.findSite(name);
        if (site != Fabric.NOTHING) {
            return Optional.of(site(opened, fabric.site(site)));
        }
        List<Integer> parts = fabric.findParts(name);
        if (!parts.isEmpty()) {
            return Optional.of(site(opened, fabric.site(parts.get(0))));
        }
        List<Integer> pads = PadNames.find(design, name);
        if (pads.size() == 1) {
            return Optional.of(vertex(opened, fabric.pads().get(pads.get(0)).vertex()));
        }
        OptionalInt tile = TileName.find(fabric, name);
        return tile.isPresent()
                ? Optional.of(tile(opened, tile.getAsInt()))
                : pads.stream()
                        .map(p -> pad(opened, fabric.pads().get(p)))
                        .reduce(WorldRectangle::with)
                        .map(all -> new FoundPlace(OptionalInt.empty(), all, Optional.empty()));
    }

    /** A wire with all that it spans; a pin with its site; a pad with its sites. */
    private static FoundPlace vertex(OpenDesign opened, int vertex) {
        Fabric fabric = opened.design().fabric();
        return switch (fabric.kind(vertex)) {
            case WIRE -> place(vertex, WorldRectangle.of(opened.layout(), IntStream.of(vertex)));
            case PIN -> place(vertex, whole(opened, fabric.site(fabric.siteOf(vertex))));
            case PAD -> place(vertex, pad(opened, fabric.findPadAt(vertex).orElseThrow()));
        };
    }

    private static WorldRectangle pad(OpenDesign opened, Pad pad) {
        WorldRectangle result = WorldRectangle.around(opened.layout().pillAt(pad.vertex()));
        for (int site : new int[] {pad.dataSite(), pad.enableSite()}) {
            if (site != Fabric.NOTHING) {
                result = result.with(whole(opened, opened.design().fabric().site(site)));
            }
        }
        return result;
    }

    private static WorldRectangle whole(OpenDesign opened, SiteView site) {
        TileLayout layout = opened.layout();
        return WorldRectangle.around(
                layout.frame(site.id()).orElseGet(() -> layout.site(site.id())));
    }

    private static FoundPlace place(int vertex, WorldRectangle whole) {
        return new FoundPlace(OptionalInt.of(vertex), whole, Optional.empty());
    }

    /** A site is marked at its first pin; one without pins at the first vertex of its tile. */
    private static FoundPlace site(OpenDesign opened, SiteView site) {
        OptionalInt marked =
                site.pins().isEmpty()
                        ? firstIn(opened, site.tile())
                        : OptionalInt.of(site.firstPin());
        return new FoundPlace(marked, whole(opened, site), Optional.empty());
    }

    private static FoundPlace tile(OpenDesign opened, int tile) {
        Fabric fabric = opened.design().fabric();
        double x = fabric.column(tile);
        double y = fabric.row(tile);
        return new FoundPlace(
                firstIn(opened, tile), new WorldRectangle(x, y, x + 1, y + 1), Optional.empty());
    }

    private static OptionalInt firstIn(OpenDesign opened, int tile) {
        int first = opened.index().first(tile);
        return first < opened.index().first(tile + 1)
                ? OptionalInt.of(opened.index().vertex(first))
                : OptionalInt.empty();
    }
}
