package padward.unblock.why;

import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/**
 * What a blocked question needs at the least, as sets of occupants of which no two share a member:
 * whatever opens a route removes one of each. By these a group's need is bounded from below.
 *
 * @param cuts the sets, by the numbers of {@link padward.design.Occupancy}; none when nothing is
 *     used between the net and the pad, or nothing could be said
 * @param leavesOut whether some choice of more than {@link ReleaseRules#MOST_TOGETHER} occupants,
 *     which might open a route and hit none of the sets, was left out
 */
public record CutBound(List<IntSet> cuts, boolean leavesOut) {
    /** Copies the sets. */
    public CutBound {
        cuts = List.copyOf(cuts);
    }

    /**
     * The bound of one question. O(edges between the pad and the net).
     *
     * @param starts the net's tree
     */
    public static CutBound of(QuestionContext context, SearchSources starts, Pad pad) {
        int enable = context.enableOccupant(pad);
        ReleaseRules rules = new ReleaseRules(context, enable);
        QuestionGraph fromPad =
                QuestionGraph.towards(context, starts, pad.vertex()).reversed(starts);
        List<IntSet> result =
                new ArrayList<>(
                        DisjointCuts.of(fromPad, rules, Progress.NONE).cuts().stream()
                                .filter(c -> !c.isEmpty())
                                .toList());
        if (enable != Fabric.NOTHING) {
            // As it is removed in any case, the rules name it in no other cut.
            result.add(IntSet.of(enable));
        }
        return new CutBound(result, rules.hasLeftOut());
    }
}
