package padward.watch.registered;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.WantedDriver;
import padward.breakout.group.Bus;
import padward.breakout.group.ForwardedClock;
import padward.breakout.group.RegisterQuestion;
import padward.breakout.group.RegisteredGroup;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.timing.Arrival;
import padward.timing.ExternalLineDelay;
import padward.timing.PairSkew;
import padward.timing.TreeDelays;

/**
 * A group's signals sampled by one clock: in the IO registers of their pads where that does, and
 * otherwise by registers on unused sites of the fabric. A net whose source another clock registers,
 * or none, passes two registers one after the other, the usual synchroniser; the second is that of
 * the pad where it can be.
 *
 * @param inPads what the pads' IO registers can do; lines that they cannot take have a reason there
 * @param inFabric the lines that the pads' registers alone cannot take, in the group's order
 * @param forwarded the clock itself, where it is a net of the group: a copy of it, or why not
 * @param skew of the two lines that are farthest apart; empty for fewer than two
 * @param placed the group of the registers' nets, with the edits that place the registers; empty
 *     while a line cannot be registered or something would have to be removed for it
 */
public record RegisteredLines(
        RegisteredGroup inPads,
        List<FabricRegister> inFabric,
        Optional<ForwardedClock.Result> forwarded,
        Optional<PairSkew> skew,
        Optional<Bus> placed) {
    /** Copies the list. */
    public RegisteredLines {
        inFabric = List.copyOf(inFabric);
    }

    /**
     * Finds out whether a group's signals can be registered, and how.
     *
     * @param pads where the clock may be forwarded if it is a net of the group that has no route
     * @param ports whether a port may lose its pad for that
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RegisteredLines of(
            RegisterQuestion question, List<Integer> pads, Bus.Ports ports, Progress progress) {
        Bus bus = question.bus();
        Net clock = question.clock();
        RegisteredGroup all = RegisteredGroup.of(question, progress);
        List<RegisteredGroup.Line> others =
                all.lines().stream()
                        .filter(l -> l.net().id() != clock.id())
                        .filter(l -> l.reason().isPresent() && l.toRemove().isEmpty())
                        .toList();
        Optional<Bus.Line> clockLine =
                bus.lines().stream().filter(l -> l.net().id() == clock.id()).findFirst();
        boolean clockLeft = bus.left().stream().anyMatch(l -> l.net().id() == clock.id());
        if (others.isEmpty() && clockLine.isEmpty() && !clockLeft) {
            return new RegisteredLines(all, List.of(), Optional.empty(), all.skew(), all.placed());
        }
        Set<Integer> elsewhere =
                others.stream().map(RegisteredGroup.Line::pad).collect(Collectors.toSet());
        clockLine.ifPresent(l -> elsewhere.add(l.pad()));
        Bus kept = without(question.design(), bus, elsewhere);
        RegisteredGroup inPads =
                kept.lines().isEmpty() ? all : RegisteredGroup.of(question.with(kept), progress);
        return new Adding(question, progress)
                .run(all, inPads, kept, others, clockPads(bus, pads, clockLine, clockLeft), ports);
    }

    /** Where the clock may be forwarded: its line's pad, or any that no line has. */
    private static List<Integer> clockPads(
            Bus bus, List<Integer> pads, Optional<Bus.Line> line, boolean left) {
        if (line.isPresent()) {
            return List.of(line.get().pad());
        }
        return left
                ? pads.stream()
                        .filter(p -> bus.lines().stream().noneMatch(l -> l.pad() == p))
                        .toList()
                : List.of();
    }

    /** The group without the lines on some pads; ports keep those pads. */
    private static Bus without(Design design, Bus bus, Set<Integer> pads) {
        List<Edit> edits =
                bus.edits().stream()
                        .filter(
                                e ->
                                        !(e instanceof Edit.DisconnectPort go)
                                                || design.findPort(go.port())
                                                        .filter(p -> pads.contains(p.pad()))
                                                        .isEmpty())
                        .toList();
        return new Bus(
                bus.lines().stream().filter(l -> !pads.contains(l.pad())).toList(),
                List.of(),
                edits,
                0,
                Optional.empty());
    }

    /** Whether all lines can be registered once the occupants of the sites are removed. */
    public boolean isPossible() {
        Set<Integer> taken =
                inFabric.stream()
                        .filter(f -> f.reason().isEmpty())
                        .map(FabricRegister::pad)
                        .collect(Collectors.toSet());
        forwarded.flatMap(ForwardedClock.Result::found).ifPresent(f -> taken.add(f.pad()));
        return inPads.lines().stream()
                .allMatch(l -> l.reason().isEmpty() || taken.contains(l.pad()));
    }

    /** The line's registers in the fabric, if it has or would need any. */
    public Optional<FabricRegister> findInFabric(int pad) {
        return inFabric.stream().filter(f -> f.pad() == pad).findFirst();
    }

    /** Adds the registers in the fabric to those in the pads. Not thread-safe. */
    private static final class Adding {
        private final Bus bus;
        private final Net clock;
        private final ExternalLineDelay external;
        private final double localPercent;
        private final RegisterPlacing placing;
        private final Progress progress;
        private final Map<Integer, Bus.Line> lines = new HashMap<>();
        private final Map<Integer, Arrival> arrivals = new HashMap<>();
        private final List<Edit> edits = new ArrayList<>();
        private Design now;

        Adding(RegisterQuestion question, Progress progress) {
            this.now = question.design();
            this.bus = question.bus();
            this.clock = question.clock();
            this.external = question.external();
            this.localPercent = question.localPercent();
            this.progress = progress;
            this.placing =
                    new RegisterPlacing(
                            clock.name(), question.clockMhz(), external, localPercent, progress);
        }

        RegisteredLines run(
                RegisteredGroup all,
                RegisteredGroup inPads,
                Bus kept,
                List<RegisteredGroup.Line> others,
                List<Integer> clockPads,
                Bus.Ports ports) {
            boolean whole = kept.lines().isEmpty() || inPads.placed().isPresent();
            if (!kept.lines().isEmpty() && whole) {
                Bus placed = inPads.placed().orElseThrow();
                add(placed.lines(), placed.edits());
                inPads.lines().forEach(l -> l.arrival().ifPresent(a -> arrivals.put(l.pad(), a)));
            }
            List<FabricRegister> result = new ArrayList<>();
            for (RegisteredGroup.Line other : others) {
                Bus.Line line =
                        bus.lines().stream()
                                .filter(l -> l.pad() == other.pad())
                                .findFirst()
                                .orElseThrow();
                RegisterPlacing.Placed placed =
                        placing.place(now, line, other.reason().orElseThrow());
                result.add(placed.register());
                if (placed.line().isPresent()) {
                    add(List.of(placed.line().get()), placed.edits());
                    arrivals.put(other.pad(), placed.register().arrival().orElseThrow());
                } else {
                    whole = false;
                }
            }
            Optional<ForwardedClock.Result> forwarded = forwarded(clockPads, ports);
            if (forwarded.isPresent()) {
                Optional<ForwardedClock> copy = forwarded.get().found();
                copy.ifPresent(c -> add(List.of(c.line()), c.edits()));
                copy.ifPresent(c -> arrivals.put(c.pad(), c.arrival()));
                boolean asked = bus.lines().stream().anyMatch(l -> l.net().id() == clock.id());
                whole &= copy.isPresent() || !asked;
            }
            whole &= !lines.isEmpty();
            Optional<PairSkew> skew = whole ? greatestSkew() : inPads.skew();
            Optional<Bus> placed = whole ? Optional.of(together()) : Optional.empty();
            return new RegisteredLines(merged(all, inPads), result, forwarded, skew, placed);
        }

        /** The clock on the first pad that can show a copy; the port there loses its pad. */
        private Optional<ForwardedClock.Result> forwarded(List<Integer> pads, Bus.Ports ports) {
            if (!isClockAsked()) {
                return Optional.empty();
            }
            Set<String> reasons = new LinkedHashSet<>();
            for (int pad : pads) {
                Optional<Port> port = now.findPortOn(pad);
                if (port.isPresent() && ports == Bus.Ports.KEEP) {
                    reasons.add("a pad that is left has a port, which keeps it");
                    continue;
                }
                List<Edit> go =
                        port.map(p -> List.<Edit>of(new Edit.DisconnectPort(p.name())))
                                .orElse(List.of());
                Outcome outcome = Outcome.of(now, go);
                if (outcome instanceof Outcome.Refused refused) {
                    reasons.addAll(refused.reasons());
                    continue;
                }
                Design free = Outcome.apply(now, go);
                Optional<Bus.Line> line =
                        bus.lines().stream().filter(l -> l.pad() == pad).findFirst();
                ForwardedClock.Result result =
                        ForwardedClock.of(
                                free,
                                clock,
                                pad,
                                line.map(RegisterPlacing::wish).orElse(WantedDriver.NONE),
                                DriverFit.standing(now, pad),
                                external,
                                progress);
                if (result.found().isPresent()) {
                    add(List.of(), go);
                    return Optional.of(result);
                }
                reasons.add(result.reason());
            }
            if (reasons.isEmpty()) {
                reasons.add("no pad is left for it");
            }
            return Optional.of(ForwardedClock.Result.none(String.join("; ", reasons)));
        }

        private boolean isClockAsked() {
            return bus.lines().stream().anyMatch(l -> l.net().id() == clock.id())
                    || bus.left().stream().anyMatch(l -> l.net().id() == clock.id());
        }

        /** What the pads can do, with all lines of the group. */
        private static RegisteredGroup merged(RegisteredGroup all, RegisteredGroup inPads) {
            Map<Integer, RegisteredGroup.Line> again = new HashMap<>();
            inPads.lines().forEach(l -> again.put(l.pad(), l));
            return new RegisteredGroup(
                    all.clock(),
                    all.lines().stream().map(l -> again.getOrDefault(l.pad(), l)).toList(),
                    inPads.skew(),
                    Optional.empty());
        }

        private void add(List<Bus.Line> more, List<Edit> theirs) {
            more.forEach(l -> lines.put(l.pad(), l));
            edits.addAll(theirs);
            now = Outcome.apply(now, theirs);
        }

        private Bus together() {
            List<Bus.Line> inOrder = inOrder();
            long alone = inOrder.stream().mapToLong(l -> l.route().total().slowPs()).sum();
            return new Bus(inOrder, List.of(), edits, alone, Optional.empty());
        }

        /** As in the group; a clock that has no route of its own comes last. */
        private List<Bus.Line> inOrder() {
            List<Bus.Line> result = new ArrayList<>();
            bus.lines().forEach(l -> result.add(lines.get(l.pad())));
            lines.values().stream().filter(l -> !result.contains(l)).forEach(result::add);
            return result;
        }

        private Optional<PairSkew> greatestSkew() {
            RouteTree clocks = now.findNet(clock.name()).orElseThrow().route();
            TreeDelays delays = TreeDelays.of(now.fabric(), clocks);
            List<PairSkew> skews = new ArrayList<>();
            List<Bus.Line> inOrder = inOrder();
            for (int i = 0; i < inOrder.size(); i++) {
                for (int j = i + 1; j < inOrder.size(); j++) {
                    int one = clockPlace(clocks, inOrder.get(i));
                    int other = clockPlace(clocks, inOrder.get(j));
                    Delay shared =
                            one == Fabric.NOTHING || other == Fabric.NOTHING
                                    ? Delay.ZERO
                                    : delays.at(fork(clocks, one, other));
                    skews.add(
                            PairSkew.of(
                                    arrivals.get(inOrder.get(i).pad()),
                                    arrivals.get(inOrder.get(j).pad()),
                                    shared,
                                    localPercent));
                }
            }
            return skews.stream().max(Comparator.comparingInt(PairSkew::mostPs));
        }

        /** Where the clock's tree comes to the register of a line. */
        private int clockPlace(RouteTree clocks, Bus.Line line) {
            Net net = now.findNet(line.net().name()).orElseThrow();
            Cell cell = now.cells().get(net.driverCell());
            int first = now.fabric().site(cell.site()).firstPin();
            int count = now.fabric().site(cell.site()).pins().size();
            for (int pin = first; pin < first + count; pin++) {
                int place = clocks.placeOf(pin);
                if (place != Fabric.NOTHING) {
                    return place;
                }
            }
            return Fabric.NOTHING;
        }

        private static int fork(RouteTree tree, int one, int other) {
            Set<Integer> above = new HashSet<>();
            for (int place = one; place >= 0; place = tree.parent(place)) {
                above.add(place);
            }
            int place = other;
            while (!above.contains(place)) {
                place = tree.parent(place);
            }
            return place;
        }
    }
}
