package padward.place;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.Predicate;
import padward.base.Progress;
import padward.design.Netlist;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.EnableSites;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;

/**
 * Places and routes a netlist on a fabric: packs it, places it by simulated annealing, and routes
 * it by negotiated congestion. The same seed gives the same design.
 */
public final class PlaceAndRoute {
    private final Fabric fabric;
    private final PlaceRouteOptions options;
    private final Progress progress;
    private final Random random;
    private final PackedNetlist packed;
    private final CellPlaces places;
    private final BitSet closed;
    private final PlacementSites sites;

    private PlaceAndRoute(
            Fabric fabric,
            Netlist netlist,
            PlaceRouteOptions options,
            boolean dense,
            Progress progress) {
        this.fabric = fabric;
        this.options = options;
        this.progress = progress;
        this.random = new Random(options.seed());
        this.places = CellPlaces.of(fabric);
        this.packed = new Packer(netlist, Packer.kindsAtPads(fabric), places, dense).pack();
        this.closed = ClosedPins.closed(fabric);
        Set<Integer> clockPads =
                packed.groups().contains(Packer.CLOCK_IN)
                        ? ClockPads.of(
                                fabric,
                                packed.netlist(),
                                closed,
                                options.padOfPort().values(),
                                progress)
                        : Set.of();
        this.sites = new PlacementSites(fabric, packed.groups().size(), accepts(clockPads));
    }

    /**
     * Places and routes a netlist.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static PlaceRouteResult placeAndRoute(
            Fabric fabric, Netlist netlist, PlaceRouteOptions options, Progress progress) {
        PlaceRouteResult result =
                new PlaceAndRoute(fabric, netlist, options, false, progress).run();
        return result instanceof PlaceRouteResult.NoRoom
                ? new PlaceAndRoute(fabric, netlist, options, true, progress).run()
                : result;
    }

    private PlaceRouteResult run() {
        PlacementCost cost =
                new PlacementCost(
                        fabric,
                        packed,
                        DistanceDelayModel.of(fabric, closed, random, progress),
                        options.timingWeight());
        SharedSignalWires shared = new SharedSignalWires(fabric, packed, places, sites);
        Placement placement = new Placement(sites, cost, shared, packed.blockCount());
        List<String> misfits = fixPorts(placement);
        CapacityAssignment capacity =
                new CapacityAssignment(demand(placement), supply(placement), sites);
        if (capacity.shortBy() > 0) {
            misfits.add(tooMany(capacity));
        }
        if (!misfits.isEmpty()) {
            return new PlaceRouteResult.NoRoom(misfits);
        }
        spread(placement, capacity);
        ArrivalTimes times = new ArrivalTimes(packed.netlist(), holdsState(), cellDelays());
        new Annealer(fabric, packed, sites, cost, times, placement, random)
                .run(options.effort(), progress);
        return new RouteAndReport(fabric, packed, places, sites, placement, cost, closed, times)
                .finish(options, progress);
    }

    /**
     * Which spots a group can use: sites by kind, pads by direction and by their IO register sites.
     */
    private PlacementSites.Accepts accepts(Set<Integer> clockPads) {
        Set<Integer> atPads = new HashSet<>();
        for (Pad pad : fabric.pads()) {
            atPads.add(pad.dataSite());
            atPads.add(pad.enableSite());
        }
        Set<String> kindsInRegisters = usedKinds();
        Predicate<Integer> usable =
                site ->
                        // IO register sites stay free for signals to and from the pads
                        !atPads.contains(site)
                                && !atPads.contains(places.secondOf(site))
                                && !places.isSecond(site);
        return (group, spot) -> {
            String name = packed.groups().get(group);
            if (spot < fabric.siteCount()) {
                List<String> kinds = packed.kindsOfGroup().get(group);
                return !kinds.isEmpty() && usable.test(spot) && places.hasRoomFor(spot, kinds);
            }
            int index = spot - fabric.siteCount();
            Pad pad = fabric.pads().get(index);
            boolean asked = options.padOfPort().containsValue(index);
            if (!asked && !pad.use().isOffered()) {
                return false;
            }
            return switch (name) {
                case Packer.IN -> pad.directions().canRead();
                case Packer.CLOCK_IN -> pad.directions().canRead() && clockPads.contains(index);
                case Packer.BOTH ->
                        pad.directions().canRead()
                                && pad.directions().canDrive()
                                && EnableSites.endOf(fabric, pad) != Fabric.NOTHING
                                && (asked || isUsable(pad));
                case Packer.OUT -> pad.directions().canDrive() && (asked || isUsable(pad));
                case Packer.REGISTERED_OUT ->
                        pad.directions().canDrive()
                                && pad.dataSite() != Fabric.NOTHING
                                && isUsable(pad)
                                && fabric.site(pad.dataSite())
                                        .accepts()
                                        .containsAll(kindsInRegisters);
                default -> false;
            };
        };
    }

    /** Whether signals can leave by a pad's IO register site, where it has one. */
    private boolean isUsable(Pad pad) {
        return pad.dataSite() == Fabric.NOTHING || !fabric.unusable().isSite(pad.dataSite());
    }

