package padward.watch.circuit;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.CellFunction;

/**
 * By how many clock cycles a kept circuit shows its nets late: the fewest registers between them
 * and the pad. Found in the edits, so that it is known of entries of any ledger.
 *
 * @param cycles how many cycles, at least 1
 * @param clock name of the net that clocks the register before the pad, or the one nearest to it
 */
public record Lateness(int cycles, String clock) {
    /** As a clause: {@code registered by clk12, 2 cycles late}. */
    public String toText() {
        return "registered by "
                + clock
                + ", "
                + cycles
                + (cycles == 1 ? " cycle" : " cycles")
                + " late";
    }

    /**
     * That of a net of an entry; empty when the entry adds no register before it.
     *
     * @param design one with the entry
     */
    public static Optional<Lateness> of(LedgerEntry entry, String net, Design design) {
        return new Search(entry, net, design).found();
    }

    /**
     * The net of which a net of an entry is a later copy: registers that the entry adds, one after
     * the other and nothing else, lie between the two. Empty when there is none.
     *
     * @param design one with the entry
     */
    public static Optional<String> source(LedgerEntry entry, String net, Design design) {
        return new Search(entry, net, design).source();
    }

    /** A net, with the registers between it and the pad. */
    private record Place(String net, int registers) {}

    /** The search back from the net that is brought out. */
    private static final class Search {
        private final String goal;
        private final Design design;

        /** Cells that hold state, with what is known of them. */
        private final Map<String, Optional<CellFunction.Register>> registers = new HashMap<>();

        private final Map<String, String> driverOf = new HashMap<>();
        private final Map<String, List<String>> readBy = new HashMap<>();
        private final Map<String, String> clockOf = new HashMap<>();
        private final Set<String> cells = new HashSet<>();

        Search(LedgerEntry entry, String net, Design design) {
            this.goal = net;
            this.design = design;
            for (Edit edit : entry.edits()) {
                if (edit instanceof Edit.AddCell cell) {
                    cells.add(cell.cell());
                    design.fabric()
                            .info()
                            .findCellKind(cell.kind())
                            .filter(k -> k.holdsState() && k.doubleRate().isEmpty())
                            .ifPresent(k -> registers.put(cell.cell(), k.register()));
                }
            }
            for (Edit edit : entry.edits()) {
                if (edit instanceof Edit.AddNet add) {
                    driverOf.put(add.net(), add.driver().cell());
                    add.sinks().forEach(s -> read(add.net(), s));
                } else if (edit instanceof Edit.AddSink sink) {
                    read(sink.net(), sink.sink());
                } else if (edit instanceof Edit.AddInput input) {
                    input.sinks().forEach(s -> read(input.net(), s));
                }
            }
        }

        private void read(String net, Edit.CellEnd end) {
            boolean clock =
                    registers.containsKey(end.cell())
                            && registers
                                    .get(end.cell())
                                    .map(r -> r.clock().equals(end.pin()))
                                    .orElseGet(() -> isClock(net));
            if (clock) {
                clockOf.put(end.cell(), net);
            } else {
                readBy.computeIfAbsent(end.cell(), c -> new ArrayList<>()).add(net);
            }
        }

        private boolean isClock(String net) {
            return design.findNet(net).map(Net::clock).orElse(false);
        }

        Optional<Lateness> found() {
            Optional<String> clock = Optional.empty();
            int most = 0;
            Set<String> seen = new HashSet<>();
            Deque<Place> open = new ArrayDeque<>(List.of(new Place(goal, 0)));
            while (!open.isEmpty()) {
                Place place = open.pollFirst();
                if (!seen.add(place.net())) {
                    continue;
                }
                String driver = driverOf.getOrDefault(place.net(), "");
                if (!cells.contains(driver)) {
                    // A net of the design, or a pad that is read.
                    return lateness(place.registers(), clock);
                }
                boolean register = registers.containsKey(driver);
                if (register) {
                    clock = clock.or(() -> Optional.of(clockOf.getOrDefault(driver, "")));
                    most = 1;
                }
                for (String net : readBy.getOrDefault(driver, List.of())) {
                    if (register) {
                        open.addLast(new Place(net, place.registers() + 1));
                    } else {
                        open.addFirst(new Place(net, place.registers()));
                    }
                }
            }
            return lateness(most, clock);
        }

        Optional<String> source() {
            String net = goal;
            Set<String> seen = new HashSet<>();
            while (seen.add(net) && cells.contains(driverOf.getOrDefault(net, ""))) {
                String driver = driverOf.get(net);
                List<String> before = readBy.getOrDefault(driver, List.of());
                if (!registers.containsKey(driver) || before.size() != 1) {
                    return Optional.empty();
                }
                net = before.get(0);
            }
            return net.equals(goal) ? Optional.empty() : Optional.of(net);
        }

        private static Optional<Lateness> lateness(int cycles, Optional<String> clock) {
            return cycles == 0 ? Optional.empty() : clock.map(c -> new Lateness(cycles, c));
        }
    }
}
