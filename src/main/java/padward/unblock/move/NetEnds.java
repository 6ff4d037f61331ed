package padward.unblock.move;

import padward.design.Terminal;

/** Where the ends of a net are, or will be once a cell has moved. */
interface NetEnds {
    /** The vertex of a pin or pad. */
    int vertexOf(Terminal terminal);
}
