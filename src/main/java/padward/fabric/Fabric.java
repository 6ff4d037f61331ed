package padward.fabric;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Everything fixed in the chip, as a graph. Vertices (wires, site pins, pads) and sites are dense
 * numbers from 0; tiles are numbered {@code y * columns + x}, x to the right, y upwards, both from
 * 0. Immutable and safe for all threads; cursors are not shared between threads.
 */
public interface Fabric {
    /** Stands for "no vertex", "no site", "no pad" where a number is returned. */
    int NOTHING = -1;

    /** Name, note, settings, banks, kinds of cell. */
    FabricInfo info();

    /** Number of tiles from left to right. */
    int columns();

    /** Number of tiles from bottom to top. */
    int rows();

    /** Type of a tile, as the description names it. */
    String tileType(int tile);

    /** Name of a tile, {@code x3y4}. */
    String tileName(int tile);

    /** Number of vertices. */
    int vertexCount();

    /** What a vertex is. */
    VertexKind kind(int vertex);

    /** Full name of a vertex; {@link #findVertex} finds it again. */
    String vertexName(int vertex);

    /** The vertex of that full name, its own or one that it has at a tap, or {@link #NOTHING}. */
    int findVertex(String name);

    /** The tile in which a vertex begins. */
    int tile(int vertex);

    /** The tile in which a vertex ends: for a wire, where its far switch box is. */
    int headTile(int vertex);

    /**
     * Where a vertex can be entered and left, in the order along it, at least one place. Of a wire
     * of which the description lists no taps that is where it begins and where it ends; of a pin or
     * pad its tile.
     */
    default List<Tap> taps(int vertex) {
        String name = vertexName(vertex);
        return Arrays.stream(tapTiles(vertex)).mapToObj(tile -> new Tap(tile, name)).toList();
    }

    /** The tiles of a vertex's taps, in the order along it; not to be changed. */
    default int[] tapTiles(int vertex) {
        int begin = tile(vertex);
        int end = headTile(vertex);
        return begin == end ? new int[] {begin} : new int[] {begin, end};
    }

    /** Whether the description lists the taps of a wire. */
    default boolean listsTaps(int vertex) {
        return false;
    }

    /** What a vertex is called in a tile: its name at its first tap there, else its own. */
    default String nameIn(int vertex, int tile) {
        return taps(vertex).stream()
                .filter(t -> t.tile() == tile)
                .map(Tap::name)
                .findFirst()
                .orElseGet(() -> vertexName(vertex));
    }

    /**
     * The tile that contains the switch or connection between two vertices: the one that the
     * description states, else the only one in which both have a tap. {@link #NOTHING} when the
     * description leaves it open.
     */
    default int switchTile(int from, int to) {
        return Taps.whereBothMeet(this, from, to);
    }

    /** Switches of which at most one can be on. */
    default SwitchGroups switchGroups() {
        return SwitchGroups.NONE;
    }

    /** Wires and sites that are not to be used. */
    default Unusable unusable() {
        return Unusable.NONE;
    }

    /** Kind of a wire, {@code ""} for other vertices. */
    String wireKind(int vertex);

    /** A new cursor over outgoing edges. */
    EdgeCursor edgesOut();

    /** A new cursor over incoming edges. */
    EdgeCursor edgesIn();

    /** Number of sites; each part of a site that states parts counts as one. */
    int siteCount();

    /** A site as a value. */
    SiteView site(int site);

    /** The kinds of cell that a site accepts; does not spell the site's name. */
    default List<String> acceptedBy(int site) {
        return site(site).accepts();
    }

    /** The pins of a site; does not spell its name. */
    default List<SitePin> pinsOf(int site) {
        return site(site).pins();
    }

    /** The vertex of a site's first pin; does not spell the site's name. */
    default int firstPin(int site) {
        return site(site).firstPin();
    }

    /** The vertex of the pin of that name at a site, or {@link #NOTHING}. O(pins). */
    default int findPin(int site, String pinName) {
        int pin = SitePin.find(pinsOf(site), pinName);
        return pin == NOTHING ? NOTHING : firstPin(site) + pin;
    }

    /** The site of a pin, {@link #NOTHING} for wires and pads. */
    int siteOf(int vertex);

    /** The site or part of that full name, or {@link #NOTHING}. */
    int findSite(String name);

    /**
     * The sites of other tiles that extend over a tile, in their order; none in most fabrics. O(1),
     * O(sites) the first time.
     */
    default List<Integer> sitesReaching(int tile) {
        return List.of();
    }

    /** Whether some site extends over several tiles. */
    default boolean hasWideSites() {
        return false;
    }

    /** The parts of the site of that full name, in their order; none when it has no parts. */
    default List<Integer> findParts(String site) {
        return List.of();
    }

    /** The sites of a tile, as the range from the first to before {@code firstSite(tile + 1)}. */
    int firstSite(int tile);

    /** All pads, in the order of their vertices. */
    List<Pad> pads();

    /** Column of a tile. */
    default int column(int tile) {
        return tile % columns();
    }

    /** Row of a tile. */
    default int row(int tile) {
        return tile / columns();
    }

    /** Number of tiles. */
    default int tileCount() {
        return columns() * rows();
    }

    /** What other packages calculate from this fabric and keep with it. */
    DerivedData derived();

    /** The pad at a vertex, or an empty {@link java.util.Optional}. O(log pads). */
    default Optional<Pad> findPadAt(int vertex) {
        List<Pad> all = pads();
        int low = 0;
        int high = all.size() - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int at = all.get(middle).vertex();
            if (at == vertex) {
                return Optional.of(all.get(middle));
            }
            if (at < vertex) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return Optional.empty();
    }
}
