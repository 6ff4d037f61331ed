package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Route;
import padward.design.Design;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;

/**
 * A hop of the route is chosen, on the strip map or the map; an empty or false member matches any.
 *
 * @param vertex full name of the vertex that the hop reaches
 * @param kind what the vertex is
 * @param edge kind of the edge that leads there
 * @param tile name of the tile in which the vertex starts
 * @param siteKind kind of the site whose pin it is
 * @param occupant name of the cell or net that uses it
 * @param branch whether the new branch leaves the net's tree there
 * @param slowest whether no hop of the route is slower
 */
public record HopCondition(
        Optional<String> vertex,
        Optional<VertexKind> kind,
        Optional<EdgeKind> edge,
        Optional<String> tile,
        Optional<String> siteKind,
        Optional<String> occupant,
        boolean branch,
        boolean slowest)
        implements Condition {
    @Override
    public boolean isFulfilled(WindowState state) {
        return state.chosenHop().filter(h -> fits(h, state)).isPresent();
    }

    private boolean fits(Hop hop, WindowState state) {
        Route route = state.route().orElseThrow();
        Fabric fabric = state.now().fabric();
        int site = fabric.siteOf(hop.vertex());
        return vertex.map(hop.name()::equals).orElse(true)
                && kind.map(k -> hop.kind() == k).orElse(true)
                && edge.map(e -> hop.edge().equals(Optional.of(e))).orElse(true)
                && tile.map(hop.tile()::equals).orElse(true)
                && siteKind.map(k -> site != Fabric.NOTHING && fabric.site(site).kind().equals(k))
                        .orElse(true)
                && occupant.map(n -> hop.obstacle().filter(o -> o.name().equals(n)).isPresent())
                        .orElse(true)
                && (!branch || route.hops().indexOf(hop) == route.branchHop())
                && (!slowest || hop.step().at(corner(state)) == longest(route, corner(state)));
    }

    private static Corner corner(WindowState state) {
        return state.question().map(q -> q.corner()).orElse(Corner.SLOW);
    }

    private static int longest(Route route, Corner corner) {
        return route.hops().stream().mapToInt(h -> h.step().at(corner)).max().orElse(0);
    }

    @Override
    public String toText() {
        List<String> parts = new ArrayList<>();
        vertex.ifPresent(v -> parts.add("it is " + v));
        kind.ifPresent(k -> parts.add("it is a " + k.name().toLowerCase(Locale.ROOT)));
        edge.ifPresent(e -> parts.add("a " + e.label() + " leads to it"));
        tile.ifPresent(t -> parts.add("it starts in tile " + t));
        siteKind.ifPresent(k -> parts.add("it is a pin of a site of kind " + k));
        occupant.ifPresent(n -> parts.add("it is used by " + n));
        if (branch) {
            parts.add("the new branch starts there");
        }
        if (slowest) {
            parts.add("no hop is slower");
        }
        String such = parts.isEmpty() ? "" : ": " + String.join(", ", parts);
        return "a hop is chosen" + such;
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                state.chosenHop()
                        .map(
                                h ->
                                        "the chosen hop is "
                                                + h.name()
                                                + h.edge()
                                                        .map(e -> ", through a " + e.label())
                                                        .orElse(", the driver")
                                                + ", "
                                                + h.step().toText())
                        .orElse("no hop has been chosen"));
    }

    @Override
    public List<Missing> missing(Design design) {
        List<Missing> result = new ArrayList<>();
        Fabric fabric = design.fabric();
        vertex.filter(v -> fabric.findVertex(v) == Fabric.NOTHING)
                .ifPresent(v -> result.add(new Missing("wire, pin or pad", v)));
        occupant.filter(n -> design.findCell(n).isEmpty() && design.findNet(n).isEmpty())
                .ifPresent(n -> result.add(new Missing("cell or net", n)));
        tile.filter(t -> !hasTile(fabric, t)).ifPresent(t -> result.add(new Missing("tile", t)));
        return result;
    }

    private static boolean hasTile(Fabric fabric, String name) {
        for (int at = 0; at < fabric.tileCount(); at++) {
            if (fabric.tileName(at).equals(name)) {
                return true;
            }
        }
        return false;
    }
}
