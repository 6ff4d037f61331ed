package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.route.Path;

/** Which of several sets of occupants is the milder one to free. */
final class Harm {
    private final Situation situation;
    private final Design design;
    private final Openers openers;
    private final FanOut fanOut;
    private final Weigher weigher;
    private final Map<Integer, Integer> harms = new HashMap<>();

    Harm(Situation situation, Openers openers, FanOut fanOut, Weigher weigher) {
        this.situation = situation;
        this.design = situation.design();
        this.openers = openers;
        this.fanOut = fanOut;
        this.weigher = weigher;
    }

    /** A quick measure of harm: endpoints lost if nothing could be moved; 0 for what is spare. */
    int of(int[] set) {
        int result = 0;
        for (int occupant : set) {
            result +=
                    harms.computeIfAbsent(
                            occupant, o -> fanOut.isSpare(o) ? 0 : 1 + fanOut.losing(o).size());
        }
        return result;
    }

    /**
     * The same number of occupants, with a net in the place of a cell wherever the way needs
     * nothing but wires of that one net and the cell could do no more for it: the cell can stay
     * then.
     */
    int[] mildest(int[] set, Path path) {
        int[] result = set.clone();
        for (int i = 0; i < result.length; i++) {
            int net = weigher.onlyNet(neededFor(result[i], result, path));
            if (net != Fabric.NOTHING && isMilder(net, result[i])) {
                result[i] = net;
            }
        }
        return Arrays.stream(result).distinct().toArray();
    }

    /** The vertices of a way that a set opens, but not without one of its occupants. */
    private IntList neededFor(int occupant, int[] set, Path path) {
        int[] others = Arrays.stream(set).filter(o -> o != occupant).toArray();
        IntList result = new IntArrayList();
        for (int vertex : weigher.heldOn(path)) {
            if (!openers.isOpen(vertex, others)) {
                result.add(vertex);
            }
        }
        return result;
    }

    /** Whether a cell, if it left, would give back everything that the net holds. */
    private boolean isMilder(int net, int occupant) {
        int[] itself = {occupant};
        IntSet given = new IntOpenHashSet(openers.held(net).vertices());
        design.nets().get(net).ends().forEach(t -> given.add(design.vertexOf(t)));
        int[] netAlone = {net};
        for (int vertex : given) {
            boolean opened = situation.isHeld(vertex) && openers.isOpen(vertex, netAlone);
            if (opened && !situation.isClosed(vertex) && !openers.isOpen(vertex, itself)) {
                return false;
            }
        }
        return occupant >= design.nets().size();
    }
}
