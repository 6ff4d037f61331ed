package padward.unblock.weigh;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.RouteTreeBranches;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.route.search.CheckedRouteFinder;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.unblock.move.Consequence;
import padward.unblock.move.MoveSearch;
import padward.unblock.move.OccupancyOverlay;
import padward.unblock.release.FanOut;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/**
 * Works out what it means to remove a set of occupants: which of them are removable, which can
 * really be moved, which cost. One object belongs to one question and one thread.
 */
public final class ConsequenceAnalysis {
    private final QuestionContext context;
    private final Design design;
    private final Occupancy occupancy;
    private final SearchSources starts;
    private final Pad pad;
    private final ReleaseRules rules;
    private final FanOut fanOut;
    private final int enableOccupant;
    private final CheckedRouteFinder finder;
    private final int pushDepth;
    private final Map<Set<Edit>, Design> designs = new HashMap<>();

    /**
     * @param finder what moves are tried with
     * @param pushDepth how deep other nets may be pushed aside
     */
    public ConsequenceAnalysis(
            QuestionContext context,
            SearchSources starts,
            Pad pad,
            ReleaseRules rules,
            FanOut fanOut,
            int enableOccupant,
            CheckedRouteFinder finder,
            int pushDepth) {
        this.context = context;
        this.design = context.design();
        this.occupancy = design.occupancy();
        this.starts = starts;
        this.pad = pad;
        this.rules = rules;
        this.fanOut = fanOut;
        this.enableOccupant = enableOccupant;
        this.finder = finder;
        this.pushDepth = pushDepth;
    }

    /** The vertices of a path that are used, the first left out, where the net is already. */
    IntList usedOn(VertexPath path) {
        IntList result = new IntArrayList();
        for (int i = 1; i < path.size(); i++) {
            if (rules.ofStep(path.vertex(i - 1), path.vertex(i)).length > 0) {
                result.add(path.vertex(i));
            }
        }
        return result;
    }

    /** Whether a path can go on to one of its vertices once occupants are removed. */
    boolean isOpen(VertexPath path, int vertex, int[] removed) {
        return rules.isOpen(before(path, vertex), vertex, removed);
    }

    /** The vertex from which a path comes to another one of its vertices. */
    private static int before(VertexPath path, int vertex) {
        int at = 1;
        while (path.vertex(at) != vertex) {
            at++;
        }
        return path.vertex(at - 1);
    }

    /**
     * The one net by which an occupant is in the way at all of some vertices of a path; {@link
     * Fabric#NOTHING} for none.
     */
    int onlyNet(int occupant, IntList vertices, VertexPath path) {
        int result = Fabric.NOTHING;
        for (int vertex : vertices) {
            if (context.isSwitchedPad(vertex) && hasOtherSwitching(occupant, vertex)) {
                return Fabric.NOTHING;
            }
            int before = before(path, vertex);
            boolean bySwitch = isNamed(rules.ofSwitch(before, vertex), occupant);
            if (bySwitch && isNamed(rules.of(vertex), occupant)) {
                return Fabric.NOTHING;
            }
            int user = bySwitch ? context.switchUser(before, vertex) : context.obstacleAt(vertex);
            boolean net = !Occupant.isCell(user);
            if (!net || result != Fabric.NOTHING && result != user) {
                return Fabric.NOTHING;
            }
            result = user;
        }
        return result;
    }

    /**
     * Whether an occupant has an end of a net that comes to the enable of the pad's driver, beside
     * the net that uses the pad itself: then both have to leave.
     */
    private boolean hasOtherSwitching(int occupant, int padVertex) {
        int user = context.obstacleAt(padVertex);
        return context.switchingNets()
                .intStream()
                .anyMatch(net -> net != user && isAtEndOf(net, occupant));
    }

    private boolean isAtEndOf(int net, int occupant) {
        return Occupant.isCell(occupant)
                && design.netsAt(Occupant.cellOf(occupant)).stream().anyMatch(n -> n.id() == net);
    }

    private static boolean isNamed(int[][][] needs, int occupant) {
        return Arrays.stream(needs)
                .flatMap(Arrays::stream)
                .anyMatch(choice -> ReleaseRules.contains(choice, occupant));
    }

