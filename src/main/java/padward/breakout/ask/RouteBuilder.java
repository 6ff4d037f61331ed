package padward.breakout.ask;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.route.search.VertexPath;
import padward.timing.EdgeFinder;
import padward.timing.OutputPath;
import padward.timing.TreeDelays;
import padward.unblock.release.FanOut;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.ResourceText;
import padward.unblock.release.SharedPins;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;

/** Turns a found path into a route with names, delays and obstacles. */
public final class RouteBuilder {
    private final Question question;
    private final Design design;
    private final Fabric fabric;
    private final QuestionContext situation;
    private final FanOut fanOut;

    public RouteBuilder(Question question, QuestionContext situation) {
        this.question = question;
        this.design = question.design();
        this.fabric = design.fabric();
        this.situation = situation;
        this.fanOut = new FanOut(situation, question.padValue());
    }

    /**
     * The route from the driver along the tree to the path's first vertex, and on along the path.
     */
    public Route build(VertexPath path) {
        return build(path, true);
    }

    /** The same; {@code proven} as in {@link Route}. */
    Route build(VertexPath path, boolean proven) {
        IntArrayList vertices = fromDriverTo(path.first());
        int branchHop = vertices.size() - 1;
        for (int i = 1; i < path.size(); i++) {
            vertices.add(path.vertex(i));
        }
        List<Hop> hops = hops(vertices, branchHop);
        Optional<DriverSetting> setting = DriverFit.of(question).setting();
        Delay toPad = hops.get(hops.size() - 1).total();
        Delay toPin = OutputPath.toPin(question.padValue(), setting);
        return new Route(hops, branchHop, setting, toPad, toPad.plus(toPin), proven);
    }

    private IntArrayList fromDriverTo(int vertex) {
        RouteTree tree = question.net().route();
        IntArrayList reversed = new IntArrayList();
        int start = situation.own().resources().placeOf(vertex);
        for (int p = start; p != Fabric.NOTHING; p = tree.parent(p)) {
            reversed.add(tree.vertex(p));
        }
        IntArrayList result = new IntArrayList();
        for (int i = reversed.size() - 1; i >= 0; i--) {
            result.add(reversed.getInt(i));
        }
        return result;
    }

    /**
     * What the delays along a route depend on: the route alone, or, where the fabric says what
     * loads do, the net's own tree with the route's new part.
     */
    private RouteTree bearing(IntArrayList vertices, int branchHop) {
        boolean loads = !fabric.info().electrical().isUnknown();
        RouteTree.Builder tree =
                loads
                        ? RouteTree.Builder.from(question.net().route())
                        : new RouteTree.Builder(vertices.getInt(0));
        for (int i = loads ? branchHop + 1 : 1; i < vertices.size(); i++) {
            tree.add(vertices.getInt(i - 1), vertices.getInt(i));
        }
        return tree.build();
    }

    private List<Hop> hops(IntArrayList vertices, int branchHop) {
        EdgeFinder finder = new EdgeFinder(fabric);
        RouteTree tree = bearing(vertices, branchHop);
        TreeDelays delays = TreeDelays.of(fabric, tree);
        List<Hop> hops = new ArrayList<>(vertices.size());
        Delay before = Delay.ZERO;
        for (int i = 0; i < vertices.size(); i++) {
            int vertex = vertices.getInt(i);
            Delay total = delays.at(tree.placeOf(vertex));
            Optional<EdgeKind> kind =
                    i == 0
                            ? Optional.empty()
                            : Optional.of(finder.get(vertices.getInt(i - 1), vertex).kind());
            Delay step = total.less(before);
            before = total;
            boolean onNet = i <= branchHop;
            hops.add(
                    new Hop(
                            vertex,
                            fabric.vertexName(vertex),
                            fabric.kind(vertex),
                            fabric.tileName(fabric.tile(vertex)),
                            kind,
                            step,
                            total,
                            onNet,
                            onNet ? Optional.empty() : obstacleAt(vertices.getInt(i - 1), vertex)));
        }
        return hops;
    }

    /** What uses a vertex of the route, or else has a switch on that excludes the one to it. */
    private Optional<Occupant> obstacleAt(int from, int vertex) {
        int user = situation.obstacleAt(vertex);
        int id = user == Fabric.NOTHING ? situation.switchUser(from, vertex) : user;
        return id == Fabric.NOTHING
                ? Optional.empty()
                : Optional.of(design.occupancy().occupant(id));
    }

    /**
     * The obstacles of a route, one for each occupant, in the order of the route; last what uses
     * the enable of the pad's driver, unless it is on the route as well.
     */
    List<Obstacle> obstacles(Route route) {
        Map<Occupant, List<Integer>> hopsByOccupant = new LinkedHashMap<>();
        SharedPins shared = new SharedPins(situation);
        for (int i = 0; i < route.hops().size(); i++) {
            Hop hop = route.hops().get(i);
            if (hop.obstacle().isPresent()) {
                Occupant occupant = hop.obstacle().get();
                hopsByOccupant.computeIfAbsent(occupant, x -> new ArrayList<>()).add(i);
                Set<Occupant> others = shared.besides(hop.vertex(), occupant);
                excluding(route, i).filter(o -> !o.equals(occupant)).ifPresent(others::add);
                for (Occupant other : others) {
                    hopsByOccupant.computeIfAbsent(other, x -> new ArrayList<>()).add(i);
                }
            }
        }
        int enable = situation.enableOccupant(question.padValue());
        if (enable != Fabric.NOTHING) {
            hopsByOccupant.putIfAbsent(design.occupancy().occupant(enable), List.of());
        }
        for (int net : situation.switchingNets()) {
            hopsByOccupant.putIfAbsent(design.occupancy().occupant(net), List.of());
        }
        List<Obstacle> result = new ArrayList<>();
        hopsByOccupant.forEach(
                (o, hops) -> result.add(obstacle(o, hops, route, firstVertex(hops, route))));
        return result;
    }

