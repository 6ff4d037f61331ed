package padward.breakout.group;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.WantedDriver;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.unblock.weigh.Removal;
import padward.unblock.why.SearchLimits;

/**
 * A group with its options to unblock: which occupants to remove so that all nets are served that
 * have any route at all.
 *
 * @param bus the group as routed after the removals
 * @param removed what is removed, each occupant once
 * @param lowerBound fewer removals than this are not enough
 * @param provenMinimum whether it is proven that fewer removals are not enough
 */
public record UnblockedGroup(
        Bus bus, List<Removed> removed, int lowerBound, boolean provenMinimum) {
    /** Copies the list. */
    public UnblockedGroup {
        removed = List.copyOf(removed);
    }

    /**
     * One occupant that is removed.
     *
     * @param blocked the question of the line for which it is removed
     * @param removal the occupant, with the consequence of its removal
     */
    public record Removed(Answer.Blocked blocked, Removal removal) {}

    /** What a line costs, with what is removed for it. */
    public Price price(Design design, Bus.Line line) {
        List<Removal> removals =
                removed.stream()
                        .filter(r -> r.blocked().question().net().name().equals(line.net().name()))
                        .map(Removed::removal)
                        .toList();
        return Price.of(Bus.question(design, line), removals);
    }

    /** What the group costs, with all that is removed for it. */
    public Price price(Design design) {
        return bus.lines().stream().map(l -> price(design, l)).reduce(Price.NOTHING, Price::plus);
    }

    /**
     * Finds what to remove. Pads are chosen so that the quick answers list the fewest obstacles in
     * total; then each blocked line is explained in turn, on the design after the removals of the
     * lines before, with the fewest obstacles for that line; then all nets are routed together;
     * then removals that turned out to be unnecessary are undone. The result need not be the
     * minimum for the group; a lower bound proves it in some cases ({@link GroupBound}).
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static UnblockedGroup of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            SearchLimits limits,
            Progress progress) {
        return of(design, nets, pads, aim, ports, WantedDriver.NONE, limits, progress);
    }

    /** The same, with something wanted of the pads' drivers. */
    public static UnblockedGroup of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            WantedDriver driver,
            SearchLimits limits,
            Progress progress) {
        BusRequest request = BusRequest.of(design, nets, pads, aim, ports, driver);
        return new Search(request, limits, progress).run();
    }

    /** Finds what to remove for one group, once. Not thread-safe. */
    private static final class Search {
        /** An obstacle costs more than any delay: ten microseconds, ps. */
        private static final int OBSTACLE = 10_000_000;

        private static final int MOST_OBSTACLES = 100;

        /** What costs are divided by to decide between pads of the same price. */
        private static final int TIE = 1_100;

        /**
         * Maximum rounds in which lines without a route together with the others are unblocked
         * again.
         */
        private static final int ROUNDS = 3;

        private final BusRequest request;
        private final SearchLimits limits;
        private final Progress progress;
        private final Asker asker;
        private final Set<String> own;
        private final BusCosts known;

        Search(BusRequest request, SearchLimits limits, Progress progress) {
            this.request = request;
            this.limits = limits;
            this.progress = progress;
            this.asker = new Asker(request.design().fabric(), SearchEngineKind.OWN);
            this.own = request.nets().stream().map(Net::name).collect(Collectors.toSet());
            this.known = new BusCosts(request);
        }

        /** The decision for one line: its pad, and what is removed for it. */
        private record Line(
                int net, int pad, int alonePs, List<Edit> removals, List<Removed> removed) {}

        UnblockedGroup run() {
            List<Bus.Left> left = new ArrayList<>(request.there());
            int[] choice = choice();
            Map<Integer, Line> lines = new LinkedHashMap<>();
            Design now = request.design();
            for (int i = 0; i < choice.length; i++) {
                progress.report((double) i / choice.length, "unblocking " + nameOf(i));
                if (choice[i] == Matching.NONE) {
                    left.add(known.left(i, progress));
                    continue;
                }
                now = unblock(i, choice[i], now, lines, edits -> withThoseOf(lines, edits));
            }
            Bus bus = route(lines, left);
            for (int round = 0; round < ROUNDS && bus.lines().size() < lines.size(); round++) {
                if (!unblockTogether(bus, lines)) {
                    break;
                }
                bus = route(lines, left);
            }
            Map<Integer, Line> planned = new LinkedHashMap<>(lines);
            bus = undoUnnecessary(lines, left, bus);
            List<Removed> removed = removed(lines, planned, bus);
            int lowerBound = GroupBound.of(request, known, progress);
            boolean all = bus.lines().size() == lines.size();
            return new UnblockedGroup(
                    bus, removed, lowerBound, all && removed.size() == lowerBound);
        }

        private String nameOf(int net) {
            return request.nets().get(net).name();
        }

        /**
         * The pads with the fewest obstacles in total, by the quick answers; then the shortest
         * delay.
         */
        private int[] choice() {
            int[][] costs = new int[request.nets().size()][request.pads().size()];
            for (int i = 0; i < costs.length; i++) {
                for (int j = 0; j < costs[i].length; j++) {
                    Answer answer = known.answer(i, j);
                    costs[i][j] = Matching.NONE;
                    if (answer instanceof Answer.FreeRoute open) {
                        costs[i][j] = open.route().total().slowPs();
                    } else if (answer instanceof Answer.Blocked blocked) {
                        int obstacles = Math.min(MOST_OBSTACLES, blocked.obstacles().size());
                        int ps = Math.min(OBSTACLE - 1, blocked.route().total().slowPs());
                        costs[i][j] = obstacles * OBSTACLE + ps;
                    }
                }
            }
            return request.chooseLeastSum(costs, TIE);
        }

        /** The design when some edits are applied together with those of the lines so far. */
        private Optional<Design> withThoseOf(Map<Integer, Line> lines, List<Edit> edits) {
            // One entry removes first and moves then: what one line moves, no other may remove.
            List<Edit> all = new ArrayList<>();
            lines.values().forEach(l -> all.addAll(l.removals()));
            edits.stream().filter(e -> !all.contains(e)).forEach(all::add);
            return tried(request.design(), all);
        }

        /** Unblocks one line; returns the design after that. */
        private Design unblock(
                int net,
                int choice,
                Design now,
                Map<Integer, Line> lines,
                Function<List<Edit>, Optional<Design>> applied) {
            int pad = request.pads().get(choice);
            Optional<Net> there = now.findNet(nameOf(net));
            if (there.isEmpty()) {
                return now;
            }
            Answer answer =
                    asker.explained(
                            new Question(now, there.get(), pad, Corner.SLOW, request.driver()),
                            limits,
                            progress);
            Line line = new Line(net, pad, 0, new ArrayList<>(), new ArrayList<>());
            if (answer instanceof Answer.FreeRoute open) {
                line = new Line(net, pad, open.route().total().slowPs(), List.of(), List.of());
            } else if (answer instanceof Answer.Blocked blocked) {
                for (WhyBlocked.Option option : leavingTheGroup(blocked)) {
                    List<Edit> removals = new ArrayList<>(AnswerEdits.of(blocked, option));
                    removals.removeIf(AnswerEdits::bringsOut);
                    Optional<Design> after = applied.apply(removals);
                    if (after.isPresent()) {
                        int ps = option.route().total().slowPs();
                        lines.put(
                                net, new Line(net, pad, ps, removals, removedBy(blocked, option)));
                        return after.get();
                    }
                }
            }
            lines.put(net, line);
            return now;
        }

        private static List<Removed> removedBy(Answer.Blocked blocked, WhyBlocked.Option option) {
            return option.option().removals().stream().map(r -> new Removed(blocked, r)).toList();
        }

        private static Optional<Design> tried(Design now, List<Edit> removals) {
            try {
                return Optional.of(Outcome.apply(now, removals));
            } catch (IllegalArgumentException doesNotFit) {
                return Optional.empty();
            }
        }

        /**
         * Options to unblock that do not change the group's own nets and the cells that drive them.
         */
        private List<WhyBlocked.Option> leavingTheGroup(Answer.Blocked blocked) {
            Design design = blocked.question().design();
            return blocked.why().map(WhyBlocked::options).orElse(List.of()).stream()
                    .filter(
                            o ->
                                    o.option().removals().stream()
                                            .noneMatch(r -> isOwn(design, r.occupant())))
                    .toList();
        }

        private boolean isOwn(Design design, Occupant occupant) {
            return occupant instanceof Occupant.ByCell cell
                    ? design.netsDrivenBy(cell.cell().id()).stream()
                            .anyMatch(n -> own.contains(n.name()))
                    : own.contains(occupant.name());
        }

        private Bus route(Map<Integer, Line> lines, List<Bus.Left> left) {
            BusRouting routing = new BusRouting(request);
            List<Edit> removals = new ArrayList<>();
            for (Line line : lines.values()) {
                line.removals().stream().filter(e -> !removals.contains(e)).forEach(removals::add);
            }
            routing.addFirst(removals);
            for (Line line : lines.values()) {
                routing.add(request.nets().get(line.net()), line.pad(), line.alonePs());
            }
            return routing.route(left, Optional.empty(), progress);
        }

        /**
         * Removes more for lines without a route together with the others; whether anything was
         * removed.
         */
        private boolean unblockTogether(Bus bus, Map<Integer, Line> lines) {
            Set<String> served =
                    bus.lines().stream().map(l -> l.net().name()).collect(Collectors.toSet());
            Design after = Outcome.apply(request.design(), bus.edits());
            boolean any = false;
            for (Line line : List.copyOf(lines.values())) {
                if (served.contains(nameOf(line.net()))) {
                    continue;
                }
                Map<Integer, Line> more = new LinkedHashMap<>();
                int choice = request.pads().indexOf(line.pad());
                Design before = after;
                after = unblock(line.net(), choice, before, more, e -> tried(before, e));
                Line extra = more.get(line.net());
                if (extra != null && !extra.removals().isEmpty()) {
                    List<Edit> removals = new ArrayList<>(line.removals());
                    removals.addAll(extra.removals());
                    List<Removed> removed = new ArrayList<>(line.removed());
                    removed.addAll(extra.removed());
                    if (fits(lines, line.net(), removals)) {
                        lines.put(
                                line.net(),
                                new Line(
                                        line.net(), line.pad(), line.alonePs(), removals, removed));
                        any = true;
                    }
                }
            }
            return any;
        }

        /** Whether the removals of all lines still fit together when those of one line change. */
        private boolean fits(Map<Integer, Line> lines, int net, List<Edit> removals) {
            List<Edit> all = new ArrayList<>();
            for (Line line : lines.values()) {
                (line.net() == net ? removals : line.removals())
                        .stream().filter(e -> !all.contains(e)).forEach(all::add);
            }
            return tried(request.design(), all).isPresent();
        }

        /**
         * Undoes the removals for a line if all lines that were served are also served without
         * them.
         */
        private Bus undoUnnecessary(Map<Integer, Line> lines, List<Bus.Left> left, Bus served) {
            Bus best = served;
            if (lines.values().stream().filter(l -> !l.removed().isEmpty()).count() < 2) {
                return best;
            }
            for (Line line : List.copyOf(lines.values())) {
                if (line.removed().isEmpty() || !fits(lines, line.net(), List.of())) {
                    continue;
                }
                lines.put(
                        line.net(),
                        new Line(line.net(), line.pad(), line.alonePs(), List.of(), List.of()));
                Bus without = route(lines, left);
                if (without.lines().size() >= best.lines().size()) {
                    best = without;
                } else {
                    lines.put(line.net(), line);
                }
            }
            return best;
        }

        /**
         * What is removed, once each. A removal that was undone counts when its occupant is gone
         * all the same, as the net is that an input port drives when the port loses its pad.
         */
        private List<Removed> removed(
                Map<Integer, Line> lines, Map<Integer, Line> planned, Bus bus) {
            Design after = Outcome.apply(request.design(), bus.edits());
            Set<String> seen = new HashSet<>();
            List<Removed> result = new ArrayList<>();
            for (Map.Entry<Integer, Line> entry : planned.entrySet()) {
                Line line = lines.getOrDefault(entry.getKey(), entry.getValue());
                for (Removed removed : entry.getValue().removed()) {
                    boolean done = line.removed().contains(removed);
                    Removal removal = removed.removal();
                    if ((done || isGone(after, removal.occupant()))
                            && seen.add(removal.removing().toText())) {
                        result.add(removed);
                    }
                }
            }
            return result;
        }

        private static boolean isGone(Design after, Occupant occupant) {
            return occupant instanceof Occupant.ByCell
                    ? after.findCell(occupant.name()).isEmpty()
                    : after.findNet(occupant.name()).isEmpty();
        }
    }
}
