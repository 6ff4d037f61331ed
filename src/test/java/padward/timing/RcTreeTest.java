package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Elmore's delay against worked examples of papers and textbooks, and against step responses that a
 * general library for numerics reckons.
 */
class RcTreeTest {
    /**
     * Rubinstein, Penfield and Horowitz, IEEE TCAD 2(3), 1983, 202–211 (the network and its T_D of
     * 363 from memory, recomputed): 15 ohms, 2 F; a side branch of 8 ohms with 7 F; a line of 3
     * ohms and 4 F to the output with 9 F.
     */
    @Test
    void theNetworkOfThePaper() {
        RcTree tree = new RcTree();
        int stem = tree.add(-1, 15, 2);
        tree.add(stem, 8, 7);
        int output = tree.addWire(stem, 0, 0, 3, 4);
        tree.load(output, 9);
        assertThat(tree.elmore()[output]).isCloseTo(363, within(1e-9));
    }

    /** All resistances and capacitances 1 (recomputed): Elmore 5, 6, 8, 9, 9. */
    @Test
    void aTreeOfUnits() {
        RcTree tree = units();
        double[] elmore = tree.elmore();
        assertThat(elmore).containsExactly(new double[] {5, 6, 8, 9, 9}, within(1e-12));
        // Half-way times by two independent programs.
        double[] half = {2.0897, 3.3276, 5.6327, 6.6935, 6.6935};
        StepResponse step = new StepResponse(tree);
        for (int i = 0; i < half.length; i++) {
            assertThat(step.halfWay(i)).isCloseTo(half[i], within(1e-4));
        }
    }

    private static RcTree units() {
        RcTree tree = new RcTree();
        int one = tree.add(-1, 1, 1);
        tree.add(one, 1, 1);
        int three = tree.add(one, 1, 1);
        tree.add(three, 1, 1);
        tree.add(three, 1, 1);
        return tree;
    }

    /**
     * A line of N equal sections: Elmore (N + 1) / 2N of RC; half-way times as recomputed for the
     * ladder of Rabaey, Chandrakasan and Nikolic, 2nd edition, section 4.4.
     */
    @ParameterizedTest
    @CsvSource({"1, .69315", "2, .55623", "3, .50031", "5, .45294", "10, .41625"})
    void aLadder(int sections, double half) {
        RcTree tree = new RcTree();
        int node = -1;
        for (int i = 0; i < sections; i++) {
            node = tree.add(node, 1.0 / sections, 1.0 / sections);
        }
        assertThat(tree.elmore()[node]).isCloseTo((sections + 1) / (2.0 * sections), within(1e-9));
        assertThat(new StepResponse(tree).halfWay(node)).isCloseTo(half, within(1e-4));
    }

    /** Weste and Harris, CMOS VLSI Design, 4th edition, chapter 6 (from memory): 281 ps. */
    @Test
    void aWireOfTheTextbook() {
        RcTree tree = new RcTree();
        int driver = tree.add(-1, 1000, 100);
        int end = tree.add(driver, 800, 100.6);
        assertThat(tree.elmore()[end] / 1000).isCloseTo(281, within(1.0));
    }

    /**
     * Gupta, Tutuianu and Pileggi, IEEE TCAD 16(1), 1997: no node of any tree rises half way later
     * than Elmore's delay.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void neverLessThanTheHalfWayTime(long seed) {
        Random random = new Random(seed);
        RcTree tree = new RcTree();
        for (int i = 0; i < 3 + random.nextInt(30); i++) {
            int parent = i == 0 ? -1 : random.nextInt(i);
            tree.add(parent, 0.1 + 10 * random.nextDouble(), 0.1 + 5 * random.nextDouble());
        }
        double[] elmore = tree.elmore();
        StepResponse step = new StepResponse(tree);
        for (int i = 0; i < tree.size(); i++) {
            assertThat(step.halfWay(i)).isLessThanOrEqualTo(elmore[i] * (1 + 1e-9));
            assertThat(elmore[i]).isCloseTo(sharedResistances(tree, i), within(1e-6 * elmore[i]));
        }
    }

    /**
     * Rubinstein, Penfield and Horowitz, IEEE TCAD 2(3), 1983, all bounds of the time at which half
     * is reached: the exact step response lies within them, and so does what is told.
     */
    @ParameterizedTest
    @ValueSource(longs = {21, 22, 23, 24})
    void theStepResponseLiesWithinThePapersBounds(long seed) {
        Random random = new Random(seed);
        for (int n = 0; n < 25; n++) {
            RcTree tree = drawn(random, 12);
            StepResponse step = new StepResponse(tree);
            for (int i = 0; i < tree.size(); i++) {
                double p = 0;
                double d = 0;
                double r = 0;
                double own = shared(tree, i, i);
                for (int k = 0; k < tree.size(); k++) {
                    double common = shared(tree, i, k);
                    p += shared(tree, k, k) * tree.capacitance(k);
                    d += common * tree.capacitance(k);
                    r += common * common * tree.capacitance(k) / own;
                }
                double least = Math.max(0, d - p / 2);
                double logLeast = 2 * r / p;
                least = Math.max(least, logLeast < 1 ? 0 : d - r + r * Math.log(logLeast));
                double most = Math.min(2 * d - r, p - r + p * Math.log(Math.max(1, 2 * d / p)));
                double half = step.halfWay(i);
                assertThat(half).isBetween(least * (1 - 1e-9), most * (1 + 1e-9));
            }
        }
    }