    /** The net that has a switch on which excludes the one to a hop. */
    private Optional<Occupant> excluding(Route route, int hop) {
        int from = route.hops().get(hop - 1).vertex();
        int user = situation.switchUser(from, route.hops().get(hop).vertex());
        return user == Fabric.NOTHING
                ? Optional.empty()
                : Optional.of(design.occupancy().occupant(user));
    }

    private String switchOn(int group) {
        return fabric.switchGroups()
                .switches(group)
                .longStream()
                .filter(e -> isOn(EdgeKey.from(e), EdgeKey.to(e)))
                .mapToObj(
                        e ->
                                fabric.vertexName(EdgeKey.from(e))
                                        + " → "
                                        + fabric.vertexName(EdgeKey.to(e)))
                .findFirst()
                .orElse("");
    }

    private boolean isOn(int from, int to) {
        return design.occupancy().findNetOver(from, to).isPresent();
    }

    /**
     * The switch group by which alone an occupant is in the way at a hop, or {@link
     * Fabric#NOTHING}.
     */
    private int groupAt(Occupant occupant, Route route, int hop) {
        int from = route.hops().get(hop - 1).vertex();
        int to = route.hops().get(hop).vertex();
        boolean byGroup =
                situation.switchUser(from, to) != Fabric.NOTHING
                        && (situation.obstacleAt(to) == Fabric.NOTHING
                                || excluding(route, hop).equals(Optional.of(occupant))
                                        && situation.obstacleAt(to) != occupant.number());
        return byGroup ? fabric.switchGroups().groupOf(from, to) : Fabric.NOTHING;
    }

    /**
     * The obstacles of an option to unblock, as they are on the route that it opens.
     *
     * @param chokepoints vertices that every route passes; an obstacle is called by one of these
     *     rather than by the first that it uses
     */
    List<Obstacle> obstacles(UnblockOption option, Route route, IntSet chokepoints) {
        Int2IntOpenHashMap hopOf = new Int2IntOpenHashMap();
        for (int i = 0; i < route.hops().size(); i++) {
            hopOf.put(route.hops().get(i).vertex(), i);
        }
        List<Obstacle> result = new ArrayList<>();
        for (Removal removal : option.removals()) {
            List<Integer> hops = removal.vertices().stream().map(v -> hopOf.get((int) v)).toList();
            int named =
                    removal.vertices().stream()
                            .filter(v -> chokepoints.contains((int) v))
                            .findFirst()
                            .orElseGet(() -> firstVertex(hops, route));
            result.add(obstacle(removal.occupant(), hops, route, named));
        }
        return result;
    }

    private static int firstVertex(List<Integer> hops, Route route) {
        return hops.isEmpty() ? Fabric.NOTHING : route.hops().get(hops.get(0)).vertex();
    }

    /**
     * One obstacle.
     *
     * @param vertex what it is called by; {@link Fabric#NOTHING} when it only uses the pad's enable
     */
    private Obstacle obstacle(Occupant occupant, List<Integer> hops, Route route, int vertex) {
        boolean enable = vertex == Fabric.NOTHING || situation.isSwitchedPad(vertex);
        int site = enable ? question.padValue().enableSite() : fabric.siteOf(vertex);
        int tile = enable ? fabric.site(site).tile() : fabric.tile(vertex);
        int number = occupant.number();
        int group =
                enable
                        ? Fabric.NOTHING
                        : hops.stream()
                                .filter(h -> route.hops().get(h).vertex() == vertex)
                                .map(h -> groupAt(occupant, route, h))
                                .findFirst()
                                .orElse(Fabric.NOTHING);
        boolean removable = fanOut.isRemovable(number);
        boolean withItsNets =
                hops.stream()
                        .map(h -> route.hops().get(h).obstacle())
                        .anyMatch(o -> !o.equals(Optional.of(occupant)));
        String name = enable ? fabric.site(site).name() : ResourceText.name(fabric, vertex);
        String kind =
                enable ? ResourceText.siteKind(fabric, site) : ResourceText.kind(fabric, vertex);
        boolean byGroup = group != Fabric.NOTHING;
        return new Obstacle(
                occupant,
                byGroup ? fabric.switchGroups().name(group) : name,
                byGroup ? Obstacle.SWITCH_GROUP : kind,
                byGroup ? switchOn(group) : "",
                fabric.tileName(tile),
                hops,
                withItsNets && (!byGroup || occupant instanceof Occupant.ByCell),
                removable,
                removable ? 0 : fanOut.losing(number).size());
    }
}
