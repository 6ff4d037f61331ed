package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntArrays;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import it.unimi.dsi.fastutil.longs.LongArrays;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.array.InternedBytes;

/**
 * Switch groups as they come, switch by switch: 12 bytes for each and some 20 to find it, and the
 * names. Belongs to one thread.
 */
final class SwitchGroupBag {
    private final int columns;
    private final InternedBytes rests = new InternedBytes();
    private final NameIndex names;
    private final LongArrayList edges = new LongArrayList();
    private final IntArrayList groupOfEdge = new IntArrayList();
    private final Long2IntOpenHashMap groupOf = new Long2IntOpenHashMap();

    SwitchGroupBag(int columns) {
        this.columns = columns;
        names = new NameIndex(columns, rests);
        groupOf.defaultReturnValue(Fabric.NOTHING);
    }

    /** Adds a switch to a group; false when it is in another one. */
    boolean add(TileRelativeName name, long edge) {
        int known = names.find(name);
        int group = known == Fabric.NOTHING ? names.size() : known;
        int before = groupOf.putIfAbsent(edge, group);
        if (before != Fabric.NOTHING) {
            return before == known;
        }
        if (known == Fabric.NOTHING) {
            names.add(name);
        }
        edges.add(edge);
        groupOfEdge.add(group);
        return true;
    }

    /** The number of a group of any member, in the order in which groups came. */
    private int count() {
        return names.size();
    }

    /**
     * The names in the order in which groups came, with rests that are in a pool with other names.
     * Until then they have a pool of their own, so that vertices can be found while groups are
     * added.
     */
    NameIndex namesIn(InternedBytes pool) {
        NameIndex result = new NameIndex(columns, pool);
        for (int group = 0; group < count(); group++) {
            int rest = names.rest(group);
            byte[] bytes = Arrays.copyOfRange(rests.bytes(), rests.start(rest), rests.end(rest));
            result.add(names.tile(group), pool.intern(bytes, bytes.length));
        }
        return result;
    }

    /**
     * The groups in the vertices' final numbers, once no switch is added any more. O(switches · log
     * switches).
     *
     * @param names their names, as {@link #namesIn} returned them
     */
    Sorted sorted(NameIndex names, int[] number, TileOffsets bases) {
        int size = edges.size();
        long[] turned = new long[size];
        long[] first = new long[count()];
        Arrays.fill(first, Long.MAX_VALUE);
        for (int i = 0; i < size; i++) {
            int from = number[EdgeKey.from(edges.getLong(i))];
            int to = number[EdgeKey.to(edges.getLong(i))];
            turned[i] = EdgeKey.of(to, from);
            int group = groupOfEdge.getInt(i);
            first[group] = Math.min(first[group], EdgeKey.of(from, to));
        }
        int[] homes = new int[count()];
        int[] order = new int[count()];
        for (int group = 0; group < count(); group++) {
            // names that differ by the tile only are kept once
            int stated = names.tile(group);
            boolean none = stated == Fabric.NOTHING;
            homes[group] = none ? bases.tileOf(EdgeKey.from(first[group])) : stated;
            order[group] = group;
        }
        IntArrays.quickSort(
                order,
                (a, b) ->
                        homes[a] == homes[b]
                                ? Long.compare(first[a], first[b])
                                : Integer.compare(homes[a], homes[b]));
        int[] place = new int[count()];
        for (int i = 0; i < order.length; i++) {
            place[order[i]] = i;
        }
        int[] sorted = new int[size];
        Arrays.setAll(sorted, i -> i);
        LongArrays.radixSortIndirect(sorted, turned, false);
        long[] byEnd = new long[size];
        int[] groups = new int[size];
        for (int i = 0; i < size; i++) {
            byEnd[i] = turned[sorted[i]];
            groups[i] = place[groupOfEdge.getInt(sorted[i])];
        }
        return new Sorted(homes, order, byEnd, groups);
    }

    /** Groups in the vertices' final numbers. */
    static final class Sorted {
        private final int[] homes;
        private final int[] order;

        /** Switches in the order of where they end: those into one vertex stand together. */
        private final long[] turned;

        private final int[] groups;

        private Sorted(int[] homes, int[] order, long[] turned, int[] groups) {
            this.homes = homes;
            this.order = order;
            this.turned = turned;
            this.groups = groups;
        }

        /**
         * The groups of the finished fabric; empty when there are none.
         *
         * @param names their names in the order in which groups came
         * @param in the edges into vertices
         */
        Optional<TileSwitchGroups> freeze(
                int columns,
                int rows,
                InternedBytes pool,
                NameIndex names,
                TileOffsets bases,
                EdgeRows in) {
            if (order.length == 0) {
                return Optional.empty();
            }
            TileOffsets groupBases = TileOffsets.counting(bases.tiles(), homes, order.length);
            SwitchGroupRows made = new SwitchGroupRows(bases, groupBases, in, turned, groups);
            return Optional.of(
                    new TileSwitchGroups(
                            bases,
                            groupBases,
                            new TileNames(columns, rows, pool, names, order, groupBases),
                            in,
                            made.ofVertices(),
                            made.ofGroups()));
        }
    }

    /**
     * The members that are no switches of the finished fabric. O(their ends' edges).
     *
     * @param out the edges of the fabric
     * @param number the vertices' final numbers
     * @param vertexNames their names
     */
    List<ExplicitBuilder.NoSwitch> noSwitches(EdgeCursor out, int[] number, TileNames vertexNames) {
        List<ExplicitBuilder.NoSwitch> result = new ArrayList<>();
        int[] members = new int[count()];
        for (int i = 0; i < edges.size(); i++) {
            int from = number[EdgeKey.from(edges.getLong(i))];
            int to = number[EdgeKey.to(edges.getLong(i))];
            int group = groupOfEdge.getInt(i);
            int member = members[group]++;
            if (!isSwitch(out, from, to)) {
                result.add(
                        new ExplicitBuilder.NoSwitch(
                                group, member, vertexNames.name(from), vertexNames.name(to)));
            }
        }
        return result;
    }

    private static boolean isSwitch(EdgeCursor edges, int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to && edges.kind() == EdgeKind.SWITCH) {
                return true;
            }
        }
        return false;
    }
}
