package padward.clearance;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * Which occupants, if freed, open a vertex, by the rules of {@link padward.design.Edit}: a net
 * gives back its wires; a cell gives back its pins, the nets that it drives, and of the nets that
 * feed it the wires that lead to it alone. So a wire may have several openers of which any one will
 * do; and a pin where a cell and a passing net meet may need two.
 *
 * <p>Occupants have the numbers of {@link padward.design.Occupancy}. Results are kept; one object
 * belongs to one thread.
 */
final class Openers {
    private static final int[][] NONE = {};

    private final Situation situation;
    private final Design design;
    private final Fabric fabric;
    private final int netCount;
    private final int ownDriver;
    private final int alreadyFreed;
    private final Int2ObjectOpenHashMap<int[][]> known = new Int2ObjectOpenHashMap<>();
    private final Int2ObjectOpenHashMap<HeldByNet> heldByNet = new Int2ObjectOpenHashMap<>();
    private final Int2ObjectOpenHashMap<int[]> soleByNet = new Int2ObjectOpenHashMap<>();

    /**
     * @param alreadyFreed an occupant that goes in any case, or {@link Fabric#NOTHING}
     */
    Openers(Situation situation, int alreadyFreed) {
        this.situation = situation;
        this.alreadyFreed = alreadyFreed;
        this.design = situation.design();
        this.fabric = design.fabric();
        this.netCount = design.nets().size();
        this.ownDriver =
                situation.net().driver() instanceof Terminal.CellPin at
                        ? at.cell()
                        : Fabric.NOTHING;
    }

    /**
     * What it takes to open a vertex: for each entry, one of the occupants in it. No entries when
     * the vertex is free. Must not be asked of closed vertices.
     */
    int[][] of(int vertex) {
        if (!situation.isHeld(vertex)) {
            return NONE;
        }
        int[][] result = known.get(vertex);
        if (result == null) {
            result = withoutFreed(find(vertex));
            known.put(vertex, result);
        }
        return result;
    }

    private int[][] withoutFreed(int[][] needed) {
        if (alreadyFreed == Fabric.NOTHING) {
            return needed;
        }
        int[] freed = {alreadyFreed};
        return Arrays.stream(needed).filter(oneOf -> !meet(oneOf, freed)).toArray(int[][]::new);
    }

    private int[][] find(int vertex) {
        int id = design.occupancy().occupantId(vertex);
        if (id < netCount) {
            return new int[][] {openersOf(id, vertex)};
        }
        List<int[]> result = new ArrayList<>();
        Cell cell = design.cells().get(id - netCount);
        if (!cell.letsThrough()) {
            result.add(new int[] {id});
        } else {
            result.add(openersOfUsedPin(id, cell, vertex));
            for (int net : netsThrough(cell.site())) {
                result.add(openersOf(net, vertex));
            }
        }
        return result.toArray(new int[0][]);
    }

    /** A cell that lets signals through holds a pin only as long as a net of its own ends there. */
    private int[] openersOfUsedPin(int id, Cell cell, int vertex) {
        IntArrayList result = new IntArrayList();
        result.add(id);
        for (Net net : design.netsAt(cell.id())) {
            boolean endsHere =
                    net.ends().stream()
                            .anyMatch(
                                    t ->
                                            t instanceof Terminal.CellPin at
                                                    && at.cell() == cell.id()
                                                    && design.vertexOf(t) == vertex);
            if (endsHere && net.id() != situation.net().id()) {
                for (int opener : openersOf(net.id(), vertex)) {
                    if (!result.contains(opener)) {
                        result.add(opener);
                    }
                }
            }
        }
        return result.toIntArray();
    }

    private IntSet netsThrough(int site) {
        IntSet result = new IntOpenHashSet();
        SiteView view = fabric.site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            design.occupancy()
                    .findNetOn(view.firstPin() + pin)
                    .filter(net -> !held(net.id()).throughPlaces(site).isEmpty())
                    .ifPresent(net -> result.add(net.id()));
        }
        return result;
    }

    /** The net itself, the cell that drives it, and the cell that this part of it serves alone. */
    private int[] openersOf(int net, int vertex) {
        IntArrayList result = new IntArrayList();
        result.add(net);
        if (design.nets().get(net).driver() instanceof Terminal.CellPin at
                && at.cell() != ownDriver) {
            result.add(netCount + at.cell());
        }
        int sole = soleCell(net, vertex);
        if (sole != Fabric.NOTHING && sole != ownDriver && !result.contains(netCount + sole)) {
            result.add(netCount + sole);
        }
        return result.toIntArray();
    }

    private int soleCell(int net, int vertex) {
        int[] sole = soleByNet.computeIfAbsent(net, n -> held(n).soleCells(situation.letGo()));
        int place = held(net).placeOf(vertex);
        if (place != Fabric.NOTHING) {
            return sole[place];
        }
        int result = Fabric.NOTHING;
        for (int through : held(net).throughPlaces(fabric.siteOf(vertex))) {
            boolean same = result == Fabric.NOTHING || result == sole[through];
            if (sole[through] == Fabric.NOTHING || !same) {
                return Fabric.NOTHING;
            }
            result = sole[through];
        }
        return result;
    }

    HeldByNet held(int net) {
        return heldByNet.computeIfAbsent(net, n -> new HeldByNet(design, design.nets().get(n)));
    }

    /** The vertices, now held, that are usable once all of some occupants are freed. */
    IntSet openedBy(int[] occupants) {
        IntSet candidates = new IntOpenHashSet();
        IntArrayList all = new IntArrayList(occupants);
        if (alreadyFreed != Fabric.NOTHING) {
            all.add(alreadyFreed);
        }
        for (int occupant : all) {
            if (occupant < netCount) {
                candidates.addAll(held(occupant).vertices());
            } else {
                addHeldWith(design.cells().get(occupant - netCount), candidates);
            }
        }
        IntSet result = new IntOpenHashSet();
        for (int vertex : candidates) {
            if (situation.isHeld(vertex)
                    && !situation.isClosed(vertex)
                    && isOpen(vertex, occupants)) {
                result.add(vertex);
            }
        }
        return result;
    }

    private void addHeldWith(Cell cell, IntSet candidates) {
        SiteView site = fabric.site(cell.site());
        for (int pin = 0; pin < site.pins().size(); pin++) {
            candidates.add(site.firstPin() + pin);
        }
        for (Net net : design.netsAt(cell.id())) {
            if (net.id() != situation.net().id()) {
                candidates.addAll(held(net.id()).vertices());
            }
        }
    }

    /** Whether a vertex is usable once the occupants are freed. */
    boolean isOpen(int vertex, int[] freed) {
        for (int[] oneOf : of(vertex)) {
            if (!meet(oneOf, freed)) {
                return false;
            }
        }
        return true;
    }

    /** Whether two short lists have a member in common. */
    static boolean meet(int[] some, int[] others) {
        for (int one : some) {
            for (int other : others) {
                if (one == other) {
                    return true;
                }
            }
        }
        return false;
    }
}
