package padward.breakout.ask;

import java.util.Optional;
import padward.design.Occupant;
import padward.fabric.EdgeKind;
import padward.fabric.VertexKind;
import padward.fabric.delay.Delay;

/**
 * One step of a route: the vertex reached, and how.
 *
 * @param vertex the vertex reached
 * @param name its full name
 * @param kind what it is
 * @param tile name of its tile
 * @param edge the edge that led here; empty for the driver's own vertex
 * @param step delay of that edge
 * @param total delay from the driver to here
 * @param onNet whether the net is here already, before the breakout
 * @param obstacle what uses the vertex and must be removed first; empty when nothing does
 */
public record Hop(
        int vertex,
        String name,
        VertexKind kind,
        String tile,
        Optional<EdgeKind> edge,
        Delay step,
        Delay total,
        boolean onNet,
        Optional<Occupant> obstacle) {}
