package padward.clearance;

import padward.design.Terminal;

/** Where the ends of a net are, or will be once a cell has moved. */
interface Ends {
    /** The vertex of a pin or pad. */
    int vertexOf(Terminal terminal);
}
