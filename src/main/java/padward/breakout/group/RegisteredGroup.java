package padward.breakout.group;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.WhatIf;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.fabric.CellKind;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.route.cost.CostModel;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.SearchSources;
import padward.timing.EdgeFinder;
import padward.timing.ExternalLine;
import padward.timing.TreeDelays;
import padward.unblock.release.QuestionContext;

/**
 * An offer: a group's signals held in the IO registers of their pads, by one clock. They come out
 * one period of that clock later, and what is left of their skew is the clock's, the drivers' and
 * what lies outside; the nets' own ways count no more. An offer only: it places no cells.
 *
 * @param clock the clock net
 * @param lines one for each line of the group, in its order
 */
public record RegisteredGroup(Net clock, List<Line> lines) {
    /** Copies the lines. */
    public RegisteredGroup {
        lines = List.copyOf(lines);
    }

    /**
     * One line.
     *
     * @param net the net
     * @param pad index of its pad
     * @param toFree what holds the pad's IO register site and must be freed; empty for nothing
     * @param hindrance why it cannot be held there, even so, as a clause; empty when it can
     * @param data delay of the net to the register
     * @param clocked delay of the clock to the register
     * @param atInstrument delay of the clock to the register, and of all behind it: driver, trace,
     *     connector, lead; without the register's own, which is the same for all
     */
    public record Line(
            Net net,
            int pad,
            List<Occupant> toFree,
            Optional<String> hindrance,
            Delay data,
            Delay clocked,
            Delay atInstrument) {
        /** Copies the list. */
        public Line {
            toFree = List.copyOf(toFree);
        }
    }

    /**
     * Looks whether a group's signals could be held. Ways to the registers and the clock's branches
     * are really laid, together, over what is free once the sites are.
     *
     * @param bus the group; its own ways are not laid then
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RegisteredGroup of(
            Design design, Bus bus, Net clock, ExternalLine outside, Progress progress) {
        return new Registering(design, bus, clock, outside, progress).run();
    }

    /** Whether all lines can be held, once what must be freed is. */
    public boolean isPossible() {
        return lines.stream().allMatch(l -> l.hindrance().isEmpty());
    }

    /** Greatest difference between lines that can be held, at one corner, ps. */
    public int skewPs(Corner corner) {
        var there =
                lines.stream()
                        .filter(l -> l.hindrance().isEmpty())
                        .mapToInt(l -> l.atInstrument().at(corner))
                        .summaryStatistics();
        return there.getCount() == 0 ? 0 : there.getMax() - there.getMin();
    }

/** Looks whether a group can be held in IO registers. One object does it once. */
private static final class Registering {
    private static final int ROUNDS = 40;

    private final Design design;
    private final Fabric fabric;
    private final Bus bus;
    private final Net clock;
    private final ExternalLine outside;
    private final Progress progress;
    private final Set<Edit> room = new LinkedHashSet<>();

    Registering(Design design, Bus bus, Net clock, ExternalLine outside, Progress progress) {
        this.design = design;
        this.fabric = design.fabric();
        this.bus = bus;
        this.clock = clock;
        this.outside = outside;
        this.progress = progress;
    }

    /**
     * The pins of a register.
     *
     * @param data the pin that takes the signal
     * @param output the pin that leads to the pad
     * @param others inputs of which one may be the clock's
     */
    private record Pins(int data, int output, List<Integer> others) {}

    /** A line that has come so far. */
    private record Candidate(Bus.Line line, Pins pins, List<Occupant> toFree, String hindrance) {}

    RegisteredGroup run() {
        bus.edits().stream().filter(e -> e instanceof Edit.DisconnectPort).forEach(room::add);
        List<Candidate> candidates = bus.lines().stream().map(this::candidate).toList();
        Design freed = WhatIf.of(design, List.copyOf(room));
        Optional<Net> clockNow = freed.findNet(clock.name());
        if (clockNow.isEmpty()) {
            return new RegisteredGroup(
                    clock,
                    candidates.stream()
                            .map(c -> hindered(c, "the clock net would be removed"))
                            .toList());
        }
        QuestionContext situation = new QuestionContext(freed, clockNow.get(), Optional.empty());
        SearchSources starts = SearchSources.along(fabric, clockNow.get().route(), Corner.SLOW);
        OneToAll reach =
                new PathSearch(fabric).sweep(starts, Corner.SLOW, situation.overFree(), progress);
        return routed(candidates, freed, clockNow.get(), reach);
    }

    private Candidate candidate(Bus.Line line) {
        Pad pad = fabric.pads().get(line.pad());
        Pins none = new Pins(Fabric.NOTHING, Fabric.NOTHING, List.of());
        if (pad.dataSite() == Fabric.NOTHING) {
            return new Candidate(line, none, List.of(), "the pad has no IO register site");
        }
        SiteView site = fabric.site(pad.dataSite());
        boolean register =
                site.accepts().stream()
                        .anyMatch(
                                k ->
                                        fabric.info()
                                                .findCellKind(k)
                                                .map(CellKind::holdsState)
                                                .orElse(false));
        Optional<Pins> pins = pins(site, pad);
        if (!register || pins.isEmpty()) {
            return new Candidate(
                    line, none, List.of(), "its site " + site.name() + " has no register");
        }
        Design now = WhatIf.of(design, List.copyOf(room));
        Set<Occupant> occupants = new LinkedHashSet<>();
        for (int pin = 0; pin < site.pins().size(); pin++) {
            now.occupancy().findOccupant(site.firstPin() + pin).ifPresent(occupants::add);
        }
        for (Occupant occupant : occupants) {
            if (occupant.name().equals(line.net().name()) && occupant instanceof Occupant.ByNet) {
                return new Candidate(line, none, List.of(), "the net itself uses " + site.name());
            }
            room.add(
                    occupant instanceof Occupant.ByCell
                            ? new Edit.RemoveCell(occupant.name())
                            : new Edit.RemoveNet(occupant.name()));
        }
        return new Candidate(line, pins.get(), List.copyOf(occupants), "");
    }

