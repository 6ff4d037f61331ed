package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.route.CostModel;
import padward.route.FreeWays;
import padward.route.Path;
import padward.route.PathSearch;
import padward.route.Starts;
import padward.route.WayFinder;
import padward.timing.EdgeFinder;

/** Explains one blocked question. One object belongs to one question and one thread. */
public final class Explainer {
    /** Sets weighed up for each clearance that is told. */
    private static final int WEIGHED = 3;

    private final Situation situation;
    private final Design design;
    private final Fabric fabric;
    private final Occupancy occupancy;
    private final Starts starts;
    private final Pad pad;
    private final Path known;
    private final WayFinder finder;
    private final SearchLimits limits;
    private final int enableHolder;
    private final Openers openers;
    private final FanOut fanOut;
    private final Weigher weigher;
    private final Harm harm;

    /**
     * @param situation the net and the design, with what the port on the pad lets go
     * @param starts the net's tree with its delays
     * @param pad the pad
     * @param known some way that opens once everything on it is freed, from the tree to the pad
     * @param corner corner at which ways shall be quick
     * @param search a search over the same fabric, free to be used
     * @param limits how much work may be done
     * @param progress asked now and then whether to stop
     */
    public Explainer(
            Situation situation,
            Starts starts,
            Pad pad,
            Path known,
            Corner corner,
            PathSearch search,
            SearchLimits limits,
            Progress progress) {
        this.known = known;
        this.situation = situation;
        this.design = situation.design();
        this.fabric = design.fabric();
        this.occupancy = design.occupancy();
        this.starts = starts;
        this.pad = pad;
        this.finder = new WayFinder(search, fabric, corner, progress);
        this.limits = limits;
        this.enableHolder = enableHolder(situation, pad);
        this.openers = new Openers(situation, enableHolder);
        this.fanOut = new FanOut(situation, pad);
        this.weigher =
                new Weigher(
                        situation,
                        starts,
                        pad,
                        openers,
                        fanOut,
                        enableHolder,
                        finder,
                        limits.cascade());
        this.harm = new Harm(situation, openers, fanOut, weigher);
    }

    /**
     * The number of the occupant that has the enable of a pad's driver in its hands, or {@link
     * Fabric#NOTHING}. While it can switch the driver off, nothing shows on the pad.
     */
    public static int enableHolder(Situation situation, Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        Design design = situation.design();
        Optional<Cell> cell = design.occupancy().findCellOn(pad.enableSite());
        return cell.filter(c -> c.id() != situation.net().driverCell())
                .map(c -> design.nets().size() + c.id())
                .orElse(Fabric.NOTHING);
    }

    /**
     * The explanation.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public Explanation explain() {
        FreeWays notClosed = new FreeWays(situation.closed());
        CostModel overAll =
                (from, to, delay) ->
                        to != pad.vertex() && fabric.kind(to) == VertexKind.PAD
                                ? CostModel.CLOSED
                                : notClosed.cost(from, to, delay);
        IntList way = new IntArrayList(known.toVertices());
        IntList choke = Chokepoints.along(fabric, starts, way, overAll);
        FewestSearch.Result found =
                FewestSearch.run(
                        situation, openers, starts, pad.vertex(), limits, finder.progress());
        List<int[]> sets = found.sets().isEmpty() ? List.of(fallback()) : found.sets();
        List<Clearance> clearances = clearances(sets);
        int enable = enableHolder == Fabric.NOTHING ? 0 : 1;
        List<Chokepoint> chokepoints = Chokepoint.named(choke, situation);
        boolean held = chokepoints.stream().anyMatch(Chokepoint::mustBeFreed);
        int atLeast = found.atLeast() + enable;
        return new Explanation(
                clearances,
                atLeast,
                found.certain() || clearances.get(0).removals().size() == atLeast,
                found.exhausted() && clearances.size() == sets.size(),
                chokepoints,
                held ? List.of() : oneOfThese());
    }

    private List<Occupant> oneOfThese() {
        return BlockedCut.of(situation, openers, starts, pad.vertex())
                .map(
                        cut ->
                                BlockedCut.occupants(cut, situation)
                                        .intStream()
                                        .filter(id -> id >= 0)
                                        .mapToObj(occupancy::occupant)
                                        .toList())
                .orElse(List.of());
    }

    /** A good set, not proven to be of the fewest: what stands on the known way. */
    private int[] fallback() {
        IntList set = new IntArrayList();
        for (int i = 1; i < known.size(); i++) {
            for (int[][] choices : openers.of(known.vertex(i))) {
                if (!Openers.isMet(choices, set.toIntArray())) {
                    set.addElements(set.size(), choices[0]);
                }
            }
        }
        for (int i = set.size() - 1; i >= 0; i--) {
            IntList without = new IntArrayList(set);
            without.removeInt(i);
            if (quickest(without.toIntArray()).isPresent()) {
                set.removeInt(i);
            }
        }
        return set.toIntArray();
    }

