package padward.breakout;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.fabric.Delay;
import padward.fabric.DriverSetting;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.route.Path;
import padward.timing.EdgeFinder;

/** Turns a found path into a way with names, delays and obstacles. */
final class WayBuilder {
    private final Question question;
    private final Design design;
    private final Fabric fabric;
    private final Availability availability;

    WayBuilder(Question question, Availability availability) {
        this.question = question;
        this.design = question.design();
        this.fabric = design.fabric();
        this.availability = availability;
    }

    /** The way from the driver along the tree to the path's first vertex, and on along the path. */
    Way build(Path path, Optional<LetGo> letGo) {
        IntArrayList vertices = fromDriverTo(question.net(), path.first());
        int branchHop = vertices.size() - 1;
        for (int i = 1; i < path.size(); i++) {
            vertices.add(path.vertex(i));
        }
        List<Hop> hops = hops(vertices, branchHop);
        Optional<DriverSetting> setting = setting(letGo);
        Delay toPad = hops.get(hops.size() - 1).total();
        Delay driver = setting.map(DriverSetting::delay).orElse(Delay.ZERO);
        return new Way(hops, branchHop, setting, toPad, toPad.plus(driver));
    }

    private static IntArrayList fromDriverTo(Net net, int vertex) {
        RouteTree tree = net.route();
        IntArrayList reversed = new IntArrayList();
        for (int p = tree.placeOf(vertex); p != Fabric.NOTHING; p = tree.parent(p)) {
            reversed.add(tree.vertex(p));
        }
        IntArrayList result = new IntArrayList();
        for (int i = reversed.size() - 1; i >= 0; i--) {
            result.add(reversed.getInt(i));
        }
        return result;
    }

    private List<Hop> hops(IntArrayList vertices, int branchHop) {
        EdgeFinder finder = new EdgeFinder(fabric);
        List<Hop> hops = new ArrayList<>(vertices.size());
        Delay total = Delay.ZERO;
        for (int i = 0; i < vertices.size(); i++) {
            int vertex = vertices.getInt(i);
            Optional<EdgeKind> kind = Optional.empty();
            Delay step = Delay.ZERO;
            if (i > 0) {
                EdgeFinder.EdgeValue edge = finder.get(vertices.getInt(i - 1), vertex);
                kind = Optional.of(edge.kind());
                step = edge.delay();
                total = total.plus(step);
            }
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
                            onNet ? Optional.empty() : obstacleAt(vertex)));
        }
        return hops;
    }

    private Optional<Occupant> obstacleAt(int vertex) {
        int id = availability.obstacleAt(vertex);
        return id == Fabric.NOTHING
                ? Optional.empty()
                : Optional.of(design.occupancy().occupant(id));
    }

    /** The port's own setting stays with the pad; a pad without one has the fabric's default. */
    private Optional<DriverSetting> setting(Optional<LetGo> letGo) {
        Pad pad = question.padValue();
        String ported =
                letGo.map(l -> l.port().setting())
                        .or(() -> design.findPortOn(question.pad()).map(p -> p.setting()))
                        .orElse("");
        return fabric.info().findSetting(ported.isEmpty() ? pad.defaultSetting() : ported);
    }

    /** The obstacles of a way, one for each occupant, in the order of the way. */
    List<Obstacle> obstacles(Way way) {
        Map<Occupant, List<Integer>> hopsByOccupant = new LinkedHashMap<>();
        for (int i = 0; i < way.hops().size(); i++) {
            int index = i;
            way.hops()
                    .get(i)
                    .obstacle()
                    .ifPresent(
                            o ->
                                    hopsByOccupant
                                            .computeIfAbsent(o, x -> new ArrayList<>())
                                            .add(index));
        }
        List<Obstacle> result = new ArrayList<>();
        hopsByOccupant.forEach((o, hops) -> result.add(obstacle(o, hops, way)));
        return result;
    }

    private Obstacle obstacle(Occupant occupant, List<Integer> hops, Way way) {
        Hop first = way.hops().get(hops.get(0));
        int site = fabric.siteOf(first.vertex());
        if (site != Fabric.NOTHING) {
            String kind = isIoRegisterSite(site) ? "IO register site" : "site";
            return new Obstacle(occupant, fabric.site(site).name(), kind, first.tile(), hops);
        }
        String kind = first.kind() == VertexKind.PAD ? "pad" : "wire";
        return new Obstacle(occupant, first.name(), kind, first.tile(), hops);
    }

    private boolean isIoRegisterSite(int site) {
        return fabric.pads().stream().anyMatch(p -> p.dataSite() == site || p.enableSite() == site);
    }
}
