package padward.timing;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;

/**
 * When a net changes after its clock's edge: the clock's arrival at the registers before it, their
 * clock-to-output, and the logic and wires from there.
 *
 * @param clocks names of the nets that clock the registers before it
 * @param bothEdges those of them at both edges of which a register before it changes: the times
 *     below lack it. A net that such a register drives as a copy of its clock is not meant
 * @param ports names of the ports from which signals come to it through no register
 * @param earliest of all paths, from the clock's driver to the net's; empty when there is no path
 *     from a register whose clock is known, or a net on one lacks its route
 * @param latest of all paths; present when {@code earliest} is
 * @param untraced what changes at times that nothing above contains, as clauses: registers whose
 *     clock is not known, and logic that loops without a register
 * @param unknown what the fabric or design does not state, so that the sums lack it, as clauses;
 *     also all that is untraced
 */
public record LaunchTime(
        Set<String> clocks,
        Set<String> bothEdges,
        Set<String> ports,
        Optional<Delay> earliest,
        Optional<Delay> latest,
        Set<String> untraced,
        Set<String> unknown) {
    /** Copies the sets. */
    public LaunchTime {
        clocks = Set.copyOf(clocks);
        bothEdges = Set.copyOf(bothEdges);
        ports = Set.copyOf(ports);
        untraced = Set.copyOf(untraced);
        unknown = Set.copyOf(unknown);
    }

    /** Follows a net back to its registers. O(what drives it, however far). */
    public static LaunchTime of(Design design, Net net) {
        return of(net, new Backwards(design, net, c -> true));
    }

    /**
     * The same, with the times of those paths alone that begin at registers of one clock; all
     * clocks and ports are named nevertheless.
     */
    public static LaunchTime by(Design design, Net clock, Net net) {
        return of(net, new Backwards(design, net, c -> c.id() == clock.id()));
    }

    private static LaunchTime of(Net net, Backwards search) {
        Optional<Span> span = search.at(net).filter(s -> !search.unrouted);
        search.unknown.addAll(search.untraced);
        return new LaunchTime(
                search.clocks,
                search.bothEdges,
                search.ports,
                span.map(Span::earliest),
                span.map(Span::latest),
                search.untraced,
                search.unknown);
    }

    /** Whether all that it depends on is registered by one clock, once a period. */
    public boolean isOf(Net clock) {
        return ports.isEmpty()
                && untraced.isEmpty()
                && bothEdges.isEmpty()
                && clocks.equals(Set.of(clock.name()));
    }

    /** The net at a register's clock pin; where the pin is not known, the one clock net there. */
    public static Optional<Net> clockOf(Design design, Cell cell) {
        Optional<String> pin =
                registerOf(design, cell)
                        .map(CellFunction.Register::clock)
                        .or(
                                () ->
                                        kindOf(design, cell)
                                                .flatMap(CellKind::doubleRate)
                                                .map(DoubleRateRegister::clock));
        List<Net> nets =
                design.netsAt(cell.id()).stream()
                        .filter(
                                net ->
                                        pin.isPresent()
                                                ? comesTo(net, cell, pin.get())
                                                : net.clock())
                        .toList();
        return nets.size() == 1 ? Optional.of(nets.get(0)) : Optional.empty();
    }

    private static boolean comesTo(Net net, Cell cell, String pin) {
        return net.sinks().contains(new Terminal.CellPin(cell.id(), pin));
    }

    private static Optional<CellFunction.Register> registerOf(Design design, Cell cell) {
        return kindOf(design, cell).flatMap(CellKind::register);
    }

    private static Optional<CellKind> kindOf(Design design, Cell cell) {
        return design.fabric().info().findCellKind(cell.kind());
    }

    private record Span(Delay earliest, Delay latest) {
        Span plus(Delay more) {
            return new Span(earliest.plus(more), latest.plus(more));
        }

        static Optional<Span> hull(Optional<Span> one, Optional<Span> other) {
            if (one.isEmpty() || other.isEmpty()) {
                return one.or(() -> other);
            }
            Span a = one.get();
            Span b = other.get();
            return Optional.of(
                    new Span(
                            new Delay(
                                    Math.min(a.earliest.fastPs(), b.earliest.fastPs()),
                                    Math.min(a.earliest.slowPs(), b.earliest.slowPs())),
                            new Delay(
                                    Math.max(a.latest.fastPs(), b.latest.fastPs()),
                                    Math.max(a.latest.slowPs(), b.latest.slowPs()))));
        }
    }

    /** One search. Not thread-safe. */
    private static final class Backwards {
        private final Design design;
        private final Net asked;
        private final Predicate<Net> timed;
        private final EdgeFinder edges;
        private final Map<Integer, Optional<Span>> known = new HashMap<>();
        private final Map<Integer, TreeDelays> delays = new HashMap<>();
        private final Set<String> clocks = new TreeSet<>();
        private final Set<String> bothEdges = new TreeSet<>();
        private final Set<String> ports = new TreeSet<>();
        private final Set<String> untraced = new TreeSet<>();
        private final Set<String> unknown = new TreeSet<>();
        private boolean unrouted;

        /**
         * @param asked the net that is followed back
         * @param timed the clocks of the registers whose times count
         */
        Backwards(Design design, Net asked, Predicate<Net> timed) {
            this.design = design;
            this.asked = asked;
            this.timed = timed;
            this.edges = new EdgeFinder(design.fabric());
        }

        /** At a net's driver. The nets before it are visited with a stack of their own. */
        Optional<Span> at(Net goal) {
            List<Net> open = new ArrayList<>(List.of(goal));
            Set<Integer> begun = new HashSet<>();
            while (!open.isEmpty()) {
                Net net = open.get(open.size() - 1);
                List<Net> before = begun.add(net.id()) ? inputs(net) : List.of();
                List<Net> missing = before.stream().filter(n -> !begun.contains(n.id())).toList();
                if (missing.isEmpty()) {
                    open.remove(open.size() - 1);
                    if (!known.containsKey(net.id())) {
                        known.put(net.id(), outOf(net));
                    }
                } else {
                    open.addAll(missing);
                }
            }
            return known.get(goal.id());
        }

        /** The nets that a net follows without a register between. */
        private List<Net> inputs(Net net) {
            Optional<Cell> cell = driver(net);
            boolean ends = cell.isEmpty() || holdsState(cell.get());
            return ends
                    ? List.of()
                    : design.netsAt(cell.get().id()).stream()
                            .filter(n -> n.driverCell() != cell.get().id())
                            .toList();
        }

        private Optional<Cell> driver(Net net) {
            int cell = net.driverCell();
            return cell == Fabric.NOTHING ? Optional.empty() : design.cells().find(cell);
        }

        private boolean holdsState(Cell cell) {
            return design.fabric().info().canHoldState(cell.kind());
        }

        private Optional<Span> outOf(Net net) {
            Optional<Cell> cell = driver(net);
            if (cell.isEmpty()) {
                ports.add(design.ports().get(((Terminal.PortEnd) net.driver()).port()).name());
                return Optional.empty();
            }
            if (holdsState(cell.get())) {
                return register(cell.get());
            }
            if (feedsItself(cell.get())) {
                addLoop(net);
            }
            Optional<Span> result = Optional.empty();
            int out = design.vertexOf(net.driver());
            for (Net before : inputs(net)) {
                // Begun and not known yet: it waits for this net.
                if (!known.containsKey(before.id())) {
                    addLoop(net);
                }
                Optional<Span> there = known.getOrDefault(before.id(), Optional.empty());
                for (Terminal sink : before.sinks()) {
                    if (there.isPresent()
                            && sink instanceof Terminal.CellPin at
                            && at.cell() == cell.get().id()) {
                        int pin = design.vertexOf(sink);
                        Optional<Delay> wires = along(before, pin);
                        Delay through = through(cell.get(), pin, out);
                        result =
                                Span.hull(
                                        result, wires.map(w -> there.get().plus(w).plus(through)));
                    }
                }
            }
            return result;
        }

        private boolean feedsItself(Cell cell) {
            return design.netsDrivenBy(cell.id()).stream()
                    .flatMap(n -> n.sinks().stream())
                    .anyMatch(s -> s instanceof Terminal.CellPin at && at.cell() == cell.id());
        }

        private void addLoop(Net net) {
            untraced.add("when the loop of logic through net " + net.name() + " changes");
        }

        private Optional<Span> register(Cell cell) {
            Optional<Net> clock = clockOf(design, cell);
            if (clock.isEmpty()) {
                untraced.add("the clock of cell " + cell.name());
                return Optional.empty();
            }
            clocks.add(clock.get().name());
            boolean twice = changesTwice(cell);
            if (twice) {
                bothEdges.add(clock.get().name());
            }
            if (twice || !timed.test(clock.get())) {
                return Optional.empty();
            }
            Optional<Delay> arrival =
                    clock.get().sinks().stream()
                            .filter(
                                    s ->
                                            s instanceof Terminal.CellPin at
                                                    && at.cell() == cell.id()
                                                    && isClockPin(cell, at.pin()))
                            .findFirst()
                            .flatMap(s -> along(clock.get(), design.vertexOf(s)));
            if (arrival.isEmpty()) {
                return Optional.empty();
            }
            Optional<Delay> toOutput =
                    registerOf(design, cell)
                            .flatMap(CellFunction.Register::clockToOutput)
                            .or(() -> doubleRate(cell).flatMap(DoubleRateRegister::clockToOutput));
            if (toOutput.isEmpty()) {
                unknown.add("clock-to-output of kind " + cell.kind());
            }
            Delay all = arrival.get().plus(toOutput.orElse(Delay.ZERO));
            return Optional.of(new Span(all, all));
        }

        /** At both edges of its clock, and it is not asked for as a copy of that. */
        private boolean changesTwice(Cell cell) {
            return doubleRate(cell)
                    .filter(
                            r ->
                                    asked.driverCell() != cell.id()
                                            || !r.isCopyOfClock(cell.settings()))
                    .isPresent();
        }

        private Optional<DoubleRateRegister> doubleRate(Cell cell) {
            return kindOf(design, cell).flatMap(CellKind::doubleRate);
        }

        private boolean isClockPin(Cell cell, String pin) {
            return registerOf(design, cell)
                    .map(CellFunction.Register::clock)
                    .or(() -> doubleRate(cell).map(DoubleRateRegister::clock))
                    .map(pin::equals)
                    .orElse(true);
        }

        /** Along a net to one of its vertices; empty when its route does not reach that. */
        private Optional<Delay> along(Net net, int vertex) {
            int place = net.route().placeOf(vertex);
            if (place == Fabric.NOTHING) {
                unknown.add("the route of net " + net.name());
                unrouted = true;
                return Optional.empty();
            }
            TreeDelays all =
                    delays.computeIfAbsent(
                            net.id(), n -> TreeDelays.of(design.fabric(), net.route()));
            return Optional.of(all.at(place));
        }

        private Delay through(Cell cell, int pin, int out) {
            Optional<Delay> stated =
                    edges.find(pin, out)
                            .filter(e -> e.kind() == EdgeKind.PASS_THROUGH)
                            .map(EdgeFinder.EdgeValue::delay);
            if (stated.isEmpty()) {
                unknown.add("the delay through kind " + cell.kind());
            }
            return stated.orElse(Delay.ZERO);
        }
    }
}
