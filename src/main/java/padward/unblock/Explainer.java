package padward.unblock;

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
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.search.CheckedRouteFinder;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.SearchSources;
import padward.route.search.SwitchGroupSearch;
import padward.route.search.VertexPath;
import padward.timing.EdgeFinder;
import padward.unblock.release.FanOut;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.ReleaseRules;
import padward.unblock.weigh.ConsequenceAnalysis;
import padward.unblock.weigh.ImpactEstimate;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;
import padward.unblock.why.Chokepoints;
import padward.unblock.why.MinimumColorSearch;
import padward.unblock.why.MinimumVertexCut;
import padward.unblock.why.SearchLimits;

/** Explains one blocked question. One object belongs to one question and one thread. */
public final class Explainer {
    /** Sets weighed up for each option that is reported. */
    private static final int WEIGHED = 3;

    private final QuestionContext context;
    private final Design design;
    private final Fabric fabric;
    private final Occupancy occupancy;
    private final SearchSources starts;
    private final Pad pad;
    private final VertexPath known;
    private final CheckedRouteFinder finder;
    private final SearchLimits limits;
    private final int enableOccupant;
    private final ReleaseRules rules;
    private final FanOut fanOut;
    private final ConsequenceAnalysis analysis;
    private final ImpactEstimate impact;

    /** Size of the smallest set that opens a route only if no switches excluded each other. */
    private int leastRefused = Integer.MAX_VALUE;

    /**
     * @param context the net and the design, with what is disconnected with the port on the pad
     * @param starts the net's tree with its delays
     * @param pad the pad
     * @param known some route that opens once everything on it is removed, from the tree to the pad
     * @param corner corner at which routes have short delays
     * @param search a search over the same fabric, free to be used
     * @param limits how much work may be done
     * @param progress asked now and then whether to stop
     */
    public Explainer(
            QuestionContext context,
            SearchSources starts,
            Pad pad,
            VertexPath known,
            Corner corner,
            PathSearch search,
            SearchLimits limits,
            Progress progress) {
        this.known = known;
        this.context = context;
        this.design = context.design();
        this.fabric = design.fabric();
        this.occupancy = design.occupancy();
        this.starts = starts;
        this.pad = pad;
        this.finder =
                new CheckedRouteFinder(
                        SwitchGroupSearch.over(fabric, new PerimeterSearch(search)),
                        corner,
                        progress);
        this.limits = limits;
        this.enableOccupant = context.enableOccupant(pad);
        this.rules = new ReleaseRules(context, enableOccupant);
        this.fanOut = new FanOut(context, pad);
        this.analysis =
                new ConsequenceAnalysis(
                        context,
                        starts,
                        pad,
                        rules,
                        fanOut,
                        enableOccupant,
                        finder,
                        limits.cascade());
        this.impact = new ImpactEstimate(context, rules, fanOut, analysis);
    }

