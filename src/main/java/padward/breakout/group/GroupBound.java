package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.unblock.release.QuestionContext;
import padward.unblock.why.CutBound;

/**
 * How many occupants a group needs freed at the least.
 *
 * <p>A blocked pair of net and pad has sets of occupants, no two of which share a member, such that
 * whatever opens the pair frees one of each ({@link CutBound}). Let an occupant that stands in sets
 * of m pads count 1/m. Whatever frees the whole group frees, for each line, one of each of its
 * sets; the lines have different pads, so no occupant serves more lines than pads that it stands
 * at, and the sum over all lines and sets of the least 1/m in each is no more than the number
 * freed. The least of that sum over all ways to give each net a pad is an assignment problem.
 */
final class GroupBound {
    /** Divides by all of 1 to 16. */
    private static final int ONE = 720_720;

    /** Pairs looked at; the others count nothing, which only lowers the bound. */
    private static final int MOST_PAIRS = 1500;

    private GroupBound() {}

    /** The bound for serving as many nets as there are pads for. */
    static int atLeast(BusRequest request, BusCosts prices, Progress progress) {
        int nets = request.nets().size();
        int pads = request.pads().size();
        List<List<List<IntSet>>> cuts = new ArrayList<>();
        Int2ObjectOpenHashMap<IntSet> padsOf = new Int2ObjectOpenHashMap<>();
        int looked = 0;
        for (int i = 0; i < nets; i++) {
            List<List<IntSet>> row = new ArrayList<>();
            for (int j = 0; j < pads; j++) {
                List<IntSet> sets = List.of();
                if (prices.answer(i, j) instanceof Answer.Blocked blocked
                        && looked++ < MOST_PAIRS) {
                    sets = cuts(blocked);
                }
                int pad = j;
                sets.forEach(
                        s ->
                                s.forEach(
                                        o ->
                                                padsOf.computeIfAbsent(o, x -> new IntOpenHashSet())
                                                        .add(pad)));
                row.add(sets);
                if (progress.cancelled()) {
                    throw new CancellationException("stopped on request");
                }
            }
            cuts.add(row);
        }
        int[][] costs = new int[nets][pads];
        for (int i = 0; i < nets; i++) {
            for (int j = 0; j < pads; j++) {
                costs[i][j] =
                        prices.answer(i, j) instanceof Answer.NoRoute
                                ? Matching.NONE
                                : cost(cuts.get(i).get(j), padsOf);
            }
        }
        int[] choice = Matching.leastSum(costs);
        long sum = 0;
        for (int i = 0; i < nets; i++) {
            sum += choice[i] == Matching.NONE ? 0 : costs[i][choice[i]];
        }
        return (int) ((sum + ONE - 1) / ONE);
    }

    private static List<IntSet> cuts(Answer.Blocked blocked) {
        Question question = blocked.question();
        QuestionContext situation =
                new QuestionContext(question.design(), question.net(), blocked.disconnected());
        return CutBound.of(situation, Asker.starts(question), question.padValue());
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
