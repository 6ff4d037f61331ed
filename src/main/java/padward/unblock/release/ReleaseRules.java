package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.longs.Long2ObjectOpenHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Locks;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * What it takes to open a vertex, by the rules of {@link padward.change.Edit}: a net gives back its
 * wires; a cell gives back its pins, the nets that it drives, and of the nets that feed it the
 * wires that lead to it alone. So a wire is opened by removing its net, or the cell that drives it,
 * or all the cells that this part of it serves; and a pin where a cell and a net meet may need
 * both.
 *
 * <p>The answer is a list of needs, all of which must be met; each is a list of choices, of which
 * one will do; each choice is a sorted set of occupants, all of which must be removed. Occupants
 * have the numbers of {@link padward.design.Occupancy}. Choices of more than {@link #MOST_TOGETHER}
 * occupants are left out, which {@link #hasLeftOut} tells; a set smaller than that cannot contain
 * one. Results are kept; one object belongs to one thread.
 */
public final class ReleaseRules {
    /** Largest choice that is listed. */
    public static final int MOST_TOGETHER = 6;

    private static final int[][][] NONE = {};
    private static final int MOST_CHOICES = 16;

    private final QuestionContext context;
    private final Design design;
    private final Fabric fabric;
    private final int ownNet;
    private final int ownDriver;
    private final Locks locks;
    private final int alreadyRemoved;
    private final Int2ObjectOpenHashMap<int[][][]> known = new Int2ObjectOpenHashMap<>();
    private final Long2ObjectOpenHashMap<int[][][]> knownOff = new Long2ObjectOpenHashMap<>();
    private final Int2ObjectOpenHashMap<NetResources> usedByNet = new Int2ObjectOpenHashMap<>();
    private final Int2ObjectOpenHashMap<int[][]> servedByNet = new Int2ObjectOpenHashMap<>();
    private final Int2ObjectOpenHashMap<int[]> throughBySite = new Int2ObjectOpenHashMap<>();
    private boolean leftOut;

    /**
     * @param alreadyRemoved an occupant that is removed in any case, or {@link Fabric#NOTHING}
     */
    public ReleaseRules(QuestionContext context, int alreadyRemoved) {
        this.context = context;
        this.alreadyRemoved = alreadyRemoved;
        this.design = context.design();
        this.fabric = design.fabric();
        this.locks = design.locks();
        this.ownNet = context.net().id();
        this.ownDriver = context.net().driverCell();
    }

    /**
     * Whether a choice of more than {@link #MOST_TOGETHER} occupants was left out at a vertex asked
     * for so far: then no more than one above that many can be proven to be needed.
     */
    public boolean hasLeftOut() {
        return leftOut;
    }

    /** What it takes to open a vertex; no needs when it is free. Not for closed vertices. */
    public int[][][] of(int vertex) {
        if (!context.isUsed(vertex)) {
            return NONE;
        }
        int[][][] result = known.get(vertex);
        if (result == null) {
            result = find(vertex);
            known.put(vertex, result);
        }
        return result;
    }

    private int[][][] find(int vertex) {
        List<int[][]> needs = new ArrayList<>();
        if (context.isSwitchedPad(vertex)) {
            addSwitching(needs);
        }
        IntSet nets = new IntOpenHashSet();
        design.occupancy().findNetOn(vertex).ifPresent(n -> nets.add(n.id()));
        design.occupancy().findNetStartingBeside(vertex).ifPresent(n -> nets.add(n.id()));
        int site = fabric.siteOf(vertex);
        if (site != Fabric.NOTHING) {
            design.occupancy().findCellOn(site).ifPresent(c -> addCell(c, vertex, needs));
            for (int net : netsThrough(site)) {
                nets.add(net);
            }
        }
        for (int net : nets) {
            needs.add(choices(net, vertex));
        }
        removeMet(needs);
        return needs.toArray(new int[0][][]);
    }

    /** A need that what is removed in any case, or disconnected, meets is none. */
    private static void removeMet(List<int[][]> needs) {
        needs.removeIf(
                choices -> {
                    for (int[] choice : choices) {
                        if (choice.length == 0) {
                            return true;
                        }
                    }
                    return false;
                });
    }

    /** All pins of the enable's site must be open before the pad shows anything. */
    private void addSwitching(List<int[][]> needs) {
        SiteView view = fabric.site(context.switchedSite());
        for (int pin = 0; pin < view.pins().size(); pin++) {
            needs.addAll(List.of(of(view.firstPin() + pin)));
        }
    }

    /** The nets that go through a site. O(pins) the first time. */
    private int[] netsThrough(int site) {
        int[] result = throughBySite.get(site);
        if (result == null) {
            result = findNetsThrough(site);
            throughBySite.put(site, result);
        }
        return result;
    }

    private int[] findNetsThrough(int site) {
        SiteView view = fabric.site(site);
        IntSet seen = new IntOpenHashSet();
        IntSet result = new IntOpenHashSet();
        for (int pin = 0; pin < view.pins().size(); pin++) {
            int net = design.occupancy().netIdOn(view.firstPin() + pin);
            // Whatever goes through a site has two of its pins at least.
            boolean again = net != Fabric.NOTHING && !seen.add(net);
            if (again && !result.contains(net) && !used(net).throughPlaces(site).isEmpty()) {
                result.add(net);
            }
        }
        return result.toIntArray();
    }

    private void addCell(Cell cell, int vertex, List<int[][]> needs) {
        int[] itself = choice(new int[] {itself(cell)});
        if (!cell.letsThrough()) {
            needs.add(new int[][] {itself});
            return;
        }
        List<Net> ending = netsEndingAt(cell, vertex);
        if (ending.isEmpty()) {
            return;
        }
        // It uses a pin only as long as a net of its own ends there.
        List<int[]> choices = new ArrayList<>();
        if (cell.id() != ownDriver && !locks.keeps(itself(cell))) {
            choices.add(itself);
        }
        boolean own = ending.stream().anyMatch(n -> n.id() == ownNet);
        if (!own) {
            addTogether(ending, 0, new IntArrayList(), choices);
        }
        needs.add(choices.toArray(new int[0][]));
    }

    /**
     * What it takes to go from one vertex to another: to open the second, and to turn off the
     * switch that excludes the one between them. Not for closed vertices, nor for switches that the
     * question's own net excludes.
     */
    public int[][][] ofStep(int from, int to) {
        int[][][] vertex = of(to);
        int[][][] edge = ofSwitch(from, to);
        if (edge.length == 0) {
            return vertex;
        }
        int[][][] result = Arrays.copyOf(vertex, vertex.length + edge.length);
        System.arraycopy(edge, 0, result, vertex.length, edge.length);
        return result;
    }

    /** What it takes to turn off the switch that excludes the one between two vertices. */
    public int[][][] ofSwitch(int from, int to) {
        if (!context.hasSwitchGroups()) {
            return NONE;
        }
        long other = context.excluding(from, to);
        return other == QuestionContext.NO_SWITCH
                ? NONE
                : knownOff.computeIfAbsent(other, this::findOff);
    }

    private int[][][] findOff(long edge) {
        int end = EdgeKey.to(edge);
        List<int[][]> needs = new ArrayList<>();
        needs.add(choices(design.occupancy().findNetOn(end).orElseThrow().id(), end));
        removeMet(needs);
        return needs.toArray(new int[0][][]);
    }

    /** Whether a switch that is on, as an {@link EdgeKey}, is off once occupants are removed. */
    public boolean isOff(long edge, int[] removed) {
        for (int[][] choices : knownOff.computeIfAbsent(edge, this::findOff)) {
            if (!isMet(choices, removed)) {
                return false;
            }
        }
        return true;
    }

    private List<Net> netsEndingAt(Cell cell, int vertex) {
        return design.netsAt(cell.id()).stream()
                .filter(
                        n ->
                                n.ends().stream()
                                        .anyMatch(
                                                t ->
                                                        t instanceof Terminal.CellPin at
                                                                && at.cell() == cell.id()
                                                                && design.vertexOf(t) == vertex))
                .toList();
    }

    /** Each of some nets removed by itself or with its driver: all combinations. */
    private void addTogether(List<Net> nets, int from, IntArrayList chosen, List<int[]> choices) {
        if (choices.size() > MOST_CHOICES || chosen.size() > MOST_TOGETHER) {
            leftOut = true;
            return;
        }
        if (from == nets.size()) {
            choices.add(choice(chosen.toIntArray()));
            return;
        }
        Net net = nets.get(from);
        IntArrayList routes = new IntArrayList();
        if (!locks.keeps(net.id())) {
            routes.add(net.id());
        }
        if (hasOtherDriver(net)) {
            routes.add(Occupant.ofCell(net.driverCell()));
        }
        for (int route : routes) {
            chosen.add(route);
            addTogether(nets, from + 1, chosen, choices);
            chosen.popInt();
        }
    }

    /**
     * Whether a cell drives a net that can be removed: none that drives the net of the question,
     * nor a locked one.
     */
    private boolean hasOtherDriver(Net net) {
        int driver = net.driverCell();
        return driver != Fabric.NOTHING
                && driver != ownDriver
                && !locks.keeps(Occupant.ofCell(driver));
    }

    private static int itself(Cell cell) {
        return Occupant.ofCell(cell.id());
    }

    /** The net itself, the cell that drives it, and the cells that this part of it serves. */
    private int[][] choices(int net, int vertex) {
        List<int[]> result = new ArrayList<>();
        if (net != ownNet && !locks.keeps(net)) {
            result.add(choice(new int[] {net}));
            Net occupant = design.nets().get(net);
            if (hasOtherDriver(occupant)) {
                result.add(choice(new int[] {Occupant.ofCell(occupant.driverCell())}));
            }
        }
        served(net, vertex).ifPresent(result::add);
        return result.toArray(new int[0][]);
    }

    /**
     * The cells that must all be removed for a net to leave a vertex; empty when that is not
     * enough.
     */
    private Optional<int[]> served(int net, int vertex) {
        int[][] byPlace =
                servedByNet.computeIfAbsent(
                        net, n -> used(n).servedCells(context.disconnected(), MOST_TOGETHER + 1));
        IntSet all = new IntOpenHashSet();
        int place = used(net).placeOf(vertex);
        if (place != Fabric.NOTHING && !addServed(byPlace[place], all)) {
            return Optional.empty();
        }
        int site = fabric.siteOf(vertex);
        if (site != Fabric.NOTHING) {
            for (int through : used(net).throughPlaces(site)) {
                if (!addServed(byPlace[through], all)) {
                    return Optional.empty();
                }
            }
        }
        IntArrayList cells = new IntArrayList();
        for (int cell : all) {
            if (cell == ownDriver || locks.keeps(Occupant.ofCell(cell))) {
                return Optional.empty();
            }
            cells.add(Occupant.ofCell(cell));
        }
        int[] result = choice(cells.toIntArray());
        if (result.length > MOST_TOGETHER) {
            leftOut = true;
            return Optional.empty();
        }
        return Optional.of(result);
    }

    private boolean addServed(int[] cells, IntSet all) {
        leftOut |= cells == NetResources.MANY;
        if (cells == NetResources.OTHERS || cells == NetResources.MANY) {
            return false;
        }
        for (int cell : cells) {
            all.add(cell);
        }
        return true;
    }

    /** A set, sorted, without what is removed in any case. */
    private int[] choice(int[] members) {
        int[] result = members.clone();
        Arrays.sort(result);
        int size = 0;
        for (int member : result) {
            if (member != alreadyRemoved && (size == 0 || result[size - 1] != member)) {
                result[size++] = member;
            }
        }
        return Arrays.copyOf(result, size);
    }

    public NetResources used(int net) {
        return usedByNet.computeIfAbsent(net, n -> new NetResources(design, design.nets().get(n)));
    }

    /** The vertices, now used, that are usable once all of some occupants are removed. */
    public IntSet openedBy(int[] occupants) {
        IntSet candidates = new IntOpenHashSet();
        if (context.isSwitched()) {
            candidates.add(context.switchedPad());
        }
        IntArrayList all = new IntArrayList(occupants);
        if (alreadyRemoved != Fabric.NOTHING) {
            all.add(alreadyRemoved);
        }
        for (int occupant : all) {
            if (!Occupant.isCell(occupant)) {
                addUsedBy(design.nets().get(occupant), candidates);
            } else {
                addUsedWith(design.cells().get(Occupant.cellOf(occupant)), candidates);
            }
        }
        IntSet result = new IntOpenHashSet();
        for (int vertex : candidates) {
            boolean opened =
                    context.isUsed(vertex)
                            && !context.isClosed(vertex)
                            && isOpen(vertex, occupants);
            if (opened) {
                result.add(vertex);
            }
        }
        return result;
    }

    private void addUsedBy(Net net, IntSet candidates) {
        candidates.addAll(used(net.id()).vertices());
        net.ends().forEach(t -> candidates.add(design.vertexOf(t)));
    }

    private void addUsedWith(Cell cell, IntSet candidates) {
        addPins(cell.site(), candidates);
        for (Net net : design.netsAt(cell.id())) {
            if (net.driverCell() == cell.id()) {
                addUsedBy(net, candidates);
            } else {
                addUsedTowards(net, cell, candidates);
            }
        }
    }

    /**
     * What a net may give back when a cell that it feeds is removed, which is on the way to that
     * cell only: a clock has thousands of other ends.
     */
    private void addUsedTowards(Net net, Cell cell, IntSet candidates) {
        NetResources resources = used(net.id());
        RouteTree tree = net.route();
        for (Terminal sink : net.sinks()) {
            if (sink instanceof Terminal.CellPin at && at.cell() == cell.id()) {
                int place = resources.placeOf(design.vertexOf(sink));
                for (; place > 0; place = tree.parent(place)) {
                    candidates.add(tree.vertex(place));
                    if (resources.goesThroughInto(place)) {
                        addPins(fabric.siteOf(tree.vertex(place)), candidates);
                    }
                }
            }
        }
    }

    private void addPins(int siteNumber, IntSet candidates) {
        SiteView site = fabric.site(siteNumber);
        for (int pin = 0; pin < site.pins().size(); pin++) {
            candidates.add(site.firstPin() + pin);
        }
    }

    /** Whether a vertex is usable once the occupants are removed. */
    public boolean isOpen(int vertex, int[] removed) {
        for (int[][] choices : of(vertex)) {
            if (!isMet(choices, removed)) {
                return false;
            }
        }
        return true;
    }

    /** Whether one can go from one vertex to another once the occupants are removed. */
    public boolean isOpen(int from, int to, int[] removed) {
        for (int[][] choices : ofStep(from, to)) {
            if (!isMet(choices, removed)) {
                return false;
            }
        }
        return true;
    }

    /** Whether some occupants hold all of one of the choices. */
    public static boolean isMet(int[][] choices, int[] removed) {
        for (int[] choice : choices) {
            if (containsAll(removed, choice)) {
                return true;
            }
        }
        return false;
    }

    private static boolean containsAll(int[] many, int[] few) {
        for (int one : few) {
            if (!contains(many, one)) {
                return false;
            }
        }
        return true;
    }

    /** Whether a short list has a member. */
    public static boolean contains(int[] members, int wanted) {
        for (int member : members) {
            if (member == wanted) {
                return true;
            }
        }
        return false;
    }
}
