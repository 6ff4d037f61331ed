package padward.design;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntAVLTreeSet;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntLists;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSortedSet;
import java.util.Optional;

/**
 * The numbers of the nets at each cell and port: those of the design that was read, shared by all
 * that edits make of it, and the cells and ports where they differ. Immutable.
 */
final class NetsByEnd {
    private final Int2ObjectOpenHashMap<IntList> base;
    private final Int2ObjectOpenHashMap<IntList> changed;

    private NetsByEnd(Int2ObjectOpenHashMap<IntList> base, Int2ObjectOpenHashMap<IntList> changed) {
        this.base = base;
        this.changed = changed;
    }

    /** Of all nets. O(ends). */
    static NetsByEnd of(Iterable<Net> nets) {
        Int2ObjectOpenHashMap<IntList> result = new Int2ObjectOpenHashMap<>();
        for (Net net : nets) {
            for (Terminal end : net.ends()) {
                IntList known = result.computeIfAbsent(keyOf(end), k -> new IntArrayList());
                if (known.isEmpty() || known.getInt(known.size() - 1) != net.id()) {
                    known.add(net.id());
                }
            }
        }
        return new NetsByEnd(result, new Int2ObjectOpenHashMap<>());
    }

    /** The nets at a cell, in the order of their numbers. O(1). */
    IntList atCell(int cell) {
        return at(cell);
    }

    /** The nets at a port, in the order of their numbers. O(1). */
    IntList atPort(int port) {
        return at(~port);
    }

    private IntList at(int key) {
        IntList now = changed.get(key);
        return now != null ? now : base.getOrDefault(key, IntLists.EMPTY_LIST);
    }

    /** Cells by their numbers, ports by the numbers below zero. */
    private static int keyOf(Terminal end) {
        return end instanceof Terminal.CellPin at ? at.cell() : ~((Terminal.PortEnd) end).port();
    }

    /** After a change. O(ends of the nets that change). */
    NetsByEnd with(Numbered<Net> before, DesignChange change) {
        Int2ObjectOpenHashMap<IntList> now = changed.clone();
        for (Net net : change.netsRemoved()) {
            keysOf(net).forEach(key -> update(now, key, net.id(), false));
        }
        for (Net net : change.nets()) {
            Optional<Net> old = before.find(net.id());
            IntSet was = old.map(NetsByEnd::keysOf).orElse(IntSet.of());
            IntSet is = keysOf(net);
            was.forEach(
                    key -> {
                        if (!is.contains(key)) {
                            update(now, key, net.id(), false);
                        }
                    });
            is.forEach(
                    key -> {
                        if (!was.contains(key)) {
                            update(now, key, net.id(), true);
                        }
                    });
        }
        return new NetsByEnd(base, now);
    }

    private void update(Int2ObjectOpenHashMap<IntList> now, int key, int net, boolean there) {
        IntList known = now.containsKey(key) ? now.get(key) : at(key);
        IntSortedSet nets = new IntAVLTreeSet(known);
        if (there) {
            nets.add(net);
        } else {
            nets.remove(net);
        }
        now.put(key, IntList.of(nets.toIntArray()));
    }

    private static IntSet keysOf(Net net) {
        IntSet result = new IntOpenHashSet();
        for (Terminal end : net.ends()) {
            result.add(keyOf(end));
        }
        return result;
    }
}
