package padward.fabric;

/** What a vertex of the routing graph stands for. */
public enum VertexKind {
    /** A wire between switch boxes. */
    WIRE,
    /** A pin of a site. */
    PIN,
    /** A pad: the metal that leaves the chip. */
    PAD
}
