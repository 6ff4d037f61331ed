package padward.breakout.group;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.Progress;
import padward.design.Design;
import padward.route.flow.DisjointFlow;
import padward.route.flow.DisjointRouteFinder;
import padward.route.flow.DisjointRoutes;
import padward.route.flow.FlowGoal;
import padward.route.search.SearchSources;

/**
 * The flow of a group, kept for when nets or pads come or go on the same design. Only for groups
 * whose pads give nothing back: what is free must not depend on the pads. Belongs to one thread.
 */
final class GroupFlow {
    private final Design design;
    private final DisjointFlow flow;

    /** By the net's number in the design its number in the flow. */
    private final Map<Integer, Integer> numberOf = new HashMap<>();

    private final Set<Integer> active = new HashSet<>();
    private final Map<Integer, FlowGoal> goals = new HashMap<>();

    /**
     * A flow that was begun with these nets, in this order, and goals.
     *
     * @param nets numbers of the nets in the design
     */
    GroupFlow(Design design, DisjointFlow flow, List<Integer> nets, List<FlowGoal> goals) {
        this.design = design;
        this.flow = flow;
        for (int i = 0; i < nets.size(); i++) {
            numberOf.put(nets.get(i), i);
        }
        active.addAll(nets);
        goals.forEach(g -> this.goals.put(g.vertex(), g));
    }

    /** Whether it is about this design. */
    boolean isOn(Design other) {
        return design == other;
    }

    /**
     * Changes it to other nets and goals: one search for each that comes or goes. When {@code
     * progress} says so, it ends soon, with routes that need not be the most.
     */
    void changeTo(
            List<Integer> nets,
            List<SearchSources> sources,
            List<FlowGoal> wanted,
            Progress progress) {
        flow.askToStop(progress);
        for (int net : Set.copyOf(active)) {
            if (!nets.contains(net)) {
                flow.removeNet(numberOf.get(net));
                active.remove(net);
            }
        }
        for (FlowGoal goal : List.copyOf(goals.values())) {
            if (!wanted.contains(goal)) {
                flow.removeGoal(goal.vertex());
                goals.remove(goal.vertex());
            }
        }
        for (FlowGoal goal : wanted) {
            if (goals.put(goal.vertex(), goal) == null) {
                flow.addGoal(goal);
            }
        }
        for (int i = 0; i < nets.size(); i++) {
            if (active.add(nets.get(i))) {
                Integer known = numberOf.get(nets.get(i));
                if (known == null) {
                    numberOf.put(nets.get(i), flow.addNet(sources.get(i)));
                } else {
                    flow.addAgain(known);
                }
            }
        }
        flow.finish();
    }

    /** Its routes, by the positions of the nets; not proven when it was stopped. */
    DisjointRoutes routes(List<Integer> nets) {
        return DisjointRouteFinder.routes(flow, nets.stream().map(numberOf::get).toList());
    }

    /** Whether no free route leads from a net, by its number in the design, to any goal. */
    boolean isCutOff(int net) {
        return flow.isCutOff(numberOf.get(net));
    }

    /** The flow itself, for a group that is not asked about again. */
    DisjointFlow flow() {
        return flow;
    }

    /** The same where it can be changed to a group on a design. */
    static Optional<GroupFlow> usable(Optional<GroupFlow> earlier, Design design) {
        return earlier.filter(f -> f.isOn(design));
    }
}
