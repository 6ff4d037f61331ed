package padward.fabric.pattern;

import padward.fabric.FabricLimits;

/**
 * Counts what tile types describe before any of it is made: a few characters can ask for thousands
 * of millions of pins or switches.
 */
final class TileSizes {
    private long connections;
    private long vertices;

    /** Another tile type begins. */
    void nextType() {
        vertices = 0;
    }

    /** So many wires, pins or pads more in the tile type. */
    void addVertices(long more, String place) throws PatternFault {
        vertices += more;
        if (vertices > FabricLimits.TILE_VERTICES) {
            throw new PatternFault(
                    place,
                    "at most "
                            + FabricLimits.TILE_VERTICES
                            + " wires, pins and pads in a tile type",
                    "more");
        }
    }

    /** What a rule between groups of these sizes connects. */
    void addRule(IndexMap map, long from, long to, String place) throws PatternFault {
        long pairs;
        if (map instanceof IndexMap.All) {
            pairs = from * to;
        } else if (map instanceof IndexMap.Spread spread) {
            pairs = to * spread.each();
        } else if (map instanceof IndexMap.Pairs listed) {
            pairs = listed.pairs().size();
        } else {
            pairs = Math.max(from, to);
        }
        addConnections(pairs, place);
    }

    /** So many connections more, in all tile types together. */
    void addConnections(long more, String place) throws PatternFault {
        connections += more;
        if (connections > FabricLimits.TILE_CONNECTIONS) {
            throw new PatternFault(
                    place,
                    "at most "
                            + FabricLimits.TILE_CONNECTIONS
                            + " switches, fixed connections and pass-throughs in all tile types",
                    "more");
        }
    }
}
