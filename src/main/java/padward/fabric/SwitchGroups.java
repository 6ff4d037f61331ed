package padward.fabric;

import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import it.unimi.dsi.fastutil.longs.LongList;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Groups of switches of which at most one can be on, because they share a setting: the inputs of a
 * multiplexer that leads to several wires, say. A switch belongs to one group at the most. Switches
 * into the same wire need no group, for a wire carries one net and is entered once.
 *
 * <p>Some 30 bytes a switch in a group; nothing where there are none. Immutable, safe for all
 * threads.
 */
public final class SwitchGroups {
    /** No groups. */
    public static final SwitchGroups NONE = new SwitchGroups(List.of());

    private final List<Group> groups;
    private final Long2IntOpenHashMap groupBySwitch = new Long2IntOpenHashMap();

    /**
     * One group.
     *
     * @param name its name
     * @param switches its switches as {@link EdgeKey}s
     */
    public record Group(String name, LongList switches) {
        /** Sorts and copies the switches. */
        public Group {
            LongArrayList sorted = new LongArrayList(switches);
            sorted.sort(null);
            sorted.trim();
            switches = sorted;
        }
    }

    /**
     * @param groups the groups in any order, none of them empty
     */
    public SwitchGroups(List<Group> groups) {
        List<Group> sorted = new ArrayList<>(groups);
        sorted.sort(Comparator.comparingLong(g -> g.switches().getLong(0)));
        this.groups = List.copyOf(sorted);
        groupBySwitch.defaultReturnValue(Fabric.NOTHING);
        for (int group = 0; group < sorted.size(); group++) {
            for (long one : sorted.get(group).switches()) {
                groupBySwitch.put(one, group);
            }
        }
        groupBySwitch.trim();
    }

    /** Whether there are none. */
    public boolean isEmpty() {
        return groups.isEmpty();
    }

    /** Number of groups, numbered from 0 in the order of their first switches. */
    public int count() {
        return groups.size();
    }

    /** Name of a group. */
    public String name(int group) {
        return groups.get(group).name();
    }

    /** The switches of a group as {@link EdgeKey}s, sorted; not to be changed. */
    public LongList switches(int group) {
        return groups.get(group).switches();
    }

    /** The group of the switch between two vertices, or {@link Fabric#NOTHING}. O(1). */
    public int groupOf(int from, int to) {
        return groups.isEmpty() ? Fabric.NOTHING : groupBySwitch.get(EdgeKey.of(from, to));
    }

    /** Bytes that the switches take, without the names. */
    public long memory() {
        return groups.isEmpty() ? 0 : 28L * groupBySwitch.size() + 40L * groups.size();
    }
}
