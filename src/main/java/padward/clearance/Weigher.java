package padward.clearance;

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
import padward.design.Branches;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.Trial;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.route.Path;
import padward.route.Starts;
import padward.route.WayFinder;

/**
 * Works out what a set of occupants to be freed means: which of them are spare, which can really be
 * moved, which cost. One object belongs to one question and one thread.
 */
final class Weigher {
    private final Situation situation;
    private final Design design;
    private final Occupancy occupancy;
    private final Starts starts;
    private final Pad pad;
    private final Openers openers;
    private final FanOut fanOut;
    private final int enableHolder;
    private final WayFinder finder;
    private final int pushDepth;
    private final Map<Set<Edit>, Design> designs = new HashMap<>();

    /**
     * @param finder what moves are tried with
     * @param pushDepth how deep other nets may be pushed aside
     */
    Weigher(
            Situation situation,
            Starts starts,
            Pad pad,
            Openers openers,
            FanOut fanOut,
            int enableHolder,
            WayFinder finder,
            int pushDepth) {
        this.situation = situation;
        this.design = situation.design();
        this.occupancy = design.occupancy();
        this.starts = starts;
        this.pad = pad;
        this.openers = openers;
        this.fanOut = fanOut;
        this.enableHolder = enableHolder;
        this.finder = finder;
        this.pushDepth = pushDepth;
    }

    /** The vertices of a path that are held, the first left out, where the net is already. */
    IntList heldOn(Path path) {
        IntList result = new IntArrayList();
        for (int i = 1; i < path.size(); i++) {
            if (openers.of(path.vertex(i)).length > 0) {
                result.add(path.vertex(i));
            }
        }
        return result;
    }

    /** The one net that holds all of some vertices; {@link Fabric#NOTHING} for none. */
    int onlyNet(IntList vertices) {
        int result = Fabric.NOTHING;
        for (int vertex : vertices) {
            int holder = occupancy.occupantId(vertex);
            boolean net = holder < design.nets().size();
            if (!net || result != Fabric.NOTHING && result != holder) {
                return Fabric.NOTHING;
            }
            result = holder;
        }
        return result;
    }

