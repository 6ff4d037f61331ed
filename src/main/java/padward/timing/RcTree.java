package padward.timing;

import it.unimi.dsi.fastutil.doubles.DoubleArrayList;
import it.unimi.dsi.fastutil.ints.IntArrayList;

/**
 * A tree of resistances with a capacitance to ground at each node, driven by a step at its root.
 *
 * <p>Its delay to node i is Elmore's (J. Appl. Phys. 19, 1948, 55–63): the sum over all nodes k of
 * R_ik C_k, where R_ik is the resistance that the routes from the root to i and to k share. It is
 * never less than the time at which node i has risen half way, whatever the tree (Gupta, Tutuianu
 * and Pileggi, IEEE TCAD 16(1), 1997, 95–104).
 *
 * <p>Units are the caller's: ohms and femtofarads give femtoseconds. Not for sharing between
 * threads while it grows.
 */
final class RcTree {
    private final IntArrayList parents = new IntArrayList();
    private final DoubleArrayList ohms = new DoubleArrayList();
    private final DoubleArrayList farads = new DoubleArrayList();

    /** A node under another; the first one's parent is -1, the source of the step. */
    int add(int parent, double resistance, double capacitance) {
        if (parent >= parents.size() || parents.isEmpty() != parent < 0) {
            throw new IllegalArgumentException("no node " + parent);
        }
        parents.add(parent);
        ohms.add(resistance);
        farads.add(capacitance);
        return parents.size() - 1;
    }

    /**
     * Adds a wire as its resistance with half of its capacitance at either end, which gives
     * Elmore's delay of a wire whose capacitance is spread evenly.
     *
     * @param resistance between the parent and the wire's near end
     * @param near what hangs on the near end as well as the wire
     * @return the node at the far end
     */
    int addWire(int parent, double resistance, double near, double wireOhms, double wireFarads) {
        int start = add(parent, resistance, near + wireFarads / 2);
        return add(start, wireOhms, wireFarads / 2);
    }

    /** Hangs more on a node. */
    void load(int node, double capacitance) {
        farads.set(node, farads.getDouble(node) + capacitance);
    }

    /** Number of nodes. */
    int size() {
        return parents.size();
    }

    int parent(int node) {
        return parents.getInt(node);
    }

    double resistance(int node) {
        return ohms.getDouble(node);
    }

    double capacitance(int node) {
        return farads.getDouble(node);
    }

    /**
     * Elmore's delay of every node. O(nodes): the capacitance below each resistance is summed
     * first, then the delays from the root on.
     */
    double[] elmore() {
        double[] below = farads.toDoubleArray();
        for (int node = size() - 1; node > 0; node--) {
            below[parent(node)] += below[node];
        }
        double[] result = new double[size()];
        for (int node = 0; node < size(); node++) {
            double before = node == 0 ? 0 : result[parent(node)];
            result[node] = before + resistance(node) * below[node];
        }
        return result;
    }
}
