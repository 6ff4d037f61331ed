package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.Progress;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.flow.DisjointFlow;
import padward.route.flow.DisjointRouteFinder;
import padward.route.flow.DisjointRoutes;
import padward.route.flow.FlowCut;
import padward.route.flow.FlowGoal;
import padward.route.search.SearchSources;

/**
 * The flow of a group, kept for when nets or pads come or go, or for what it would be once
 * something is removed from the design. It is always what it was changed to last. Belongs to one
 * thread.
 */
final class GroupFlow {
    /**
     * What a flow is of.
     *
     * @param nets the nets
     * @param trees for each net where its route may start
     * @param goals the pads
     * @param closed what no route may enter; the nets' own need not be in it
     */
    record Members(List<Net> nets, List<SearchSources> trees, List<FlowGoal> goals, BitSet closed) {
        /** Copies the lists. */
        Members {
            nets = List.copyOf(nets);
            trees = List.copyOf(trees);
            goals = List.copyOf(goals);
        }

        /** What is closed to all but the net that has it. */
        BitSet closedWithTrees() {
            BitSet result = (BitSet) closed.clone();
            for (SearchSources tree : trees) {
                for (int i = 0; i < tree.size(); i++) {
                    result.set(tree.vertex(i));
                }
            }
            return result;
        }

        Optional<SearchSources> treeOf(String net) {
            for (int i = 0; i < nets.size(); i++) {
                if (nets.get(i).name().equals(net)) {
                    return Optional.of(trees.get(i));
                }
            }
            return Optional.empty();
        }
    }

    private final DisjointFlow flow;

    /** By the net's name its number in the flow; names stay when a design changes. */
    private final Map<String, Integer> numberOf = new HashMap<>();

    /** By the names of the nets that take part where their routes may start. */
    private final Map<String, SearchSources> active = new HashMap<>();

    private final Map<Integer, FlowGoal> goals = new HashMap<>();
    private BitSet closed;

    /** A flow from nothing. When {@code progress} says so, it ends soon, with fewer routes. */
    GroupFlow(Fabric fabric, Members members, Progress progress) {
        flow =
                DisjointRouteFinder.start(
                        fabric,
                        Corner.SLOW,
                        BlockedVertices.of(members.closed()),
                        members.trees(),
                        members.goals(),
                        progress);
        for (int i = 0; i < members.nets().size(); i++) {
            numberOf.put(members.nets().get(i).name(), i);
            active.put(members.nets().get(i).name(), members.trees().get(i));
        }
        members.goals().forEach(g -> goals.put(g.vertex(), g));
        closed = members.closedWithTrees();
    }

    /**
     * Changes it: one search for each net or pad that comes or goes, and at most one for each
     * vertex that is no longer closed. When {@code progress} says so, it ends soon, with routes
     * that need not be the most.
     */
    void changeTo(Members wanted, Progress progress) {
        flow.askToStop(progress);
        for (String net : Set.copyOf(active.keySet())) {
            Optional<SearchSources> tree = wanted.treeOf(net);
            boolean same = tree.filter(t -> isSame(t, active.get(net))).isPresent();
            if (!same) {
                flow.removeNet(numberOf.get(net));
                active.remove(net);
                // One of this name that comes again may have another tree.
                numberOf.remove(net);
            }
        }
        for (FlowGoal goal : List.copyOf(goals.values())) {
            if (!wanted.goals().contains(goal)) {
                flow.removeGoal(goal.vertex());
                goals.remove(goal.vertex());
            }
        }
        changeClosed(wanted.closedWithTrees());
        for (FlowGoal goal : wanted.goals()) {
            if (goals.put(goal.vertex(), goal) == null) {
                flow.addGoal(goal);
            }
        }
        for (int i = 0; i < wanted.nets().size(); i++) {
            String net = wanted.nets().get(i).name();
            if (active.put(net, wanted.trees().get(i)) == null) {
                numberOf.put(net, flow.addNet(wanted.trees().get(i)));
            }
        }
        flow.finish();
    }

    private void changeClosed(BitSet now) {
        BitSet more = (BitSet) now.clone();
        more.andNot(closed);
        if (!more.isEmpty()) {
            flow.close(vertices(more));
        }
        BitSet fewer = closed;
        fewer.andNot(now);
        if (!fewer.isEmpty()) {
            flow.open(vertices(fewer));
        }
        closed = now;
    }

    private static IntArrayList vertices(BitSet bits) {
        return IntArrayList.wrap(bits.stream().toArray());
    }

    private static boolean isSame(SearchSources one, SearchSources other) {
        boolean same = one.size() == other.size();
        for (int i = 0; same && i < one.size(); i++) {
            same = one.vertex(i) == other.vertex(i) && one.cost(i) == other.cost(i);
        }
        return same;
    }

    /** Its routes, by the positions of the nets; not proven when it was stopped. */
    DisjointRoutes routes(List<Net> nets) {
        return DisjointRouteFinder.routes(flow, numbers(nets));
    }

    /** Why not all nets have a route, by the positions of the nets. */
    Optional<FlowCut> cut(List<Net> nets) {
        return DisjointRouteFinder.cut(flow, numbers(nets));
    }

    private List<Integer> numbers(List<Net> nets) {
        List<Integer> result = new ArrayList<>();
        nets.forEach(n -> result.add(numberOf.get(n.name())));
        return result;
    }

    /** Whether no free route leads from a net to any pad. */
    boolean isCutOff(Net net) {
        return flow.isCutOff(numberOf.get(net.name()));
    }
}