    /** Works out what each obstacle of a set means. */
    public UnblockOption weigh(int[] set, VertexPath path) {
        Map<Integer, List<Integer>> verticesOf = new LinkedHashMap<>();
        for (int vertex : usedOn(path)) {
            for (int occupant : set) {
                int[] others = Arrays.stream(set).filter(o -> o != occupant).toArray();
                if (!isOpen(path, vertex, others)) {
                    verticesOf.computeIfAbsent(occupant, o -> new ArrayList<>()).add(vertex);
                }
            }
        }
        // Each of a smallest set is needed somewhere; if only in turn with others, name it all the
        // same.
        for (int occupant : set) {
            verticesOf.computeIfAbsent(occupant, o -> anyUsedFor(o, path));
        }
        if (enableOccupant != Fabric.NOTHING) {
            verticesOf.putIfAbsent(enableOccupant, List.of());
        }
        Map<Integer, Consequence> consequences = consequences(verticesOf, path);
        List<Removal> removals = new ArrayList<>();
        verticesOf.forEach(
                (occupant, vertices) ->
                        removals.add(
                                new Removal(
                                        occupancy.occupant(occupant),
                                        vertices,
                                        consequences.get(occupant),
                                        fanOut.losing(occupant),
                                        occupant == enableOccupant || isOnEveryRoute(occupant))));
        int[] leaving =
                Arrays.stream(set)
                        .filter(o -> !(consequences.get(o) instanceof Consequence.Movable))
                        .toArray();
        // What controls the enable is in no set, for it is removed in any case, and never moved.
        return new UnblockOption(
                removals,
                path,
                branchKept(withEnable(set), path),
                branchKept(withEnable(leaving), path));
    }

    private int[] withEnable(int[] set) {
        return enableOccupant == Fabric.NOTHING
                ? set
                : IntStream.concat(Arrays.stream(set), IntStream.of(enableOccupant)).toArray();
    }

    private List<Integer> anyUsedFor(int occupant, VertexPath path) {
        List<Integer> result = new ArrayList<>();
        for (int vertex : usedOn(path)) {
            for (int[][] choices : rules.ofStep(before(path, vertex), vertex)) {
                boolean names =
                        Arrays.stream(choices).anyMatch(c -> ReleaseRules.contains(c, occupant));
                if (names && !result.contains(vertex)) {
                    result.add(vertex);
                }
            }
        }
        return result;
    }

    /**
     * When a cell that the net itself feeds is removed, the net's branch to it goes, and with it
     * perhaps the place from which the route starts: then the branch stays.
     */
    private Optional<Edit> branchKept(int[] set, VertexPath path) {
        Net net = context.net();
        boolean feedsOne =
                net.sinks().stream()
                        .anyMatch(
                                t ->
                                        t instanceof Terminal.CellPin at
                                                && ReleaseRules.contains(
                                                        set, Occupant.ofCell(at.cell())));
        if (!feedsOne) {
            return Optional.empty();
        }
        RouteTree tree = net.route();
        boolean[] gone = new boolean[tree.size()];
        Arrays.fill(gone, true);
        IntSet wanted = new IntOpenHashSet();
        wanted.add(path.first());
        for (Terminal sink : net.sinks()) {
            boolean removed =
                    sink instanceof Terminal.CellPin at
                            && ReleaseRules.contains(set, Occupant.ofCell(at.cell()));
            if (!removed) {
                wanted.add(design.vertexOf(sink));
            }
        }
        for (int place = tree.size() - 1; place >= 0; place--) {
            if (wanted.contains(tree.vertex(place))) {
                for (int p = place; p >= 0 && gone[p]; p = tree.parent(p)) {
                    gone[p] = false;
                }
            }
        }
        return Optional.of(new Edit.RouteNet(net.name(), RouteTreeBranches.without(tree, gone)));
    }