    /** Works out what each obstacle of a set means. */
    Clearance weigh(int[] set, Path path) {
        Map<Integer, List<Integer>> verticesOf = new LinkedHashMap<>();
        for (int vertex : heldOn(path)) {
            for (int occupant : set) {
                int[] others = Arrays.stream(set).filter(o -> o != occupant).toArray();
                if (!openers.isOpen(vertex, others)) {
                    verticesOf.computeIfAbsent(occupant, o -> new ArrayList<>()).add(vertex);
                }
            }
        }
        // Each of a smallest set is needed somewhere; if only in turn with others, name it all the
        // same.
        for (int occupant : set) {
            verticesOf.computeIfAbsent(occupant, o -> anyHeldFor(o, path));
        }
        if (enableHolder != Fabric.NOTHING) {
            verticesOf.putIfAbsent(enableHolder, List.of());
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
                                        occupant == enableHolder || isOnEveryWay(occupant))));
        int[] leaving =
                Arrays.stream(set)
                        .filter(o -> !(consequences.get(o) instanceof Consequence.Movable))
                        .toArray();
        return new Clearance(removals, path, branchKept(set, path), branchKept(leaving, path));
    }

    private List<Integer> anyHeldFor(int occupant, Path path) {
        List<Integer> result = new ArrayList<>();
        for (int vertex : heldOn(path)) {
            for (int[][] choices : openers.of(vertex)) {
                boolean names = Arrays.stream(choices).anyMatch(c -> Openers.holds(c, occupant));
                if (names && !result.contains(vertex)) {
                    result.add(vertex);
                }
            }
        }
        return result;
    }

    /**
     * When a cell that the net itself feeds is freed, the net's branch to it goes, and with it
     * perhaps the place from which the way sets out: then the branch stays.
     */
    private Optional<Edit> branchKept(int[] set, Path path) {
        Net net = situation.net();
        boolean feedsOne =
                net.sinks().stream()
                        .anyMatch(
                                t ->
                                        t instanceof Terminal.CellPin at
                                                && Openers.holds(
                                                        set, design.nets().size() + at.cell()));
        if (!feedsOne) {
            return Optional.empty();
        }
        RouteTree tree = net.route();
        boolean[] gone = new boolean[tree.size()];
        Arrays.fill(gone, true);
        IntSet wanted = new IntOpenHashSet();
        wanted.add(path.first());
        for (Terminal sink : net.sinks()) {
            boolean freed =
                    sink instanceof Terminal.CellPin at
                            && Openers.holds(set, design.nets().size() + at.cell());
            if (!freed) {
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
        return Optional.of(new Edit.LayNet(net.name(), Branches.without(tree, gone)));
    }

    private Map<Integer, Consequence> consequences(
            Map<Integer, List<Integer>> verticesOf, Path path) {
        Map<Integer, Consequence> result = new HashMap<>();
        for (int occupant : verticesOf.keySet()) {
            if (fanOut.isSpare(occupant)) {
                result.put(occupant, new Consequence.Spare());
            } else if (occupant == enableHolder) {
                result.put(occupant, new Consequence.Costly(fanOut.losing(occupant)));
            }
        }
        // What cannot be moved is freed, which may take along what else was to be moved: once more
        // then, on top of that.
        while (true) {
            Map<Integer, Consequence> moved = moves(verticesOf, path, result);
            boolean allMoved =
                    moved.values().stream().noneMatch(c -> c instanceof Consequence.Costly);
            if (allMoved) {
                result.putAll(moved);
                return result;
            }
            moved.forEach(
                    (occupant, consequence) -> {
                        if (consequence instanceof Consequence.Costly) {
                            result.put(occupant, consequence);
                        }
                    });
        }
    }

    /** Tries to move everything that is not decided yet. */
    private Map<Integer, Consequence> moves(
            Map<Integer, List<Integer>> verticesOf, Path path, Map<Integer, Consequence> decided) {
        Map<Integer, Consequence> result = new HashMap<>();
        if (decided.size() == verticesOf.size()) {
            return result;
        }
        Set<Edit> freed = new HashSet<>();
        situation.letGo().ifPresent(l -> freed.add(l.toEdit()));
        decided.keySet().forEach(o -> freed.add(Removal.freeing(occupancy.occupant(o))));
        Design after = designs.computeIfAbsent(freed, this::apply);
        Optional<Net> own = after.findNet(situation.net().name());
        if (own.isEmpty()) {
            verticesOf.keySet().stream()
                    .filter(o -> !decided.containsKey(o))
                    .forEach(o -> result.put(o, new Consequence.Costly(fanOut.losing(o))));
            return result;
        }
        Mover mover = new Mover(after, own.get(), finder, pushDepth);
        Ground ground = mover.groundFor(situation.net().route(), path, pad.enableSite());
        verticesOf.forEach(
                (occupant, vertices) -> {
                    if (!decided.containsKey(occupant)) {
                        Optional<Consequence.Movable> moved =
                                move(mover, ground, occupant, vertices);
                        result.put(
                                occupant,
                                moved.<Consequence>map(m -> m)
                                        .orElseGet(
                                                () ->
                                                        new Consequence.Costly(
                                                                fanOut.losing(occupant))));
                    }
                });
        return result;
    }

    private Design apply(Set<Edit> edits) {
        List<Edit> ordered = new ArrayList<>(edits);
        ordered.sort(Clearance.FREEING_ORDER);
        return Trial.of(design, ordered);
    }

    private Optional<Consequence.Movable> move(
            Mover mover, Ground ground, int occupant, List<Integer> vertices) {
        int net = onlyNet(new IntArrayList(vertices));
        Optional<String> onlyNet =
                net == Fabric.NOTHING
                        ? Optional.empty()
                        : Optional.of(design.nets().get(net).name());
        return mover.move(occupancy.occupant(occupant), onlyNet, vertices, ground);
    }

    /** Whether every way passes something that an occupant holds. O(edges) at the worst. */
    private boolean isOnEveryWay(int occupant) {
        return Passage.towards(situation, starts, pad.vertex())
                .reversed(starts)
                .isCutBy(vertex -> situation.obstacleAt(vertex) == occupant);
    }
}
