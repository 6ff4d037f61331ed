package padward.fabric;

import java.util.BitSet;

/**
 * Wires and sites that a description marks as not to be used: defective ones, or such as are set
 * aside for something else. No route goes over them and no cell is placed there. The pins of an
 * unusable site are unusable too. Immutable.
 */
public final class Unusable {
    /** Nothing is. */
    public static final Unusable NONE = new Unusable(new BitSet(), new BitSet());

    private final BitSet vertices;
    private final BitSet sites;

    private Unusable(BitSet vertices, BitSet sites) {
        this.vertices = vertices;
        this.sites = sites;
    }

    /**
     * What a fabric's description marks.
     *
     * @param fabric asked for the pins of the sites
     * @param wires the vertices of the wires
     * @param sites the numbers of the sites
     */
    public static Unusable of(Fabric fabric, BitSet wires, BitSet sites) {
        if (wires.isEmpty() && sites.isEmpty()) {
            return NONE;
        }
        BitSet vertices = (BitSet) wires.clone();
        sites.stream()
                .mapToObj(fabric::site)
                .forEach(s -> vertices.set(s.firstPin(), s.firstPin() + s.pins().size()));
        return new Unusable(vertices, (BitSet) sites.clone());
    }

    /** Whether nothing is. */
    public boolean isEmpty() {
        return vertices.isEmpty() && sites.isEmpty();
    }

    /** Whether a wire, or a pin of an unusable site, is. */
    public boolean isVertex(int vertex) {
        return vertices.get(vertex);
    }

    /** Whether a site is. */
    public boolean isSite(int site) {
        return sites.get(site);
    }

    /** The wires, and the pins of the sites; shared by searches, and not to be changed. */
    public BitSet vertices() {
        return vertices;
    }

    /** The sites; not to be changed. */
    public BitSet sites() {
        return sites;
    }

    /** How many sites. */
    public int siteCount() {
        return sites.cardinality();
    }
}