    /** The output leads to the pad; the data pin leads through to it; the clock's is another. */
    private Optional<Pins> pins(SiteView site, Pad pad) {
        EdgeCursor into = fabric.edgesIn();
        into.reset(pad.vertex());
        int output = Fabric.NOTHING;
        while (into.next()) {
            output = fabric.siteOf(into.other()) == site.id() ? into.other() : output;
        }
        if (output == Fabric.NOTHING) {
            return Optional.empty();
        }
        List<Integer> data = new ArrayList<>();
        into.reset(output);
        while (into.next()) {
            if (into.kind() == EdgeKind.PASS_THROUGH) {
                data.add(into.other());
            }
        }
        List<Integer> others = new ArrayList<>();
        for (int i = 0; i < site.pins().size(); i++) {
            int pin = site.firstPin() + i;
            if (site.pins().get(i).direction() == PinDirection.IN && !data.contains(pin)) {
                others.add(pin);
            }
        }
        return data.isEmpty() || others.isEmpty()
                ? Optional.empty()
                : Optional.of(new Pins(data.get(0), output, others));
    }

    private RegisteredGroup routed(
            List<Candidate> candidates, Design freed, Net clockNow, OneToAll reach) {
        List<RouteJob> jobs = new ArrayList<>();
        List<Integer> clockPins = new ArrayList<>();
        List<Candidate> checked = new ArrayList<>();
        List<Integer> jobOf = new ArrayList<>();
        for (Candidate candidate : candidates) {
            Optional<Net> net = freed.findNet(candidate.line().net().name());
            Optional<Integer> clockPin =
                    candidate.pins().others().stream()
                            .filter(p -> reach.cost(p) != CostModel.CLOSED)
                            .findFirst();
            String hindrance = candidate.hindrance();
            if (hindrance.isEmpty() && net.isEmpty()) {
                hindrance = "making the sites free would also remove the net";
            } else if (hindrance.isEmpty() && clockPin.isEmpty()) {
                hindrance = "the clock does not reach its IO register site";
            }
            checked.add(
                    new Candidate(
                            candidate.line(), candidate.pins(), candidate.toFree(), hindrance));
            jobOf.add(hindrance.isEmpty() ? jobs.size() : Fabric.NOTHING);
            clockPins.add(clockPin.orElse(Fabric.NOTHING));
            if (hindrance.isEmpty()) {
                int data = candidate.pins().data();
                jobs.add(RouteJob.from(fabric, net.get().route(), Corner.SLOW, data));
            }
        }
        int[] sinks =
                IntStream.range(0, checked.size())
                        .filter(i -> jobOf.get(i) != Fabric.NOTHING)
                        .map(clockPins::get)
                        .toArray();
        if (sinks.length > 0) {
            jobs.add(RouteJob.from(fabric, clockNow.route(), Corner.SLOW, sinks));
        }
        List<Optional<RouteTree>> trees =
                new NegotiatedRouter(fabric, BusRouting.closed(freed))
                        .route(jobs, ROUNDS, progress);
        Optional<RouteTree> clockTree =
                trees.isEmpty() ? Optional.empty() : trees.get(trees.size() - 1);
        List<Line> lines = new ArrayList<>();
        for (int i = 0; i < checked.size(); i++) {
            Candidate candidate = checked.get(i);
            if (jobOf.get(i) == Fabric.NOTHING) {
                lines.add(hindered(candidate, candidate.hindrance()));
            } else if (trees.get(jobOf.get(i)).isEmpty() || clockTree.isEmpty()) {
                lines.add(
                        hindered(
                                candidate, "no route for data and clock together with the others"));
            } else {
                RouteTree data = trees.get(jobOf.get(i)).get();
                lines.add(line(candidate, data, clockTree.get(), clockPins.get(i)));
            }
        }
        return new RegisteredGroup(clock, lines);
    }

    private Line line(
            Candidate candidate, RouteTree data, RouteTree clocks, int clockPin) {
        Bus.Line line = candidate.line();
        Pins pins = candidate.pins();
        Delay arrival = TreeDelays.of(fabric, data).at(data.placeOf(pins.data()));
        Delay clocked = TreeDelays.of(fabric, clocks).at(clocks.placeOf(clockPin));
        int padVertex = fabric.pads().get(line.pad()).vertex();
        Delay connection = new EdgeFinder(fabric).get(pins.output(), padVertex).delay();
        Delay driver = line.route().total().less(line.route().toPadVertex());
        Delay there = clocked.plus(connection).plus(driver).plus(outside.delay(design, line.pad()));
        return new Line(
                line.net(),
                line.pad(),
                candidate.toFree(),
                Optional.empty(),
                arrival,
                clocked,
                there);
    }

    private static Line hindered(Candidate candidate, String why) {
        return new Line(
                candidate.line().net(),
                candidate.line().pad(),
                candidate.toFree(),
                Optional.of(candidate.hindrance().isEmpty() ? why : candidate.hindrance()),
                Delay.ZERO,
                Delay.ZERO,
                Delay.ZERO);
    }
}
}
