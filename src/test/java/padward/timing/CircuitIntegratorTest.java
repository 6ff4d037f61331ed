package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;
import org.hipparchus.ode.sampling.ODEStateInterpolator;
import org.hipparchus.ode.sampling.ODEStepHandler;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Delays of drawn stages against a general integrator: the circuit's own equations, solved step by
 * step by the method of Dormand and Prince of order 8 as Hipparchus has it (Hairer, Nørsett and
 * Wanner, <i>Solving Ordinary Differential Equations I</i>, section II.5). What the file states for
 * the bare first wire is its true delay at either corner, as a characterisation gives it; no end of
 * the whole stage may then be later than is told at the slow corner, on a die anywhere between the
 * corners, nor earlier than the bare first wire at the fast one. What is told at the fast corner is
 * an estimate: Elmore's delay counts capacitance that a resistance hides.
 */
class CircuitIntegratorTest {
    private static final int NORMAL = 300;
    private static final int ALL = 10_000;

    /** A resistor and what its far end is loaded with; kilo-ohms and femtofarads, so ps. */
    private record Part(int from, double kiloohms, double femtofarads) {}

    /** A value at the fast and at the slow corner. */
    private record Pair(double fast, double slow) {
        static Pair drawn(Random random, double least, double most) {
            double fast = least + (most - least) * random.nextDouble();
            return new Pair(fast, fast * (1.2 + 0.6 * random.nextDouble()));
        }

        double at(double corner) {
            return fast + corner * (slow - fast);
        }
    }

    /** A wire behind a switch: what is driven, and by what. */
    private record Wire(int from, Pair through, Pair load, Pair ohms, Pair farads) {}

    private static List<Wire> drawn(Random random) {
        List<Wire> wires = new ArrayList<>();
        int more = 1 + random.nextInt(4);
        for (int i = 0; i <= more; i++) {
            boolean first = i == 0;
            wires.add(
                    new Wire(
                            first ? -1 : random.nextInt(i),
                            Pair.drawn(random, first ? 100 : 300, first ? 800 : 1200),
                            first ? new Pair(0, 0) : Pair.drawn(random, 0, 4),
                            Pair.drawn(random, 20, 200),
                            Pair.drawn(random, 10, 60)));
        }
        return wires;
    }

    /** The circuit at a place between the corners; a wire's far end is node 2i + 1. */
    private static List<Part> circuit(List<Wire> wires, double corner) {
        List<Part> parts = new ArrayList<>();
        for (Wire wire : wires) {
            int from = wire.from() < 0 ? -1 : 2 * wire.from() + 1;
            double half = wire.farads().at(corner) / 2;
            double load = wire.load().at(corner);
            parts.add(new Part(from, wire.through().at(corner) / 1000, load + half));
            parts.add(new Part(parts.size() - 1, wire.ohms().at(corner) / 1000, half));
        }
        return parts;
    }

    /** What the program tells: Elmore's delays of the same wires at one corner, ps. */
    private static double[] told(List<Wire> wires, double corner) {
        RcTree tree = new RcTree();
        int[] ends = new int[wires.size()];
        for (int i = 0; i < ends.length; i++) {
            Wire wire = wires.get(i);
            ends[i] =
                    tree.addWire(
                            wire.from() < 0 ? -1 : ends[wire.from()],
                            wire.through().at(corner),
                            wire.load().at(corner),
                            wire.ohms().at(corner),
                            wire.farads().at(corner));
        }
        double[] elmore = tree.elmore();
        return Arrays.stream(ends).mapToDouble(e -> elmore[e] / 1000).toArray();
    }

    /** When each node of a circuit is half way up after a step of its source, ps. */
    private static double[] halfWay(List<Part> parts) {
        double[] times = new double[parts.size()];
        Arrays.fill(times, Double.NaN);
        OrdinaryDifferentialEquation equations =
                new OrdinaryDifferentialEquation() {
                    @Override
                    public int getDimension() {
                        return parts.size();
                    }

                    @Override
                    public double[] computeDerivatives(double time, double[] volts) {
                        double[] current = new double[volts.length];
                        for (int i = 0; i < volts.length; i++) {
                            Part part = parts.get(i);
                            double before = part.from() < 0 ? 1 : volts[part.from()];
                            double through = (before - volts[i]) / part.kiloohms();
                            current[i] += through;
                            if (part.from() >= 0) {
                                current[part.from()] -= through;
                            }
                        }
                        for (int i = 0; i < volts.length; i++) {
                            current[i] /= parts.get(i).femtofarads();
                        }
                        return current;
                    }
                };
        DormandPrince853Integrator integrator =
                new DormandPrince853Integrator(1e-9, 1e6, 1e-10, 1e-10);
        integrator.addStepHandler(
                new ODEStepHandler() {
                    @Override
                    public void handleStep(ODEStateInterpolator step) {
                        double[] now = step.getCurrentState().getPrimaryState();
                        for (int i = 0; i < now.length; i++) {
                            if (Double.isNaN(times[i]) && now[i] >= 0.5) {
                                times[i] = crossing(step, i);
                            }
                        }
                    }
                });
        double end = 0;
        for (Part part : parts) {
            end += part.femtofarads() * parts.stream().mapToDouble(Part::kiloohms).sum();
        }
        integrator.integrate(equations, new ODEState(0, new double[parts.size()]), end);
        return times;
    }

    private static double crossing(ODEStateInterpolator step, int node) {
        double early = step.getPreviousState().getTime();
        double late = step.getCurrentState().getTime();
        for (int i = 0; i < 50; i++) {
            double middle = (early + late) / 2;
            if (step.getInterpolatedState(middle).getPrimaryState()[node] < 0.5) {
                early = middle;
            } else {
                late = middle;
            }
        }
        return late;
    }

    /** The integrator knows what everybody knows: ln 2 of RC. */
    @Test
    void oneResistorAndOneCapacitor() {
        assertThat(halfWay(List.of(new Part(-1, 2, 50)))[0])
                .isCloseTo(100 * Math.log(2), within(1e-6));
    }

    @Test
    void theTruthIsWithinWhatIsTold() {
        check(NORMAL);
    }

    @Test
    @Tag("slow")
    void theTruthIsWithinWhatIsToldOfTenThousandTrees() {
        check(ALL);
    }

    private static void check(int trees) {
        Random random = new Random(2718);
        double leastLeft = Double.MAX_VALUE;
        int ends = 0;
        for (int n = 0; n < trees; n++) {
            List<Wire> wires = drawn(random);
            double between = random.nextDouble();
            double[] slowest = halfWay(circuit(wires, 1));
            double[] somewhere = halfWay(circuit(wires, between));
            double[] slow = told(wires, 1);
            List<Wire> first = wires.subList(0, 1);
            double bareSlow = halfWay(circuit(first, 1))[1];
            double bareFast = halfWay(circuit(first, 0))[1];
            double bareElmore = told(first, 1)[0];
            for (int i = 0; i < wires.size(); i++) {
                int node = 2 * i + 1;
                double most = bareSlow + slow[i] - bareElmore;
                String what = "tree " + n + ", wire " + i;
                assertThat(slowest[node]).as(what).isBetween(bareSlow, most);
                assertThat(somewhere[node]).as(what).isBetween(bareFast, most);
                leastLeft = Math.min(leastLeft, most - slowest[node]);
                ends++;
            }
        }
        assertThat(leastLeft).isGreaterThan(0);
        assertThat(ends).isGreaterThan(2 * trees);
    }
}
