package padward.design;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntAVLTreeSet;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntLists;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSortedSet;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.ToIntFunction;
import padward.fabric.Fabric;

/**
 * The numbers of the nets at each cell and port: those of the design that was read, shared by all
 * that edits make of it, and the cells and ports where they differ. Immutable.
 */
final class NetsByEnd {
    private final Lists cells;
    private final Lists ports;
    private final Int2ObjectOpenHashMap<IntList> changed;

    private NetsByEnd(Lists cells, Lists ports, Int2ObjectOpenHashMap<IntList> changed) {
        this.cells = cells;
        this.ports = ports;
        this.changed = changed;
    }

    /** Of all nets. O(ends + greatest number of a cell or port). */
    static NetsByEnd of(Iterable<Net> nets) {
        return new NetsByEnd(
                Lists.of(nets, NetsByEnd::cellOf),
                Lists.of(nets, NetsByEnd::portOf),
                new Int2ObjectOpenHashMap<>());
    }

    private static int cellOf(Terminal end) {
        return end instanceof Terminal.CellPin at ? at.cell() : Fabric.NOTHING;
    }

    private static int portOf(Terminal end) {
        return end instanceof Terminal.PortEnd at ? at.port() : Fabric.NOTHING;
    }

    /**
     * The nets at each of many things by its number: a design that was read has too many for a
     * table of lists.
     *
     * @param first where the list of each number begins, and one more
     * @param nets all lists, one after the other
     */
    private record Lists(int[] first, int[] nets) {
        static Lists of(Iterable<Net> all, ToIntFunction<Terminal> numberOf) {
            int most = -1;
            int ends = 0;
            for (Net net : all) {
                most = Math.max(most, numberOf.applyAsInt(net.driver()));
                for (Terminal sink : net.sinks()) {
                    most = Math.max(most, numberOf.applyAsInt(sink));
                }
                ends += net.sinks().size() + 1;
            }
            int[] numbers = new int[ends];
            int[] owners = new int[ends];
            int[] first = new int[most + 2];
            int count = 0;
            int[] last = new int[most + 1];
            Arrays.fill(last, Fabric.NOTHING);
            for (Net net : all) {
                for (Terminal end : net.ends()) {
                    int number = numberOf.applyAsInt(end);
                    if (number != Fabric.NOTHING && last[number] != net.id()) {
                        last[number] = net.id();
                        numbers[count] = number;
                        owners[count++] = net.id();
                        first[number + 1]++;
                    }
                }
            }
            for (int number = 0; number <= most; number++) {
                first[number + 1] += first[number];
            }
            int[] next = first.clone();
            int[] nets = new int[count];
            for (int i = 0; i < count; i++) {
                nets[next[numbers[i]]++] = owners[i];
            }
            return new Lists(first, nets);
        }

        IntList at(int number) {
            return number + 1 < first.length
                    ? IntArrayList.wrap(nets).subList(first[number], first[number + 1])
                    : IntLists.EMPTY_LIST;
        }
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
        if (now != null) {
            return now;
        }
        return key >= 0 ? cells.at(key) : ports.at(~key);
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
        return new NetsByEnd(cells, ports, now);
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
