package padward.breakout.wanted;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.Fabric;

/**
 * The registers around a net of an earlier design: those from which its logic starts, and those
 * into which it goes. What stands between two registers changes with every run of the
 * implementation; registers mostly stay. O(cells between the registers).
 */
final class RegistersAround {
    private static final int MOST = 6;
    private static final int MOST_SEEN = 10_000;

    private final Design before;
    private final NetCounterparts same;
    private final List<NearRegister> result = new ArrayList<>();
    private final Set<Net> seen = new HashSet<>();

    private RegistersAround(Design before, Design now) {
        this.before = before;
        this.same = new NetCounterparts(before, now);
    }

    /** Those whose nets the present design has, the nearest first. */
    static List<NearRegister> of(Net net, Design before, Design now) {
        RegistersAround search = new RegistersAround(before, now);
        search.walk(net, true);
        search.walk(net, false);
        return search.result;
    }

    private void walk(Net net, boolean up) {
        Deque<Net> open = new ArrayDeque<>(List.of(net));
        seen.clear();
        seen.add(net);
        int limit = result.size() + MOST / 2;
        while (!open.isEmpty() && result.size() < limit && seen.size() < MOST_SEEN) {
            Net here = open.poll();
            for (Net next : up ? above(here) : below(here)) {
                if (!seen.add(next)) {
                    continue;
                }
                int cell = next.driverCell();
                boolean end = cell == Fabric.NOTHING || holdsState(before.cells().get(cell));
                if (!end) {
                    open.add(next);
                } else if (result.size() < limit) {
                    String relation = up ? "before its logic" : "after its logic";
                    same.find(next)
                            .ifPresent(
                                    n ->
                                            result.add(
                                                    new NearRegister(
                                                            n.name(), relation, Optional.empty())));
                }
            }
        }
    }

    /** The nets into the cell that drives one, clocks left out. */
    private List<Net> above(Net net) {
        int cell = net.driverCell();
        return cell == Fabric.NOTHING
                ? List.of()
                : before.netsAt(cell).stream()
                        .filter(n -> n.driverCell() != cell && !n.clock())
                        .toList();
    }

    /** The nets that the cells drive into which one goes. */
    private List<Net> below(Net net) {
        List<Net> nets = new ArrayList<>();
        for (Terminal sink : net.sinks()) {
            if (sink instanceof Terminal.CellPin at) {
                nets.addAll(before.netsDrivenBy(at.cell()));
            }
        }
        return nets;
    }

    private boolean holdsState(Cell cell) {
        return before.fabric().info().holdsState(cell.kind());
    }
}
