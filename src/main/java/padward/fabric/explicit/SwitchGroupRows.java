package padward.fabric.explicit;

import java.util.Arrays;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;

/**
 * Makes the rows of {@link TileSwitchGroups} of all switches in groups, which are given in the
 * order of where they end. O(switches · log switches). Belongs to one thread.
 */
final class SwitchGroupRows {
    private final TileOffsets bases;
    private final TileOffsets groupBases;
    private final EdgeRows in;
    private final long[] turned;
    private final int[] groups;

    /** By switch: whether all edges into where it ends are of its group. */
    private final boolean[] whole;

    /**
     * @param turned by switch, where it ends and where it begins, as one number; sorted
     * @param groups by switch, its group
     */
    SwitchGroupRows(
            TileOffsets bases, TileOffsets groupBases, EdgeRows in, long[] turned, int[] groups) {
        this.bases = bases;
        this.groupBases = groupBases;
        this.in = in;
        this.turned = turned;
        this.groups = groups;
        this.whole = new boolean[turned.length];
    }

    private int to(int index) {
        return EdgeKey.from(turned[index]);
    }

    private int from(int index) {
        return EdgeKey.to(turned[index]);
    }

    TileRows ofVertices() {
        TileRows.Maker rows = new TileRows.Maker(bases);
        EdgeCursor edges = in.cursor();
        for (int start = 0; start < turned.length; ) {
            int to = to(start);
            int end = start + 1;
            while (end < turned.length && to(end) == to) {
                end++;
            }
            int tile = bases.tileOf(to);
            if (isWhole(edges, start, end)) {
                Arrays.fill(whole, start, end, true);
                rows.add(TileSwitchGroups.WHOLE);
                addGroup(rows, tile, groups[start]);
            } else {
                rows.add(TileSwitchGroups.PART);
                for (int i = start; i < end; i++) {
                    addVertex(rows, tile, from(i));
                    addGroup(rows, bases.tileOf(from(i)), groups[i]);
                }
            }
            rows.end(to);
            start = end;
        }
        return rows.make();
    }

    /** Whether switches into one vertex are of one group, and all edges into it. */
    private boolean isWhole(EdgeCursor edges, int start, int end) {
        for (int i = start + 1; i < end; i++) {
            if (groups[i] != groups[start]) {
                return false;
            }
        }
        int count = 0;
        edges.reset(to(start));
        while (edges.next()) {
            long edge = EdgeKey.of(to(start), edges.other());
            if (Arrays.binarySearch(turned, start, end, edge) < 0) {
                return false;
            }
            count++;
        }
        return count == end - start;
    }

    /** To be called after the rows of the vertices were made. */
    TileRows ofGroups() {
        TileRows.Maker rows = new TileRows.Maker(groupBases);
        int[] start = new int[groupBases.count() + 1];
        for (int group : groups) {
            start[group + 1]++;
        }
        for (int group = 0; group < groupBases.count(); group++) {
            start[group + 1] += start[group];
        }
        int[] next = start.clone();
        int[] members = new int[groups.length];
        for (int i = 0; i < groups.length; i++) {
            members[next[groups[i]]++] = i;
        }
        for (int group = 0; group < groupBases.count(); group++) {
            int tile = groupBases.tileOf(group);
            for (int i = start[group]; i < start[group + 1]; ) {
                int behind = i + 1;
                while (behind < start[group + 1] && to(members[behind]) == to(members[i])) {
                    behind++;
                }
                addVertex(rows, tile, to(members[i]));
                if (whole[members[i]]) {
                    rows.add(TileSwitchGroups.WHOLE);
                } else {
                    rows.add(TileSwitchGroups.PART);
                    rows.add(behind - i);
                    for (int k = i; k < behind; k++) {
                        addVertex(rows, tile, from(members[k]));
                    }
                }
                i = behind;
            }
            rows.end(group);
        }
        return rows.make();
    }

    private void addVertex(TileRows.Maker rows, int tile, int vertex) {
        add(rows, bases, tile, vertex);
    }

    private void addGroup(TileRows.Maker rows, int tile, int group) {
        add(rows, groupBases, tile, group);
    }

    private static void add(TileRows.Maker rows, TileOffsets things, int tile, int thing) {
        int there = things.tileOf(thing);
        rows.addSigned(there - tile);
        rows.add(thing - things.first(there));
    }
}