    private Map<Integer, Consequence> consequences(
            Map<Integer, List<Integer>> verticesOf, VertexPath path) {
        Map<Integer, Consequence> result = new HashMap<>();
        for (int occupant : verticesOf.keySet()) {
            if (fanOut.isRemovable(occupant)) {
                result.put(occupant, new Consequence.Removable());
            } else if (occupant == enableOccupant || context.switchingNets().contains(occupant)) {
                result.put(occupant, new Consequence.LosesFunction(fanOut.losing(occupant)));
            }
        }
        // What cannot be moved is removed, perhaps together with what else was to be moved: once
        // more
        // then, on top of that.
        while (true) {
            Map<Integer, Consequence> moved = moves(verticesOf, path, result);
            boolean allMoved =
                    moved.values().stream().noneMatch(c -> c instanceof Consequence.LosesFunction);
            if (allMoved) {
                result.putAll(moved);
                return result;
            }
            moved.forEach(
                    (occupant, consequence) -> {
                        if (consequence instanceof Consequence.LosesFunction) {
                            result.put(occupant, consequence);
                        }
                    });
        }
    }

    /** Tries to move everything that is not decided yet. */
    private Map<Integer, Consequence> moves(
            Map<Integer, List<Integer>> verticesOf,
            VertexPath path,
            Map<Integer, Consequence> decided) {
        Map<Integer, Consequence> result = new HashMap<>();
        if (decided.size() == verticesOf.size()) {
            return result;
        }
        Set<Edit> removed = new HashSet<>();
        context.disconnected().ifPresent(l -> removed.add(l.toEdit()));
        decided.keySet().stream()
                .map(occupancy::occupant)
                .filter(o -> !Removal.goesWith(o, context.disconnected()))
                .forEach(o -> removed.add(Removal.removing(o)));
        Design after = designs.computeIfAbsent(removed, this::apply);
        Optional<Net> own = after.findNet(context.net().name());
        if (own.isEmpty()) {
            verticesOf.keySet().stream()
                    .filter(o -> !decided.containsKey(o))
                    .forEach(o -> result.put(o, new Consequence.LosesFunction(fanOut.losing(o))));
            return result;
        }
        MoveSearch moves = new MoveSearch(after, own.get(), finder, pushDepth);
        OccupancyOverlay overlay = moves.overlayFor(context.net().route(), path, pad.enableSite());
        verticesOf.forEach(
                (occupant, vertices) -> {
                    if (!decided.containsKey(occupant)) {
                        Optional<Consequence.Movable> moved =
                                move(moves, overlay, occupant, vertices, path);
                        result.put(
                                occupant,
                                moved.<Consequence>map(m -> m)
                                        .orElseGet(
                                                () ->
                                                        new Consequence.LosesFunction(
                                                                fanOut.losing(occupant))));
                    }
                });
        return result;
    }

    private Design apply(Set<Edit> edits) {
        List<Edit> ordered = new ArrayList<>(edits);
        ordered.sort(UnblockOption.REMOVAL_ORDER);
        return Outcome.apply(design, ordered);
    }

    private Optional<Consequence.Movable> move(
            MoveSearch moves,
            OccupancyOverlay overlay,
            int occupant,
            List<Integer> vertices,
            VertexPath path) {
        if (switchesAnother(occupancy.occupant(occupant))) {
            return Optional.empty();
        }
        int net = onlyNet(occupant, new IntArrayList(vertices), path);
        Optional<String> onlyNet =
                net == Fabric.NOTHING
                        ? Optional.empty()
                        : Optional.of(design.nets().get(net).name());
        return moves.move(occupancy.occupant(occupant), onlyNet, vertices, overlay);
    }

    /** Whether an occupant switches another pad's driver: a move would not lead there again. */
    private boolean switchesAnother(Occupant occupant) {
        Stream<Net> nets =
                occupant instanceof Occupant.ByCell by
                        ? design.netsAt(by.cell().id()).stream()
                        : Stream.of(((Occupant.ByNet) occupant).net());
        return nets.flatMap(n -> design.switchedBy(n).stream())
                .anyMatch(p -> fabricPad(p).vertex() != pad.vertex());
    }

    private Pad fabricPad(Port port) {
        return design.fabric().pads().get(port.pad());
    }

    /** Whether every route passes something that an occupant uses. O(edges) at the worst. */
    private boolean isOnEveryRoute(int occupant) {
        return QuestionGraph.towards(context, starts, pad.vertex())
                .reversed(starts)
                .isCutBy(vertex -> context.obstacleAt(vertex) == occupant, finder.progress());
    }
}
