package padward.ui.map;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import padward.base.Listing;
import padward.breakout.text.WhyText;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.CellKind;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.Tap;
import padward.fabric.VertexKind;
import padward.fabric.WholeSite;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadUse;
import padward.ui.design.BoxDiagram;
import padward.ui.design.ChannelFill;
import padward.ui.design.OpenDesign;

/** Describes a thing on the map: what it is, what uses it and what it drives. */
public final class MapItemDescriber {
    private static final int MOST_NAMED = 6;

    private final OpenDesign opened;
    private final Design design;
    private final Fabric fabric;

    /** Describes things of one design. */
    public MapItemDescriber(OpenDesign opened) {
        this.opened = opened;
        this.design = opened.design();
        this.fabric = design.fabric();
    }

    /** A tile: how full it is. */
    MapItem tile(int tile) {
        ChannelFill fill = opened.fill();
        List<String> details = new ArrayList<>();
        details.add(
                percent(fill.across(tile))
                        + " of the wires along the row and "
                        + percent(fill.along(tile))
                        + " of those along the column are in use here.");
        int sites = fabric.firstSite(tile + 1) - fabric.firstSite(tile);
        int cells = 0;
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            cells += design.occupancy().findCellOn(site).isPresent() ? 1 : 0;
        }
        if (sites > 0) {
            details.add(cells + " of its " + sites + " sites are used by a cell.");
        }
        String state =
                "type "
                        + fabric.tileType(tile)
                        + ", "
                        + percent(fill.of(tile))
                        + " of its wires in use";
        return new MapItem(
                "tile",
                fabric.tileName(tile),
                state,
                details,
                Fabric.NOTHING,
                tile,
                Optional.empty(),
                Optional.empty());
    }

    /** A switch box: its switches, and those that share a setting. */
    MapItem box(int tile) {
        BoxDiagram diagram = opened.diagram(tile);
        List<String> details = new ArrayList<>();
        for (BoxDiagram.Group group : diagram.groups()) {
            details.add(
                    "Of "
                            + group.switches().size()
                            + " switches here, one at the most can be on: switch group "
                            + group.name()
                            + ".");
        }
        return new MapItem(
                "switch box",
                fabric.tileName(tile),
                diagram.switches().size()
                        + " switches from "
                        + diagram.inputCount()
                        + " inputs, left, to "
                        + diagram.outputCount()
                        + " outputs, right",
                details.size() > MOST_NAMED ? details.subList(0, MOST_NAMED) : details,
                Fabric.NOTHING,
                tile,
                Optional.empty(),
                Optional.empty());
    }

    private static String percent(double share) {
        return Math.round(100 * share) + " %";
    }

    /** A site: which cells it accepts, the cell on it, the nets that this cell drives. */
    MapItem site(SiteView site) {
        Optional<Cell> cell = design.occupancy().findCellOn(site.id());
        List<String> details = new ArrayList<>();
        details.add("Accepts cells of kind " + String.join(", ", site.accepts()) + ".");
        details.addAll(functions(site));
        List<Net> driven = cell.map(c -> design.netsDrivenBy(c.id())).orElse(List.of());
        if (!driven.isEmpty()) {
            details.add("Drives " + named(driven.stream().map(Net::name).toList()) + ".");
        }
        return new MapItem(
                site.isPart() ? "part of a " + site.kind() + " site" : site.kind() + " site",
                site.name(),
                cell.map(
                                c ->
                                        "used by "
                                                + (c.locked() ? "locked " : "")
                                                + "cell "
                                                + c.name()
                                                + " of kind "
                                                + c.kind())
                        .orElse(fabric.unusable().isSite(site.id()) ? "unusable" : "free"),
                details,
                site.firstPin(),
                site.tile(),
                driven.stream().findFirst(),
                Optional.empty());
    }

    /** What the kinds of cell that a site accepts do, as far as the fabric states it. */
    private List<String> functions(SiteView site) {
        List<String> result = new ArrayList<>();
        for (CellKind kind : fabric.info().cellKinds()) {
            if (!site.accepts().contains(kind.name())) {
                continue;
            }
            kind.lookupTable()
                    .ifPresent(
                            t ->
                                    result.add(
                                            kind.name()
                                                    + " is a lookup table: "
                                                    + String.join(", ", t.inputs())
                                                    + " to "
                                                    + t.output()
                                                    + "."));
            kind.register()
                    .ifPresent(
                            r ->
                                    result.add(
                                            kind.name()
                                                    + " is a register: pins "
                                                    + String.join(", ", r.pins())
                                                    + "."));
            kind.doubleRate()
                    .ifPresent(
                            r ->
                                    result.add(
                                            kind.name()
                                                    + " is a register of both edges: pins "
                                                    + String.join(", ", r.pins())
                                                    + "."));
        }
        return result;
    }

    /** A site with parts: what each of them is used by. */
    MapItem whole(WholeSite site) {
        List<String> details = new ArrayList<>();
        long used = 0;
        for (SiteView part : site.parts()) {
            Optional<Cell> cell = design.occupancy().findCellOn(part.id());
            used += cell.isPresent() ? 1 : 0;
            details.add(
                    "Part "
                            + part.part()
                            + ": "
                            + cell.map(c -> "used by cell " + c.name())
                                    .orElse(
                                            fabric.unusable().isSite(part.id())
                                                    ? "unusable"
                                                    : "free")
                            + ".");
        }
        SiteView first = site.first();
        return new MapItem(
                first.kind() + " site",
                site.name(),
                used + " of its " + site.parts().size() + " parts used",
                details,
                first.firstPin(),
                first.tile(),
                Optional.empty(),
                Optional.empty());
    }

    /**
     * A pad, by its index: its pin and bank, the port that uses it, what the board connects to it.
     */
    MapItem pad(int index) {
        Pad pad = fabric.pads().get(index);
        List<String> details = new ArrayList<>();
        if (!pad.packagePin().isEmpty()) {
            details.add(
                    "Package pin "
                            + pad.packagePin()
                            + (pad.bank().isEmpty() ? "." : ", bank " + pad.bank() + "."));
        }
        details.addAll(padUse(pad));
        design.findPortOn(index)
                .ifPresent(p -> details.add("Port " + p.name() + " uses this pad."));
        Optional<PadWiring> wiring = design.board().findWiring(index);
        wiring.filter(w -> !w.net().isEmpty())
                .ifPresent(w -> details.add("Net on the board: " + w.net() + "."));
        List<String> attached =
                wiring.map(PadWiring::attachments).orElse(List.of()).stream()
                        .map(Attachment::toText)
                        .toList();
        if (!attached.isEmpty()) {
            details.add("On the board: " + named(attached) + ".");
        }
        return new MapItem(
                "pad",
                pad.name(),
                occupant(pad.vertex()),
                details,
                pad.vertex(),
                pad.tile(),
                design.occupancy().findNetOn(pad.vertex()),
                Optional.of(index));
    }

    /** What the fabric says of a pad itself. */
    private static List<String> padUse(Pad pad) {
        List<String> result = new ArrayList<>();
        PadUse use = pad.use();
        if (use.bonding() == PadUse.Bonding.UNBONDED) {
            result.add("Not bonded out: the package connects it to no pin.");
        }
        if (use.role() == PadUse.Role.CLOCK) {
            result.add("For a clock from the board; it leads to clock wires.");
        } else if (use.role() != PadUse.Role.GENERAL) {
            result.add("Role: " + use.role().label() + ". It is not offered unless you name it.");
        }
        if (!use.driving().partner().isEmpty()) {
            result.add("Differential pair with " + use.driving().partner() + ".");
        }
        if (use.driving().inverts()) {
            result.add("The path to it inverts the signal.");
        }
        if (!use.packageDelay().equals(Delay.ZERO)) {
            result.add("Delay in the package: " + use.packageDelay().toText() + ".");
        }
        return result;
    }

    /** What is in a tile, as {@link #vertex(int)}, a wire under its name in that tile. */
    MapItem vertexIn(int vertex, int tile) {
        MapItem item = vertex(vertex);
        String here = fabric.nameIn(vertex, tile);
        if (fabric.kind(vertex) != VertexKind.WIRE || here.equals(item.name())) {
            return item;
        }
        List<String> details = new ArrayList<>(item.details());
        details.add(0, "Called " + item.name() + " in answers.");
        return new MapItem(
                item.kind(),
                here,
                item.state(),
                details,
                item.vertex(),
                item.tile(),
                item.net(),
                item.pad());
    }

    /** Any vertex: a wire with what it can drive; for a pin, its site. */
    public MapItem vertex(int vertex) {
        if (fabric.kind(vertex) == VertexKind.PIN) {
            return site(fabric.site(fabric.siteOf(vertex)));
        }
        if (fabric.kind(vertex) == VertexKind.PAD) {
            return pad(opened.layout().pads().at(vertex));
        }
        return new MapItem(
                "wire",
                fabric.vertexName(vertex),
                occupant(vertex),
                wire(vertex),
                vertex,
                fabric.tile(vertex),
                design.occupancy().findNetOn(vertex),
                Optional.empty());
    }

    /** Where a wire can be entered and left, under which names, and what it can drive. */
    private List<String> wire(int vertex) {
        List<String> details = new ArrayList<>();
        if (fabric.listsTaps(vertex)) {
            List<Tap> taps = fabric.taps(vertex);
            details.add(
                    "Entered and left in "
                            + (taps.size() == 1 ? "1 tile: " : taps.size() + " tiles: ")
                            + named(taps.stream().map(this::tap).toList())
                            + ".");
        }
        details.addAll(leadsTo(vertex));
        return details;
    }

    private String tap(Tap tap) {
        String tile = fabric.tileName(tap.tile());
        return tap.name().startsWith(tile + "/") ? tap.name() : tap.name() + " in " + tile;
    }

    private String occupant(int vertex) {
        return lockedNet(vertex) + occupiedBy(vertex);
    }

    /** Whether the net that uses a vertex must stay as it is, as a word before who uses it. */
    private String lockedNet(int vertex) {
        return design.occupancy()
                .findNetOn(vertex)
                .filter(n -> n.lock().keepsWires())
                .map(n -> "locked, ")
                .orElse("");
    }

    private String occupiedBy(int vertex) {
        return design.occupancy()
                .findOccupant(vertex)
                .map(o -> "used by " + WhyText.who(o))
                .orElse(fabric.unusable().isVertex(vertex) ? "unusable" : "free");
    }

    private record Target(String name, Delay delay, boolean free) {
        String text() {
            return name + " " + delay.toText() + (free ? "" : " (in use)");
        }
    }

    /** What a vertex can drive, the shortest delay first. */
    private List<String> leadsTo(int vertex) {
        EdgeCursor edges = fabric.edgesOut();
        edges.reset(vertex);
        List<Target> targets = new ArrayList<>();
        while (edges.next()) {
            boolean free = !design.occupancy().isOccupied(edges.other());
            boolean known = edges.kind() != EdgeKind.PASS_THROUGH;
            String name =
                    fabric.vertexName(edges.other())
                            + (known ? where(vertex, edges.other()) : " through its site");
            targets.add(new Target(name, edges.delay(), free));
        }
        if (targets.isEmpty()) {
            return List.of("It cannot drive anything else.");
        }
        targets.sort(
                Comparator.comparing((Target t) -> t.delay().slowPs()).thenComparing(Target::name));
        long free = targets.stream().filter(Target::free).count();
        return List.of(
                "Can drive " + targets.size() + ", " + free + " of them free:",
                named(targets.stream().map(Target::text).toList()) + ".");
    }

    /** The tile of a switch that leaves a wire with taps, and its multiplexer group. */
    private String where(int from, int to) {
        int tile = fabric.listsTaps(from) ? fabric.switchTile(from, to) : Fabric.NOTHING;
        int group = fabric.switchGroups().groupOf(from, to);
        return (tile == Fabric.NOTHING ? "" : " in " + fabric.tileName(tile))
                + (group == Fabric.NOTHING
                        ? ""
                        : " (one of " + fabric.switchGroups().name(group) + ")");
    }

    private static String named(List<String> names) {
        return Listing.first(names, MOST_NAMED);
    }
}
