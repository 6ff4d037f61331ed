package padward.fabric.explicit;

import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;

/** Switch groups as they come, switch by switch. Belongs to one thread. */
final class SwitchGroupBag {
    private final Object2IntOpenHashMap<String> numbers = new Object2IntOpenHashMap<>();
    private final List<String> names = new ArrayList<>();
    private final List<LongArrayList> members = new ArrayList<>();
    private final Long2IntOpenHashMap groupOf = new Long2IntOpenHashMap();

    SwitchGroupBag() {
        numbers.defaultReturnValue(Fabric.NOTHING);
        groupOf.defaultReturnValue(Fabric.NOTHING);
    }

    /** Adds a switch to a group; false when it is in another one. */
    boolean add(String name, long edge) {
        int group = numbers.getInt(name);
        int before = groupOf.get(edge);
        if (before != Fabric.NOTHING) {
            return before == group;
        }
        if (group == Fabric.NOTHING) {
            group = names.size();
            numbers.put(name, group);
            names.add(name);
            members.add(new LongArrayList());
        }
        groupOf.put(edge, group);
        members.get(group).add(edge);
        return true;
    }

    /** The groups in the vertices' final numbers. */
    SwitchGroups freeze(int[] number) {
        if (names.isEmpty()) {
            return SwitchGroups.NONE;
        }
        List<SwitchGroups.Group> result = new ArrayList<>();
        for (int group = 0; group < names.size(); group++) {
            LongArrayList edges = new LongArrayList();
            for (long edge : members.get(group)) {
                edges.add(EdgeKey.of(number[EdgeKey.from(edge)], number[EdgeKey.to(edge)]));
            }
            result.add(new SwitchGroups.Group(names.get(group), edges));
        }
        return new SwitchGroups(result);
    }

    /** The members that are no switches of the finished fabric. O(their ends' edges). */
    List<ExplicitBuilder.NoSwitch> noSwitches(Fabric fabric, int[] number) {
        List<ExplicitBuilder.NoSwitch> result = new ArrayList<>();
        EdgeCursor edges = fabric.edgesOut();
        for (int group = 0; group < names.size(); group++) {
            LongArrayList all = members.get(group);
            for (int i = 0; i < all.size(); i++) {
                int from = number[EdgeKey.from(all.getLong(i))];
                int to = number[EdgeKey.to(all.getLong(i))];
                if (!isSwitch(edges, from, to)) {
                    result.add(
                            new ExplicitBuilder.NoSwitch(
                                    group, i, fabric.vertexName(from), fabric.vertexName(to)));
                }
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