    /**
     * What a stage adds to the delay of its bare first wire, by Elmore, against the exact step
     * responses of both: in 10,000 drawn stages of ordinary values never too little.
     */
    @Test
    void whatAStageAddsIsEnoughInAllDrawnStages() {
        Random random = new Random(4711);
        for (int n = 0; n < 10_000; n++) {
            RcTree bare = new RcTree();
            RcTree whole = new RcTree();
            double[] wire = {
                100 + 900 * random.nextDouble(),
                20 + 200 * random.nextDouble(),
                10 + 60 * random.nextDouble()
            };
            bare.addWire(-1, wire[0], 0, wire[1], wire[2]);
            whole.addWire(-1, wire[0], 0, wire[1], wire[2]);
            List<Integer> ends = new ArrayList<>(List.of(1));
            for (int more = 1 + random.nextInt(3); more > 0; more--) {
                int at = ends.get(random.nextInt(ends.size()));
                ends.add(
                        whole.addWire(
                                at,
                                300 + 1200 * random.nextDouble(),
                                4 * random.nextDouble(),
                                20 + 200 * random.nextDouble(),
                                10 + 60 * random.nextDouble()));
            }
            double bareHalf = new StepResponse(bare).halfWay(1);
            StepResponse step = new StepResponse(whole);
            double[] elmore = whole.elmore();
            for (int end : ends) {
                double told = elmore[end] - bare.elmore()[1];
                assertThat(step.halfWay(end) - bareHalf).as("" + n).isLessThanOrEqualTo(told);
            }
        }
    }

    /**
     * The theorem bounds a stage's delay, not what a stage adds: a far end of high resistance and
     * hardly any capacitance is told 8 % too early.
     */
    @Test
    void whatAStageAddsIsNotABoundForEveryTree() {
        RcTree bare = new RcTree();
        bare.add(-1, 302, 379);
        RcTree whole = new RcTree();
        whole.add(-1, 302, 379);
        int end = whole.add(0, 376_000, 0.12);
        double told = whole.elmore()[end] - bare.elmore()[0];
        double truth = new StepResponse(whole).halfWay(end) - new StepResponse(bare).halfWay(0);
        assertThat(told / truth).isBetween(0.9, 1.0);
        assertThat(whole.elmore()[end]).isGreaterThan(new StepResponse(whole).halfWay(end));
        // By the bound itself nothing is missing: the whole by Elmore, less the exact bare wire.
        double exact = new StepResponse(bare).halfWay(0);
        assertThat(whole.elmore()[end] - exact).isGreaterThanOrEqualTo(truth);
    }

    private static RcTree drawn(Random random, int most) {
        RcTree tree = new RcTree();
        for (int i = 0; i < 2 + random.nextInt(most); i++) {
            int parent = i == 0 ? -1 : random.nextInt(i);
            tree.add(parent, 0.1 + 10 * random.nextDouble(), 0.1 + 5 * random.nextDouble());
        }
        return tree;
    }

    /** The resistance that the routes from the root to two nodes share. */
    private static double shared(RcTree tree, int one, int other) {
        double sum = 0;
        for (int a = one; a >= 0; a = tree.parent(a)) {
            for (int b = other; b >= 0; b = tree.parent(b)) {
                sum += a == b ? tree.resistance(a) : 0;
            }
        }
        return sum;
    }

    /** The formula as Elmore's sum over all nodes, without the two passes. */
    private static double sharedResistances(RcTree tree, int node) {
        double sum = 0;
        for (int k = 0; k < tree.size(); k++) {
            double shared = 0;
            for (int a = node; a >= 0; a = tree.parent(a)) {
                for (int b = k; b >= 0; b = tree.parent(b)) {
                    shared += a == b ? tree.resistance(a) : 0;
                }
            }
            sum += shared * tree.capacitance(k);
        }
        return sum;
    }

    /** The voltages after a unit step, from the eigenvalues of C^-1/2 G C^-1/2, by Hipparchus. */
    private static final class StepResponse {
        private final RcTree tree;
        private final double[] rates;
        private final RealMatrix vectors;
        private final double[] weights;

        StepResponse(RcTree tree) {
            this.tree = tree;
            int n = tree.size();
            RealMatrix conductance = MatrixUtils.createRealMatrix(n, n);
            for (int i = 0; i < n; i++) {
                double g = 1 / tree.resistance(i);
                conductance.addToEntry(i, i, g);
                int parent = tree.parent(i);
                if (parent >= 0) {
                    conductance.addToEntry(parent, parent, g);
                    conductance.addToEntry(i, parent, -g);
                    conductance.addToEntry(parent, i, -g);
                }
            }
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    double scale = Math.sqrt(tree.capacitance(i) * tree.capacitance(j));
                    conductance.setEntry(i, j, conductance.getEntry(i, j) / scale);
                }
            }
            var eigen = new EigenDecompositionSymmetric(conductance);
            rates = eigen.getEigenvalues();
            vectors = eigen.getV();
            double[] start = new double[n];
            for (int i = 0; i < n; i++) {
                start[i] = Math.sqrt(tree.capacitance(i));
            }
            weights = vectors.transpose().operate(start);
        }

        private double at(int node, double time) {
            double missing = 0;
            for (int k = 0; k < rates.length; k++) {
                missing += vectors.getEntry(node, k) * weights[k] * Math.exp(-rates[k] * time);
            }
            return 1 - missing / Math.sqrt(tree.capacitance(node));
        }

        double halfWay(int node) {
            double early = 0;
            double late = 1;
            while (at(node, late) < 0.5) {
                late *= 2;
            }
            for (int i = 0; i < 80; i++) {
                double middle = (early + late) / 2;
                if (at(node, middle) < 0.5) {
                    early = middle;
                } else {
                    late = middle;
                }
            }
            return late;
        }
    }
}