    /**
     * The explanation.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public UnblockExplanation explain() {
        CostModel overAll = Chokepoint.notThroughPads(fabric, context.overAll(), pad.vertex());
        IntList route = new IntArrayList(known.toVertices());
        IntList choke = Chokepoints.along(fabric, starts, route, overAll, finder.progress());
        MinimumColorSearch.Result found =
                MinimumColorSearch.run(
                        context, rules, starts, pad.vertex(), limits, finder.progress());
        List<int[]> sets = found.sets().isEmpty() ? List.of(fallback()) : found.sets();
        List<UnblockOption> options = options(sets);
        if (options.isEmpty()) {
            // Each of the sets opens only routes with switches that exclude each other.
            options = options(List.of(fallback()));
        }
        int enable = enableOccupant == Fabric.NOTHING ? 0 : 1;
        List<Chokepoint> chokepoints = Chokepoint.named(choke, context);
        boolean used = chokepoints.stream().anyMatch(Chokepoint::mustBeRemoved);
        int atLeast = found.atLeast() + enable;
        int fewest = options.get(0).removals().size();
        return new UnblockExplanation(
                options,
                atLeast,
                found.certain() && fewest <= leastRefused || fewest == atLeast,
                found.exhausted() && options.size() == sets.size(),
                chokepoints,
                used ? List.of() : oneOfThese());
    }

    private List<Occupant> oneOfThese() {
        return MinimumVertexCut.of(context, rules, starts, pad.vertex(), finder.progress())
                .map(
                        cut ->
                                MinimumVertexCut.occupants(cut, context)
                                        .intStream()
                                        .filter(id -> id >= 0)
                                        .mapToObj(occupancy::occupant)
                                        .toList())
                .orElse(List.of());
    }

    /** A good set, not proven to have the fewest: what is on the known route. */
    private int[] fallback() {
        IntList set = new IntArrayList();
        for (int i = 1; i < known.size(); i++) {
            for (int[][] choices : rules.ofStep(known.vertex(i - 1), known.vertex(i))) {
                if (!ReleaseRules.isMet(choices, set.toIntArray())) {
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

    private Optional<VertexPath> quickest(int[] removed) {
        IntSet opened = rules.openedBy(removed);
        return finder.find(
                starts,
                pad.vertex(),
                () -> context.overFreeAnd(opened, edge -> rules.isOff(edge, removed)),
                context::closePadsPassed);
    }

    private List<UnblockOption> options(List<int[]> sets) {
        List<int[]> ranked = new ArrayList<>(sets);
        ranked.sort(Comparator.<int[]>comparingInt(s -> s.length).thenComparingInt(impact::of));
        Map<Set<String>, UnblockOption> result = new LinkedHashMap<>();
        for (int[] set : ranked) {
            if (result.size() >= limits.alternatives() * WEIGHED) {
                break;
            }
            Optional<VertexPath> opened = quickest(set);
            if (opened.isEmpty() && context.hasSwitchGroups()) {
                // All routes that it opens have switches that exclude each other.
                leastRefused = Math.min(leastRefused, set.length);
                continue;
            }
            VertexPath path =
                    opened.orElseThrow(
                            () ->
                                    new IllegalStateException(
                                            "no route after removing " + Arrays.toString(set)));
            int[] mildest = impact.mildest(set, path);
            // Another set of the same number may open a faster route besides.
            path = quickest(mildest).orElse(path);
            Set<String> names = new HashSet<>();
            for (int occupant : mildest) {
                names.add(Removal.removing(occupancy.occupant(occupant)).toText());
            }
            if (!result.containsKey(names)) {
                result.put(names, analysis.weigh(mildest, path));
            }
        }
        Set<Set<String>> needless = needless(result);
        return result.entrySet().stream()
                .filter(e -> !needless.contains(e.getKey()))
                .map(Map.Entry::getValue)
                .sorted(
                        Comparator.comparingInt((UnblockOption c) -> c.removals().size())
                                .thenComparingInt(UnblockOption::losesFunctionCount)
                                .thenComparingInt(UnblockOption::lostCount)
                                .thenComparingInt(UnblockOption::movedCount)
                                .thenComparingInt(UnblockOption::shiftCount)
                                .thenComparingInt(c -> delayPs(c.path())))
                .limit(limits.alternatives())
                .toList();
    }

    /**
     * Options that remove a cell where another one needs only a net that the cell drives, all else
     * being equal.
     */
    private Set<Set<String>> needless(Map<Set<String>, UnblockOption> options) {
        Set<Set<String>> result = new HashSet<>();
        options.forEach(
                (names, option) -> {
                    for (Removal removal : option.removals()) {
                        if (removal.occupant() instanceof Occupant.ByCell by) {
                            for (Net net : design.netsDrivenBy(by.cell().id())) {
                                Set<String> milder = new HashSet<>(names);
                                milder.remove(removal.removing().toText());
                                milder.add(new Edit.RemoveNet(net.name()).toText());
                                if (options.containsKey(milder)) {
                                    result.add(names);
                                }
                            }
                        }
                    }
                });
        return result;
    }

    private int delayPs(VertexPath path) {
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
