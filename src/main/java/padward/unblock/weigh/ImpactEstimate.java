package padward.unblock.weigh;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.route.search.VertexPath;
import padward.unblock.release.FanOut;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.ReleaseRules;

/** Which of several sets of occupants is the milder one to free. */
public final class ImpactEstimate {
    private final QuestionContext context;
    private final Design design;
    private final ReleaseRules rules;
    private final FanOut fanOut;
    private final ConsequenceAnalysis analysis;
    private final Map<Integer, Integer> impacts = new HashMap<>();

    public ImpactEstimate(
            QuestionContext context,
            ReleaseRules rules,
            FanOut fanOut,
            ConsequenceAnalysis analysis) {
        this.context = context;
        this.design = context.design();
        this.rules = rules;
        this.fanOut = fanOut;
        this.analysis = analysis;
    }

    /**
     * A fast estimate of harm: endpoints lost if nothing could be moved; 0 for what is removable.
     */
    public int of(int[] set) {
        int result = 0;
        for (int occupant : set) {
            result +=
                    impacts.computeIfAbsent(
                            occupant, o -> fanOut.isRemovable(o) ? 0 : 1 + fanOut.losing(o).size());
        }
        return result;
    }

    /**
     * The same number of occupants, with a net in the place of a cell wherever the route needs
     * nothing but wires of that one net and the cell could do no more for it: the cell can stay
     * then.
     */
    public int[] mildest(int[] set, VertexPath path) {
        int[] result = set.clone();
        for (int i = 0; i < result.length; i++) {
            int net = analysis.onlyNet(result[i], neededFor(result[i], result, path), path);
            if (net != Fabric.NOTHING && isMilder(net, result[i])) {
                int before = result[i];
                result[i] = net;
                // A pad can need more than the net that is seen there.
                if (!opens(result, path)) {
                    result[i] = before;
                }
            }
        }
        return Arrays.stream(result).distinct().toArray();
    }

    private boolean opens(int[] set, VertexPath path) {
        return analysis.usedOn(path).intStream().allMatch(v -> analysis.isOpen(path, v, set));
    }

    /** The vertices of a route that a set opens, but not without one of its occupants. */
    private IntList neededFor(int occupant, int[] set, VertexPath path) {
        int[] others = Arrays.stream(set).filter(o -> o != occupant).toArray();
        IntList result = new IntArrayList();
        for (int vertex : analysis.usedOn(path)) {
            if (!analysis.isOpen(path, vertex, others)) {
                result.add(vertex);
            }
        }
        return result;
    }

    /** Whether a cell, if it left, would give back everything that the net uses. */
    private boolean isMilder(int net, int occupant) {
        int[] itself = {occupant};
        IntSet given = new IntOpenHashSet(rules.used(net).vertices());
        design.nets().get(net).ends().forEach(t -> given.add(design.vertexOf(t)));
        int[] netAlone = {net};
        for (int vertex : given) {
            boolean opened = context.isUsed(vertex) && rules.isOpen(vertex, netAlone);
            if (opened && !context.isClosed(vertex) && !rules.isOpen(vertex, itself)) {
                return false;
            }
        }
        RouteTree tree = design.nets().get(net).route();
        for (int place = 1; place < tree.size() && context.hasSwitchGroups(); place++) {
            int from = tree.vertex(tree.parent(place));
            long edge = EdgeKey.of(from, tree.vertex(place));
            boolean grouped =
                    design.fabric().switchGroups().groupOf(from, tree.vertex(place))
                            != Fabric.NOTHING;
            if (grouped && rules.isOff(edge, netAlone) && !rules.isOff(edge, itself)) {
                return false;
            }
        }
        return Occupant.isCell(occupant);
    }
}
