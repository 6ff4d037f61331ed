package padward.watch.library;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.design.Terminal;
import padward.timing.LaunchTime;

/** Which clock a circuit's registers have: a stated one, or that of the nets it observes. */
public final class ClockChoice {
    private static final int MOST_LISTED = 5;

    private ClockChoice() {}

    /**
     * A clock that somebody stated.
     *
     * @param source the option or field that it stands in
     * @throws BadInput when it is no net, or a net that clocks nothing
     */
    public static String stated(Design design, String text, String source) throws BadInput {
        Net net = NameLookup.requireNet(design, text, source);
        if (!isClock(design, net)) {
            throw new BadInput(
                    source,
                    "",
                    "the name of a net that clocks a register" + known(design),
                    "“" + net.name() + "”, which clocks none");
        }
        return net.name();
    }

    /**
     * The one clock of the cells that drive some nets. From a cell that holds no state, it is
     * looked for behind the cell's inputs.
     *
     * @param source the option or field that a clock would be stated in
     * @throws BadInput when they have none that can be found, or more than one
     */
    public static String ofNets(Design design, Collection<String> nets, String source)
            throws BadInput {
        Map<String, String> netOfClock = new LinkedHashMap<>();
        for (String name : nets) {
            Net net = design.findNet(name).orElseThrow();
            for (String clock : new TreeSet<>(LaunchTime.of(design, net).clocks())) {
                netOfClock.putIfAbsent(clock, name);
            }
        }
        if (netOfClock.size() == 1) {
            return netOfClock.keySet().iterator().next();
        }
        List<String> all = clocks(design);
        if (netOfClock.isEmpty() && all.size() == 1) {
            return all.get(0);
        }
        if (netOfClock.isEmpty()) {
            throw new BadInput(
                    source, "", "a clock, as the nets do not show theirs" + known(design), "none");
        }
        String found =
                netOfClock.entrySet().stream()
                        .limit(MOST_LISTED)
                        .map(e -> e.getKey() + " of " + e.getValue())
                        .collect(Collectors.joining(", "));
        throw new BadInput(source, "", "a stated clock, as the nets have more than one", found);
    }

    /** The name of the net at a cell's clock pin. */
    private static Optional<String> clockAt(Design design, Cell cell) {
        return LaunchTime.clockOf(design, cell).map(Net::name);
    }

    /** Whether a net of this name clocks a register. */
    public static boolean isClock(Design design, String net) {
        return design.findNet(net).filter(n -> isClock(design, n)).isPresent();
    }

    private static boolean isClock(Design design, Net net) {
        return net.clock()
                || net.sinks().stream()
                        .anyMatch(
                                sink ->
                                        sink instanceof Terminal.CellPin at
                                                && clockAt(design, design.cells().get(at.cell()))
                                                        .equals(Optional.of(net.name())));
    }

    /** The nets that the design calls clocks, or, when it calls none so, those that clock cells. */
    private static List<String> clocks(Design design) {
        List<String> called = design.nets().stream().filter(Net::clock).map(Net::name).toList();
        return called.isEmpty()
                ? design.cells().stream()
                        .flatMap(cell -> clockAt(design, cell).stream())
                        .distinct()
                        .toList()
                : called;
    }

    private static String known(Design design) {
        List<String> all = clocks(design);
        if (all.isEmpty()) {
            return "";
        }
        String more = all.size() > MOST_LISTED ? ", …" : "";
        return " ("
                + String.join(", ", all.subList(0, Math.min(MOST_LISTED, all.size())))
                + more
                + ")";
    }
}