    private Set<String> usedKinds() {
        Set<String> kinds = new HashSet<>();
        for (int cell : packed.registerOfPort()) {
            if (cell != Fabric.NOTHING) {
                kinds.add(packed.netlist().cells().get(cell).kind());
            }
        }
        return kinds;
    }

    private List<String> fixPorts(Placement placement) {
        List<String> misfits = new ArrayList<>();
        List<Netlist.LogicalPort> ports = packed.netlist().ports();
        for (int p = 0; p < ports.size(); p++) {
            Integer pad = options.padOfPort().get(ports.get(p).name());
            if (pad == null) {
                continue;
            }
            int block = packed.blockOfPort()[p];
            int spot = sites.spotOfPad(pad);
            String group = packed.groups().get(packed.groupOfBlock()[block]);
            if (!sites.accepts(spot, packed.groupOfBlock()[block])) {
                misfits.add(
                        "port "
                                + ports.get(p).name()
                                + " cannot be on pad "
                                + fabric.pads().get(pad).name()
                                + ", which cannot be used by "
                                + group);
            } else if (placement.blockOn(spot) != Fabric.NOTHING) {
                misfits.add("pad " + fabric.pads().get(pad).name() + " is assigned to two ports");
            } else {
                placement.fix(block, spot);
            }
        }
        return misfits;
    }

    private int[] demand(Placement placement) {
        int[] demand = new int[packed.groups().size()];
        for (int b = 0; b < packed.blockCount(); b++) {
            demand[packed.groupOfBlock()[b]] += placement.isFixed(b) ? 0 : 1;
        }
        return demand;
    }

    private int[] supply(Placement placement) {
        int[] supply = new int[sites.classCount()];
        for (int spot = 0; spot < sites.count(); spot++) {
            supply[sites.classOf(spot)] += placement.blockOn(spot) == Fabric.NOTHING ? 1 : 0;
        }
        return supply;
    }

    private String tooMany(CapacityAssignment capacity) {
        List<String> groups = new ArrayList<>();
        int wanted = 0;
        for (int g : capacity.tooMany()) {
            int count = 0;
            for (int own : packed.groupOfBlock()) {
                count += own == g ? 1 : 0;
            }
            wanted += count;
            groups.add(count + " " + packed.groups().get(g));
        }
        return String.join(" and ", groups)
                + (groups.size() > 1 ? ", " + wanted + " together," : "")
                + " for "
                + capacity.tooManySpots()
                + " places that they can use";
    }

    /** A first placement, at random within what {@link CapacityAssignment} allots. */
    private void spread(Placement placement, CapacityAssignment capacity) {
        List<List<Integer>> free = new ArrayList<>();
        for (int c = 0; c < sites.classCount(); c++) {
            free.add(new ArrayList<>());
        }
        for (int spot = 0; spot < sites.count(); spot++) {
            if (placement.blockOn(spot) == Fabric.NOTHING) {
                free.get(sites.classOf(spot)).add(spot);
            }
        }
        free.forEach(f -> Collections.shuffle(f, random));
        int[] next = new int[free.size()];
        int[][] left = new int[packed.groups().size()][free.size()];
        for (int g = 0; g < left.length; g++) {
            for (int c = 0; c < free.size(); c++) {
                left[g][c] = capacity.count(g, c);
            }
        }
        for (int b = 0; b < packed.blockCount(); b++) {
            int[] own = left[packed.groupOfBlock()[b]];
            for (int c = 0; c < own.length && !placement.isFixed(b); c++) {
                if (own[c] > 0) {
                    own[c]--;
                    placement.put(b, free.get(c).get(next[c]++));
                    break;
                }
            }
        }
    }

    private boolean[] holdsState() {
        List<Netlist.LogicalCell> cells = packed.netlist().cells();
        boolean[] holdsState = new boolean[cells.size()];
        for (int c = 0; c < holdsState.length; c++) {
            holdsState[c] = fabric.info().holdsState(cells.get(c).kind());
        }
        return holdsState;
    }

    /** The greatest delay through a site that accepts each cell's kind. */
    private int[] cellDelays() {
        Map<String, Integer> byKind = new HashMap<>();
        int[] delays = new int[packed.netlist().cells().size()];
        for (int c = 0; c < delays.length; c++) {
            delays[c] =
                    byKind.computeIfAbsent(packed.netlist().cells().get(c).kind(), this::through);
        }
        return delays;
    }

    private int through(String kind) {
        EdgeCursor edges = fabric.edgesOut();
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            if (!site.accepts().contains(kind)) {
                continue;
            }
            int most = 0;
            for (int i = 0; i < site.pins().size(); i++) {
                edges.reset(site.firstPin() + i);
                while (edges.next()) {
                    if (edges.kind() == EdgeKind.PASS_THROUGH) {
                        most = Math.max(most, edges.delayPs(Corner.SLOW));
                    }
                }
            }
            return most;
        }
        return 0;
    }
}
