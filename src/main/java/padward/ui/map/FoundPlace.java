package padward.ui.map;

import java.util.Optional;
import java.util.OptionalInt;
import padward.design.Net;
import padward.ui.scene.WorldRectangle;

/**
 * Where the thing with a name is on the map.
 *
 * @param vertex the vertex that is marked; empty for a tile without any, and for several pads
 * @param whole all of it: every wire of a net, a site over all its tiles, a pad with its sites
 * @param net the net, if it is one
 */
record FoundPlace(OptionalInt vertex, WorldRectangle whole, Optional<Net> net) {}
