package padward.fabric.pattern;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.fabric.EdgeKind;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/**
 * The pattern form of a fabric: a hundred lines that describe any number of wires. Tile types are
 * placed on a grid; each says which wires start there, which sites and pads it has, and how its
 * switch box joins them. A wire that would leave the grid does not exist.
 *
 * @param info name, note, settings, banks, kinds of cell
 * @param columns tiles from left to right
 * @param rows tiles from bottom to top
 * @param wires kinds of wire
 * @param tileTypes types of tile
 * @param areas which type lies where; later areas lie over earlier ones; all tiles must be covered
 * @param padOverrides what is known of single pads beyond their type
 * @param unusable names of the wires and sites that are not to be used
 */
public record PatternSpec(
        FabricInfo info,
        int columns,
        int rows,
        List<WireKind> wires,
        List<TileType> tileTypes,
        List<Area> areas,
        List<PadOverride> padOverrides,
        UnusableNames unusable) {
    /** Copies the lists. */
    public PatternSpec {
        wires = List.copyOf(wires);
        tileTypes = List.copyOf(tileTypes);
        areas = List.copyOf(areas);
        padOverrides = List.copyOf(padOverrides);
    }

    /** One of which all wires and sites may be used. */
    public PatternSpec(
            FabricInfo info,
            int columns,
            int rows,
            List<WireKind> wires,
            List<TileType> tileTypes,
            List<Area> areas,
            List<PadOverride> padOverrides) {
        this(info, columns, rows, wires, tileTypes, areas, padOverrides, UnusableNames.NONE);
    }

    /**
     * Wires and sites that are not to be used.
     *
     * @param wires full names of wires
     * @param sites full names of sites
     */
    public record UnusableNames(List<String> wires, List<String> sites) {
        /** None of them. */
        public static final UnusableNames NONE = new UnusableNames(List.of(), List.of());

        /** Copies the lists. */
        public UnusableNames {
            wires = List.copyOf(wires);
            sites = List.copyOf(sites);
        }
    }

    /**
     * A kind of wire.
     *
     * @param name name, unique among wires
     * @param dx columns from its start to its end
     * @param dy rows from its start to its end
     * @param count how many start in each tile whose type lists it
     * @param delay delay of entering and running along it, without the switch
     * @param twoWay whether signals may enter and leave at both ends
     * @param use {@code general}, or a word for a dedicated purpose such as {@code clock}
     * @param taps where a signal can leave it on its way, and enter it if it is bidirectional:
     *     whole tiles from its start, rising, less than its length; only for wires along one axis
     */
    public record WireKind(
            String name,
            int dx,
            int dy,
            int count,
            Delay delay,
            boolean twoWay,
            String use,
            List<Integer> taps) {
        /** Copies the list. */
        public WireKind {
            taps = List.copyOf(taps);
        }

        /** A kind of wire that is entered and left at its ends only. */
        public WireKind(
                String name, int dx, int dy, int count, Delay delay, boolean twoWay, String use) {
            this(name, dx, dy, count, delay, twoWay, use, List.of());
        }

        /** Whether it runs along a row or a column. */
        boolean isAxial() {
            return (dx == 0) != (dy == 0);
        }

        /** In how many places a signal can leave it: its taps, then its end. */
        int exits() {
            return taps.size() + 1;
        }

        /** Columns from its start to an exit. */
        int exitDx(int exit) {
            return exit == taps.size() ? dx : Integer.signum(dx) * taps.get(exit);
        }

        /** Rows from its start to an exit. */
        int exitDy(int exit) {
            return exit == taps.size() ? dy : Integer.signum(dy) * taps.get(exit);
        }
    }

    /**
     * A type of tile.
     *
     * @param name name
     * @param wires names of the kinds of wire that start in it
     * @param sites groups of sites
     * @param pads groups of pads
     * @param rules how its switch box joins them
     */
    public record TileType(
            String name,
            List<String> wires,
            List<SiteGroup> sites,
            List<PadGroup> pads,
            List<Rule> rules) {
        /** Copies the lists. */
        public TileType {
            wires = List.copyOf(wires);
            sites = List.copyOf(sites);
            pads = List.copyOf(pads);
            rules = List.copyOf(rules);
        }
    }

    /**
     * Equal sites in one tile, named {@code name[0]}, {@code name[1]} …; plain {@code name} when
     * there is only one.
     *
     * @param name name in the tile
     * @param count how many
     * @param kind kind of site
     * @param accepts kinds of cell that it accepts; none where it has parts
     * @param pins groups of pins; none where it has parts
     * @param through pass-throughs of it; none where it has parts
     * @param parts its parts, if it has any
     */
    public record SiteGroup(
            String name,
            int count,
            String kind,
            List<String> accepts,
            List<PinGroup> pins,
            List<Through> through,
            List<PartGroup> parts) {
        /** Copies the lists. */
        public SiteGroup {
            accepts = List.copyOf(accepts);
            pins = List.copyOf(pins);
            through = List.copyOf(through);
            parts = List.copyOf(parts);
        }

        /** Sites without parts. */
        public SiteGroup(
                String name,
                int count,
                String kind,
                List<String> accepts,
                List<PinGroup> pins,
                List<Through> through) {
            this(name, count, kind, accepts, pins, through, List.of());
        }

        /** Its parts; of a site without parts the one without a name that the site itself is. */
        List<PartGroup> slots() {
            return parts.isEmpty() ? List.of(new PartGroup("", accepts, pins, through)) : parts;
        }
    }

    /**
     * A part of a site, which takes a cell of its own.
     *
     * @param name name inside the site; elsewhere it is {@code x3y4/cell[1]/name}
     * @param accepts kinds of cell that it accepts
     * @param pins groups of pins; elsewhere a pin is {@code site.pin}, without the part
     * @param through its pass-throughs
     */
    public record PartGroup(
            String name, List<String> accepts, List<PinGroup> pins, List<Through> through) {
        /** Copies the lists. */
        public PartGroup {
            accepts = List.copyOf(accepts);
            pins = List.copyOf(pins);
            through = List.copyOf(through);
        }
    }

    /**
     * Equal pins of a site, named like sites.
     *
     * @param name name at the site
     * @param count how many
     * @param direction in which direction signals go
     * @param alike as {@link padward.fabric.SitePin#alike}, of each of them
     */
    public record PinGroup(String name, int count, PinDirection direction, String alike) {
        /** Pins that are like no others. */
        public PinGroup(String name, int count, PinDirection direction) {
            this(name, count, direction, "");
        }
    }

    /**
     * A combinational connection through a site, from each pin of one group to each pin of another,
     * or between single pins.
     *
     * @param from name of a pin or a group of pins
     * @param to name of a pin or a group of pins
     * @param delay its delay
     */
    public record Through(String from, String to, Delay delay) {}

    /**
     * Equal pads in one tile, named like sites.
     *
     * @param name name in the tile
     * @param count how many
     * @param directions in which direction signals can cross them
     * @param dataSite name of the site group of the IO registers before their drivers, with as many
     *     sites as there are pads; {@code ""} for none
     * @param enableSite the same for the drivers' enables; {@code ""} when the drivers are always
     *     on
     * @param setting driver setting used when a port states none, {@code ""} for none
     * @param enable what is known of their enables
     */
    public record PadGroup(
            String name,
            int count,
            PadDirections directions,
            String dataSite,
            String enableSite,
            String setting,
            PadEnable enable) {
        /** Pads of whose enables nothing is known. */
        public PadGroup(
                String name,
                int count,
                PadDirections directions,
                String dataSite,
                String enableSite,
                String setting) {
            this(name, count, directions, dataSite, enableSite, setting, PadEnable.UNKNOWN);
        }
    }

    /**
     * One rule of a switch box. The groups are named: a kind of wire ({@code from}: those that end
     * or have a tap here, {@code to}: those that start here, both for bidirectional wires), pins as
     * {@code site.pin}, or pads. {@code cell.in} means all pins of the group {@code in} of all
     * sites of the group {@code cell}, site by site; {@code cell[1].in[0]} means one.
     *
     * @param from where signals come from
     * @param to where they go
     * @param map which members meet
     * @param kind {@link EdgeKind#SWITCH} or {@link EdgeKind#CONNECTION}
     * @param delay delay of the switch or fixed connection; that of the wire entered is added to it
     */
    public record Rule(String from, String to, IndexMap map, EdgeKind kind, Delay delay) {}

    /**
     * Where a type of tile lies: all tiles of a rectangle, or every n-th column of it.
     *
     * @param tileType name of the type
     * @param fromColumn first column
     * @param toColumn last column, included
     * @param fromRow first row
     * @param toRow last row, included
     * @param everyColumns 1 for all columns, n for each n-th from the first on
     */
    public record Area(
            String tileType,
            int fromColumn,
            int toColumn,
            int fromRow,
            int toRow,
            int everyColumns) {}

    /**
     * What is known of one pad beyond its type. An empty string leaves the type's word.
     *
     * @param pad full name, {@code x0y3/pad[1]}
     * @param packagePin pin or ball of the package
     * @param bank bank
     * @param directions word for its directions, empty to leave
     * @param setting driver setting
     * @param use what it is meant for, and whether the package connects it
     */
    public record PadOverride(
            String pad,
            String packagePin,
            String bank,
            Optional<PadDirections> directions,
            String setting,
            PadUse use) {}

    /** The kinds of wire by name. */
    public Map<String, WireKind> wiresByName() {
        return wires.stream().collect(Collectors.toMap(WireKind::name, w -> w, (a, b) -> a));
    }
}
