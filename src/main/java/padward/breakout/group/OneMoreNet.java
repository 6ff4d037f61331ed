package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.breakout.ask.DriverFit;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.route.flow.OneMoreSearch;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * The fewest occupants whose removal lets a group have one net more than is possible. That so many
 * must go is proven by the search; that they are enough is tried: they are removed, and the group
 * is served again.
 */
final class OneMoreNet {
    private static final int MOST_LABELS = 100_000;

    private final BusRequest request;
    private final Design design;
    private final Progress progress;
    private final IntSet kept = new IntOpenHashSet();

    private OneMoreNet(BusRequest request, Progress progress) {
        this.request = request;
        this.design = request.design();
        this.progress = progress;
        // Without these a net of the group would be gone.
        for (Net net : request.nets()) {
            kept.add(Occupant.ofNet(net.id()));
            if (net.driverCell() != Fabric.NOTHING) {
                kept.add(Occupant.ofCell(net.driverCell()));
            }
        }
    }

    static Bus.OneMore of(BusRequest request, MostNets most, Progress progress) {
        return new OneMoreNet(request, progress).run(most);
    }

    private Bus.OneMore run(MostNets most) {
        Fabric fabric = design.fabric();
        List<SearchSources> sources = new ArrayList<>();
        for (Net net : request.nets()) {
            sources.add(SearchSources.along(fabric, net.route(), Corner.SLOW));
        }
        Map<Integer, Integer> goals = new HashMap<>();
        List<Set<Integer>> returned = new ArrayList<>();
        for (int pad = 0; pad < request.pads().size(); pad++) {
            int index = request.pads().get(pad);
            Pad at = fabric.pads().get(index);
            Set<Integer> back = MostNets.returned(design, index);
            int before = occupantBefore(at, back);
            boolean usable =
                    request.isAllowed(pad)
                            && at.directions().canDrive()
                            && !DriverFit.of(design, index, request.driver()).hopeless()
                            && before != OneMoreSearch.FORBIDDEN;
            if (usable) {
                goals.put(at.vertex(), before);
                returned.add(back);
            }
        }
        OneMoreSearch.Fewest fewest =
                OneMoreSearch.find(
                        fabric,
                        MostNets.closed(design, returned),
                        sources,
                        goals,
                        most.paths(),
                        most.near(),
                        this::occupant,
                        MOST_LABELS,
                        progress);
        List<Occupant> remove =
                fewest.occupants().orElse(List.of()).stream().map(this::occupantOf).toList();
        boolean tried = !remove.isEmpty() && serves(remove, most, fewest.goal());
        boolean portsKeepPads =
                IntStream.range(0, request.pads().size()).anyMatch(p -> !request.isAllowed(p));
        return new Bus.OneMore(
                tried ? remove : List.of(), Math.max(1, fewest.atLeast()), portsKeepPads);
    }

    private int occupant(int vertex) {
        int user = design.occupancy().occupantId(vertex);
        return user == Fabric.NOTHING || kept.contains(user) ? OneMoreSearch.FORBIDDEN : user;
    }

    /**
     * Who must go before a net can come to a pad, as a number: who uses it and does not return it
     * with its port, as a net that comes in there does, or else who uses its enable. Where both do,
     * one is a bound all the same.
     */
    private int occupantBefore(Pad pad, Set<Integer> returned) {
        int user = design.occupancy().occupantId(pad.vertex());
        return user == Fabric.NOTHING || returned.contains(pad.vertex())
                ? enableOccupant(pad)
                : occupant(pad.vertex());
    }

    private int enableOccupant(Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        Optional<Cell> cell = design.occupancy().findCellOn(pad.enableSite());
        int number = cell.map(c -> Occupant.ofCell(c.id())).orElse(Fabric.NOTHING);
        return kept.contains(number) ? OneMoreSearch.FORBIDDEN : number;
    }

    private Occupant occupantOf(int number) {
        return Occupant.isCell(number)
                ? new Occupant.ByCell(design.cells().get(Occupant.cellOf(number)))
                : new Occupant.ByNet(design.nets().get(Occupant.netOf(number)));
    }

    /**
     * Whether one net more can be served once the occupants are gone. The group's flow goes on from
     * where it is, to the pads that it led to and the one where the route more would end; only if
     * that fails, another begins from nothing.
     *
     * @param goal the vertex of that pad
     */
    private boolean serves(List<Occupant> removed, MostNets most, int goal) {
        List<Edit> edits =
                removed.stream()
                        .map(
                                o ->
                                        o instanceof Occupant.ByCell
                                                ? (Edit) new Edit.RemoveCell(o.name())
                                                : new Edit.RemoveNet(o.name()))
                        .toList();
        if (!(Outcome.of(design, edits) instanceof Outcome.Applied applied)) {
            return false;
        }
        Design after = applied.design();
        List<Net> nets = new ArrayList<>();
        request.nets().forEach(n -> after.findNet(n.name()).ifPresent(nets::add));
        BusRequest again =
                new BusRequest(
                        after,
                        nets,
                        request.pads(),
                        request.aim(),
                        request.ports(),
                        request.driver(),
                        List.of());
        int count = most.pads().size() + 1;
        BusCosts costs = new BusCosts(again);
        if (most.flow().isPresent()) {
            Set<Integer> goals = new TreeSet<>(costs.usablePads(positions(goal)));
            goals.addAll(most.goals());
            if (serves(again, MostNets.tried(again, goals, most.flow(), progress), count)) {
                return true;
            }
        }
        return serves(
                again, MostNets.of(again, costs.usablePads(), Optional.empty(), progress), count);
    }

    private List<Integer> positions(int goal) {
        List<Pad> pads = design.fabric().pads();
        return IntStream.range(0, request.pads().size())
                .filter(p -> pads.get(request.pads().get(p)).vertex() == goal)
                .boxed()
                .toList();
    }

    private boolean serves(BusRequest again, MostNets most, int count) {
        progress.check();
        BusRouting routing = new BusRouting(again);
        List<Optional<VertexPath>> paths = new ArrayList<>();
        for (int net = 0; net < again.nets().size(); net++) {
            if (most.paths().get(net).isPresent()) {
                int pad = again.pads().get(most.pads().get(net));
                routing.add(again.nets().get(net), pad, 0);
                paths.add(most.paths().get(net));
            }
        }
        return paths.size() >= count && routing.along(paths, List.of()).lines().size() >= count;
    }
}