    private Optional<Path> quickest(int[] freed) {
        IntSet opened = openers.openedBy(freed);
        return finder.find(
                starts,
                pad.vertex(),
                () -> situation.overFreeAnd(opened),
                situation::closePadsPassed);
    }

    private List<Clearance> clearances(List<int[]> sets) {
        List<int[]> ranked = new ArrayList<>(sets);
        ranked.sort(Comparator.<int[]>comparingInt(s -> s.length).thenComparingInt(harm::of));
        Map<Set<String>, Clearance> result = new LinkedHashMap<>();
        for (int[] set : ranked) {
            if (result.size() >= limits.alternatives() * WEIGHED) {
                break;
            }
            Path path =
                    quickest(set)
                            .orElseThrow(
                                    () ->
                                            new IllegalStateException(
                                                    "no way after freeing "
                                                            + Arrays.toString(set)));
            int[] mildest = harm.mildest(set, path);
            Set<String> names = new HashSet<>();
            for (int occupant : mildest) {
                names.add(Removal.freeing(occupancy.occupant(occupant)).toText());
            }
            if (!result.containsKey(names)) {
                result.put(names, weigher.weigh(mildest, path));
            }
        }
        Set<Set<String>> needless = needless(result);
        return result.entrySet().stream()
                .filter(e -> !needless.contains(e.getKey()))
                .map(Map.Entry::getValue)
                .sorted(
                        Comparator.comparingInt((Clearance c) -> c.removals().size())
                                .thenComparingInt(Clearance::costlyCount)
                                .thenComparingInt(Clearance::lostCount)
                                .thenComparingInt(Clearance::movedCount)
                                .thenComparingInt(Clearance::shiftCount)
                                .thenComparingInt(c -> delayPs(c.path())))
                .limit(limits.alternatives())
                .toList();
    }

    /**
     * Clearances that free a cell where another one does with just a net that the cell drives, all
     * else being equal.
     */
    private Set<Set<String>> needless(Map<Set<String>, Clearance> clearances) {
        Set<Set<String>> result = new HashSet<>();
        clearances.forEach(
                (names, clearance) -> {
                    for (Removal removal : clearance.removals()) {
                        if (removal.occupant() instanceof Occupant.ByCell by) {
                            for (Net net : design.netsDrivenBy(by.cell().id())) {
                                Set<String> milder = new HashSet<>(names);
                                milder.remove(removal.freeing().toText());
                                milder.add(new Edit.FreeNet(net.name()).toText());
                                if (clearances.containsKey(milder)) {
                                    result.add(names);
                                }
                            }
                        }
                    }
                });
        return result;
    }

    private int delayPs(Path path) {
        int index = 0;
        while (starts.vertex(index) != path.first()) {
            index++;
        }
        long total = starts.cost(index);
        var edges = new EdgeFinder(fabric);
        for (int i = 1; i < path.size(); i++) {
            total += edges.get(path.vertex(i - 1), path.vertex(i)).delay().at(finder.corner());
        }
        return (int) total;
    }
}
