package padward.watch.simulate;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;

/**
 * A run of a written design over some clock cycles: what some of its nets and pads show in each.
 * All clocks have their rising edge together, at the end of each cycle.
 *
 * @param moments for each cycle, which of the nets and then of the pads are high
 * @param given the nets whose levels came from outside, because nothing in the design says them
 */
public record SimulatedRun(List<BitSet> moments, Set<String> given) {
    /** Copies the collections. */
    public SimulatedRun {
        moments = List.copyOf(moments);
        given = new TreeSet<>(given);
    }

    /** Levels from outside. */
    public interface Stimulus {
        /** Whether it says the levels of a net, whatever drives that. */
        boolean says(String net);

        /** The level of a net in a cycle; also of nets that it does not say itself. */
        boolean level(String net, int cycle);
    }

    /**
     * Runs a design from its start.
     *
     * @param nets names of the nets that are recorded
     * @param pads indices of the pads that are recorded, after the nets
     * @param cycles number of clock cycles
     * @throws BadInput when something cannot be calculated
     */
    public static SimulatedRun of(
            Design design,
            List<String> nets,
            List<Integer> pads,
            int cycles,
            Stimulus stimulus,
            Progress progress)
            throws BadInput {
        DesignSimulation simulation = new DesignSimulation(design);
        Map<String, Boolean> outside = new HashMap<>();
        Predicate<String> given =
                n -> outside.computeIfAbsent(n, of -> stimulus.says(of) || !simulation.knows(of));
        Set<String> cells = before(design, nets, pads, given);
        Set<String> fromOutside = new TreeSet<>();
        List<BitSet> moments = new ArrayList<>();
        for (int c = 0; c < cycles; c++) {
            progress.check();
            progress.report((double) c / cycles, "simulating");
            int cycle = c;
            simulation.begin(
                    net -> {
                        if (!given.test(net)) {
                            return Optional.empty();
                        }
                        fromOutside.add(net);
                        return Optional.of(stimulus.level(net, cycle));
                    });
            BitSet high = new BitSet();
            for (int i = 0; i < nets.size(); i++) {
                high.set(i, simulation.net(nets.get(i)));
            }
            for (int i = 0; i < pads.size(); i++) {
                high.set(nets.size() + i, simulation.pad(pads.get(i)));
            }
            moments.add(high);
            simulation.edges(cells);
        }
        return new SimulatedRun(moments, fromOutside);
    }

    /** The cells on which the nets and pads depend, as far as levels are not given. */
    private static Set<String> before(
            Design design, List<String> nets, List<Integer> pads, Predicate<String> given) {
        Deque<Net> open = new ArrayDeque<>();
        nets.forEach(n -> design.findNet(n).ifPresent(open::add));
        for (int pad : pads) {
            design.occupancy()
                    .findNetOn(design.fabric().pads().get(pad).vertex())
                    .ifPresent(open::add);
        }
        Set<String> result = new TreeSet<>();
        BitSet seen = new BitSet();
        while (!open.isEmpty()) {
            Net net = open.pop();
            if (given.test(net.name())
                    || !(net.driver() instanceof Terminal.CellPin at)
                    || seen.get(at.cell())) {
                continue;
            }
            seen.set(at.cell());
            Cell cell = design.cells().get(at.cell());
            result.add(cell.name());
            design.netsAt(at.cell()).stream()
                    .filter(n -> n.driverCell() != at.cell())
                    .forEach(open::push);
        }
        return result;
    }
}
