package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.ReleaseRules;
import padward.unblock.why.CutBound;

/**
 * A lower bound of the number of occupants that must be removed for a group.
 *
 * <p>A blocked pair of net and pad has sets of occupants, no two of which share a member, such that
 * every removal that opens the pair removes one member of each set ({@link CutBound}). Let an
 * occupant that is in sets of m pads count 1/m. Whatever opens the whole group removes, for each
 * line, one member of each of its sets; the lines have different pads, so no occupant serves more
 * lines than the number of pads in whose sets it is, and the sum over all lines and sets of the
 * smallest 1/m in each is at most the number removed. The minimum of that sum over all assignments
 * of pads to nets is an assignment problem.
 */
final class GroupBound {
    /** Divisible by all of 1 to 16. */
    private static final int ONE = 720_720;

    /** Maximum number of pairs examined; the others count 0, which only lowers the bound. */
    private static final int MOST_PAIRS = 1500;

    private GroupBound() {}

    /** The bound for serving as many nets as there are pads. */
    static int of(BusRequest request, BusCosts known, Progress progress) {
        int nets = request.nets().size();
        int pads = request.pads().size();
        List<List<List<IntSet>>> cuts = new ArrayList<>();
        Int2ObjectOpenHashMap<IntSet> padsOf = new Int2ObjectOpenHashMap<>();
        int looked = 0;
        boolean leavesOut = false;
        for (int i = 0; i < nets; i++) {
            List<List<IntSet>> row = new ArrayList<>();
            for (int j = 0; j < pads; j++) {
                List<IntSet> sets = List.of();
                if (request.isAllowed(j)
                        && known.answer(i, j) instanceof Answer.Blocked blocked
                        && looked++ < MOST_PAIRS) {
                    CutBound bound = bound(blocked);
                    sets = bound.cuts();
                    leavesOut |= bound.leavesOut();
                }
                int pad = j;
                sets.forEach(
                        s ->
                                s.forEach(
                                        o ->
                                                padsOf.computeIfAbsent(o, x -> new IntOpenHashSet())
                                                        .add(pad)));
                row.add(sets);
                progress.check();
            }
            cuts.add(row);
        }
        int[][] costs = new int[nets][pads];
        for (int i = 0; i < nets; i++) {
            for (int j = 0; j < pads; j++) {
                costs[i][j] =
                        !request.isAllowed(j) || known.answer(i, j) instanceof Answer.NoRoute
                                ? Matching.NONE
                                : cost(cuts.get(i).get(j), padsOf);
            }
        }
        int[] choice = Matching.leastSum(costs);
        long sum = 0;
        for (int i = 0; i < nets; i++) {
            sum += choice[i] == Matching.NONE ? 0 : costs[i][choice[i]];
        }
        int bound = (int) ((sum + ONE - 1) / ONE);
        // What opens a line without hitting its sets is larger than all choices that were listed.
        return leavesOut ? Math.min(bound, ReleaseRules.MOST_TOGETHER + 1) : bound;
    }

    private static CutBound bound(Answer.Blocked blocked) {
        Question question = blocked.question();
        QuestionContext context =
                new QuestionContext(
                        question.design(),
                        question.net(),
                        blocked.disconnected(),
                        question.padValue());
        return CutBound.of(context, Asker.starts(question), question.padValue());
    }

    private static int cost(List<IntSet> sets, Int2ObjectOpenHashMap<IntSet> padsOf) {
        int result = 0;
        for (IntSet set : sets) {
            int most = 1;
            for (int occupant : set) {
                most = Math.max(most, padsOf.get(occupant).size());
            }
            result += ONE / most;
        }
        return result;
    }
}
