package padward.breakout.group;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.cost.CostModel;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.SearchSources;
import padward.timing.Arrival;
import padward.timing.EdgeFinder;
import padward.timing.LaunchTime;
import padward.timing.OutputPath;
import padward.timing.PairSkew;
import padward.timing.TreeDelays;
import padward.unblock.release.QuestionContext;

/**
 * A group's signals sampled by one clock in the IO registers of their pads. They come out one
 * period of that clock later, and the remaining skew is that of the clock, the drivers and the
 * external lines; the delays of the nets no longer count.
 *
 * @param clock the clock net
 * @param lines one for each line of the group, in its order
 * @param skew that of the two lines that are farthest apart; empty for fewer than two
 * @param placed the group of the registers' nets, with the edits that place the registers; empty
 *     while a line cannot be registered or something would have to be removed for it
 */
public record RegisteredGroup(
        Net clock, List<Line> lines, Optional<PairSkew> skew, Optional<Bus> placed) {
    /** Copies the lines. */
    public RegisteredGroup {
        lines = List.copyOf(lines);
    }

    /**
     * One line.
     *
     * @param net the net
     * @param pad index of its pad
     * @param toRemove what uses the pad's IO register site and must be removed; may be empty
     * @param reason why it cannot be registered there even then, as a clause; empty when it can
     * @param data delay of the net to the register
     * @param clocked delay of the clock to the register
     * @param check clock-to-output, setup and hold
     * @param atInstrument delay of the clock to the register plus that of everything after it: the
     *     register's own, where its kind states it, driver, trace, connector, lead
     * @param arrival the same with what shares the die's corner apart; empty when the line cannot
     *     be registered
     */
    public record Line(
            Net net,
            int pad,
            List<Occupant> toRemove,
            Optional<String> reason,
            Delay data,
            Delay clocked,
            RegisterCheck check,
            Delay atInstrument,
            Optional<Arrival> arrival) {
        /** Copies the list. */
        public Line {
            toRemove = List.copyOf(toRemove);
        }
    }

    /**
     * Finds out whether a group's signals can be registered. Routes to the registers and the
     * branches of the clock are searched together, over what is free once the sites are.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RegisteredGroup of(RegisterQuestion question, Progress progress) {
        return new Registering(question, progress).run();
    }

    /** Whether all lines can be registered once the occupants of the sites are removed. */
    public boolean isPossible() {
        return lines.stream().allMatch(l -> l.reason().isEmpty());
    }

    /** Registers one group, once. Not thread-safe. */
    private static final class Registering {
        private static final int ROUNDS = 40;

        private final RegisterQuestion question;
        private final Design design;
        private final Fabric fabric;
        private final Bus bus;
        private final Net clock;
        private final Progress progress;
        private final Set<Edit> removals = new LinkedHashSet<>();

        Registering(RegisterQuestion question, Progress progress) {
            this.question = question;
            this.design = question.design();
            this.fabric = design.fabric();
            this.bus = question.bus();
            this.clock = question.clock();
            this.progress = progress;
        }

        /** A line whose site has been examined. */
        private record Candidate(
                Bus.Line line,
                Optional<IoRegister> register,
                List<Occupant> toRemove,
                String reason) {
            /** The same with why it cannot be registered. */
            Candidate because(String why) {
                return new Candidate(line, register, toRemove, why);
            }
        }

        RegisteredGroup run() {
            bus.edits().stream()
                    .filter(e -> e instanceof Edit.DisconnectPort)
                    .forEach(removals::add);
            List<Candidate> candidates = bus.lines().stream().map(this::candidate).toList();
            Design start = Outcome.apply(design, List.copyOf(removals));
            Optional<Net> clockNow = start.findNet(clock.name());
            if (clockNow.isEmpty()) {
                return new RegisteredGroup(
                        clock,
                        candidates.stream()
                                .map(c -> notPossible(c, "the clock net would be removed"))
                                .toList(),
                        Optional.empty(),
                        Optional.empty());
            }
            QuestionContext context = new QuestionContext(start, clockNow.get(), Optional.empty());
            SearchSources starts = SearchSources.along(fabric, clockNow.get().route(), Corner.SLOW);
            OneToAll reach =
                    new PathSearch(fabric).sweep(starts, Corner.SLOW, context.overFree(), progress);
            return routed(candidates, start, clockNow.get(), reach);
        }

        private Candidate candidate(Bus.Line line) {
            Pad pad = fabric.pads().get(line.pad());
            Candidate none = new Candidate(line, Optional.empty(), List.of(), "");
            if (pad.dataSite() == Fabric.NOTHING) {
                return none.because("the pad has no IO register site");
            }
            SiteView site = fabric.site(pad.dataSite());
            Optional<IoRegister> register = IoRegister.find(fabric, pad);
            if (register.isEmpty()) {
                return none.because("its site " + site.name() + " has no register");
            }
            Optional<String> other =
                    RegisterCheck.otherClock(clock, LaunchTime.of(design, line.net()));
            if (other.isPresent()) {
                return none.because(other.get());
            }
            Design now = Outcome.apply(design, List.copyOf(removals));
            Set<Occupant> occupants = new LinkedHashSet<>();
            for (int pin = 0; pin < site.pins().size(); pin++) {
                now.occupancy().findOccupant(site.firstPin() + pin).ifPresent(occupants::add);
            }
            for (Occupant occupant : occupants) {
                if (occupant.name().equals(line.net().name())
                        && occupant instanceof Occupant.ByNet) {
                    return none.because("the net itself uses " + site.name());
                }
                removals.add(
                        occupant instanceof Occupant.ByCell
                                ? new Edit.RemoveCell(occupant.name())
                                : new Edit.RemoveNet(occupant.name()));
            }
            return new Candidate(line, register, List.copyOf(occupants), "");
        }

        private RegisteredGroup routed(
                List<Candidate> candidates, Design start, Net clockNow, OneToAll reach) {
            List<RouteJob> jobs = new ArrayList<>();
            List<Integer> clockPins = new ArrayList<>();
            List<Candidate> checked = new ArrayList<>();
            List<Integer> jobOf = new ArrayList<>();
            for (Candidate candidate : candidates) {
                Optional<Net> net = start.findNet(candidate.line().net().name());
                Optional<Integer> clockPin =
                        candidate.register().stream()
                                .flatMap(r -> r.clocks().stream())
                                .filter(p -> reach.cost(p) != CostModel.CLOSED)
                                .findFirst();
                String reason = candidate.reason();
                if (reason.isEmpty() && net.isEmpty()) {
                    reason = "making the sites free would also remove the net";
                } else if (reason.isEmpty() && clockPin.isEmpty()) {
                    reason = "the clock does not reach its IO register site";
                }
                checked.add(candidate.because(reason));
                jobOf.add(reason.isEmpty() ? jobs.size() : Fabric.NOTHING);
                clockPins.add(clockPin.orElse(Fabric.NOTHING));
                if (reason.isEmpty()) {
                    int data = candidate.register().orElseThrow().data();
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
                    new NegotiatedRouter(
                                    fabric,
                                    BusRouting.closed(start),
                                    BusRouting.trees(start),
                                    Optional.empty())
                            .route(jobs, ROUNDS, progress);
            Optional<RouteTree> clockTree =
                    trees.isEmpty() ? Optional.empty() : trees.get(trees.size() - 1);
            List<Line> lines = new ArrayList<>();
            for (int i = 0; i < checked.size(); i++) {
                Candidate candidate = checked.get(i);
                if (jobOf.get(i) == Fabric.NOTHING) {
                    lines.add(notPossible(candidate, candidate.reason()));
                } else if (trees.get(jobOf.get(i)).isEmpty() || clockTree.isEmpty()) {
                    lines.add(
                            notPossible(
                                    candidate,
                                    "no route for data and clock together with the others"));
                } else {
                    RouteTree data = trees.get(jobOf.get(i)).get();
                    lines.add(line(candidate, data, clockTree.get(), clockPins.get(i)));
                }
            }
            boolean placeable =
                    !lines.isEmpty()
                            && lines.stream()
                                    .allMatch(l -> l.reason().isEmpty() && l.toRemove().isEmpty());
            Optional<Bus> placed = Optional.empty();
            if (placeable) {
                RegisterPlacement placement =
                        new RegisterPlacement(start, clockNow, clockTree.orElseThrow());
                for (int i = 0; i < checked.size(); i++) {
                    placement.add(
                            checked.get(i).line(),
                            checked.get(i).register().orElseThrow(),
                            trees.get(jobOf.get(i)).orElseThrow(),
                            clockPins.get(i));
                }
                placed = placement.bus(List.copyOf(removals));
            }
            return new RegisteredGroup(
                    clock,
                    lines,
                    clockTree.flatMap(t -> greatestSkew(lines, t, clockPins)),
                    placed);
        }

        /** The skew of the two lines that are farthest apart; the clock's common part is none. */
        private Optional<PairSkew> greatestSkew(
                List<Line> lines, RouteTree clocks, List<Integer> clockPins) {
            TreeDelays delays = TreeDelays.of(fabric, clocks);
            List<PairSkew> skews = new ArrayList<>();
            for (int i = 0; i < lines.size(); i++) {
                for (int j = i + 1; j < lines.size(); j++) {
                    Optional<Arrival> one = lines.get(i).arrival();
                    Optional<Arrival> other = lines.get(j).arrival();
                    if (one.isPresent() && other.isPresent()) {
                        int fork = fork(clocks, clockPins.get(i), clockPins.get(j));
                        skews.add(
                                PairSkew.of(
                                        one.get(),
                                        other.get(),
                                        delays.at(fork),
                                        question.localPercent()));
                    }
                }
            }
            return skews.stream().max(Comparator.comparingInt(PairSkew::mostPs));
        }

        /** The last place that the branches to two vertices have in common. */
        private static int fork(RouteTree tree, int one, int other) {
            Set<Integer> above = new LinkedHashSet<>();
            for (int place = tree.placeOf(one); place >= 0; place = tree.parent(place)) {
                above.add(place);
            }
            int place = tree.placeOf(other);
            while (!above.contains(place)) {
                place = tree.parent(place);
            }
            return place;
        }

        private Line line(Candidate candidate, RouteTree data, RouteTree clocks, int clockPin) {
            Bus.Line line = candidate.line();
            IoRegister register = candidate.register().orElseThrow();
            Delay arrival = TreeDelays.of(fabric, data).at(data.placeOf(register.data()));
            Delay clocked = TreeDelays.of(fabric, clocks).at(clocks.placeOf(clockPin));
            RegisterCheck check =
                    RegisterCheck.of(
                            register,
                            LaunchTime.of(design, line.net()),
                            arrival,
                            clocked,
                            question.localPercent());
            Optional<String> failure = check.failure(question.periodPs());
            if (failure.isPresent()) {
                return notPossible(candidate, failure.get());
            }
            int padVertex = fabric.pads().get(line.pad()).vertex();
            Delay connection = new EdgeFinder(fabric).get(register.output(), padVertex).delay();
            OutputPath output = line.output(design, question.external());
            Delay toPad = clocked.plus(check.clockToOutput().orElse(Delay.ZERO)).plus(connection);
            return new Line(
                    line.net(),
                    line.pad(),
                    candidate.toRemove(),
                    Optional.empty(),
                    arrival,
                    clocked,
                    check,
                    toPad.plus(output.toInstrument()),
                    Optional.of(output.after(toPad)));
        }

        private static Line notPossible(Candidate candidate, String why) {
            return new Line(
                    candidate.line().net(),
                    candidate.line().pad(),
                    candidate.toRemove(),
                    Optional.of(candidate.reason().isEmpty() ? why : candidate.reason()),
                    Delay.ZERO,
                    Delay.ZERO,
                    RegisterCheck.NONE,
                    Delay.ZERO,
                    Optional.empty());
        }
    }
}
