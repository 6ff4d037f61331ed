package padward.breakout.group;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.WhatIf;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Corner;
import padward.route.search.Engine;
import padward.unblock.weigh.Removal;
import padward.unblock.why.SearchLimits;

/**
 * A group for which room was made: which occupants to free so that all nets are served that have
 * any way at all.
 *
 * @param bus the group as it can be laid then
 * @param freed what is freed, each occupant once
 * @param atLeast no fewer occupants than this will do
 * @param provenFewest whether it is proven that no fewer will do
 */
public record UnblockedGroup(Bus bus, List<Freed> freed, int atLeast, boolean provenFewest) {
    /** Copies the list. */
    public UnblockedGroup {
        freed = List.copyOf(freed);
    }

    /**
     * One occupant that is freed.
     *
     * @param blocked the question of the line for which it is freed
     * @param removal the occupant, and what freeing it means
     */
    public record Freed(Answer.Blocked blocked, Removal removal) {}

    /**
     * Finds what to free. Pads are chosen so that quick answers name the fewest obstacles in all;
     * then each blocked line is explained in turn, on the design as the lines before have cleared
     * it, with the fewest obstacles for that line; then all ways are laid together; then what has
     * turned out needless is put back. That need not be the fewest for the group: whether it is, a
     * lower bound tells ({@link GroupBound}).
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static UnblockedGroup of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            SearchLimits limits,
            Progress progress) {
        return new Search(BusRequest.of(design, nets, pads, aim), limits, progress).run();
    }

/** Finds what to free for one group. One object does it once; it belongs to one thread. */
private static final class Search {
    /** An obstacle counts more than any delay: ten microseconds. */
    private static final int OBSTACLE = 10_000_000;

    private static final int MOST_OBSTACLES = 100;

    /** How often lines that found no way beside the others are cleared anew. */
    private static final int ROUNDS = 3;

    private final BusRequest request;
    private final SearchLimits limits;
    private final Progress progress;
    private final Asker asker;
    private final Set<String> own;
    private final BusCosts prices;

    Search(BusRequest request, SearchLimits limits, Progress progress) {
        this.request = request;
        this.limits = limits;
        this.progress = progress;
        this.asker = new Asker(request.design().fabric(), Engine.OWN);
        this.own = request.nets().stream().map(Net::name).collect(Collectors.toSet());
        this.prices = BusCosts.of(request, progress);
    }

    /** What is done for one line: which pad, and what is freed for it. */
    private record Line(
            int net, int pad, int alonePs, List<Edit> room, List<Freed> freed) {}

    UnblockedGroup run() {
        List<Bus.Left> left = new ArrayList<>(request.there());
        int[] choice = choice();
        Map<Integer, Line> lines = new LinkedHashMap<>();
        Design now = request.design();
        for (int i = 0; i < choice.length; i++) {
            progress.report((double) i / choice.length, "unblocking " + nameOf(i));
            if (choice[i] == Matching.NONE) {
                left.add(prices.left(i));
                continue;
            }
            now = clear(i, choice[i], now, lines);
        }
        Bus bus = route(lines, left);
        for (int round = 0; round < ROUNDS && bus.lines().size() < lines.size(); round++) {
            if (!clearBesideOthers(bus, lines)) {
                break;
            }
            bus = route(lines, left);
        }
        bus = putBackNeedless(lines, left, bus);
        List<Freed> freed = freed(lines);
        int atLeast = GroupBound.atLeast(request, prices, progress);
        boolean all = bus.lines().size() == lines.size();
        return new UnblockedGroup(bus, freed, atLeast, all && freed.size() == atLeast);
    }

    private String nameOf(int net) {
        return request.nets().get(net).name();
    }

    /** The pads with the fewest obstacles in all, by quick answers; then the quickest. */
    private int[] choice() {
        int[][] costs = new int[request.nets().size()][request.pads().size()];
        for (int i = 0; i < costs.length; i++) {
            for (int j = 0; j < costs[i].length; j++) {
                Answer answer = prices.answer(i, j);
                costs[i][j] = Matching.NONE;
                if (answer instanceof Answer.Open open) {
                    costs[i][j] = open.route().total().slowPs();
                } else if (answer instanceof Answer.Blocked blocked) {
                    int obstacles = Math.min(MOST_OBSTACLES, blocked.obstacles().size());
                    int ps = Math.min(OBSTACLE - 1, blocked.route().total().slowPs());
                    costs[i][j] = obstacles * OBSTACLE + ps;
                }
            }
        }
        return request.aim() == Bus.Aim.ORDER ? Matching.inOrder(costs) : Matching.leastSum(costs);
    }

    /** Makes room for one line; the design after that. */
    private Design clear(int net, int choice, Design now, Map<Integer, Line> lines) {
        int pad = request.pads().get(choice);
        Optional<Net> there = now.findNet(nameOf(net));
        if (there.isEmpty()) {
            return now;
        }
        Answer answer =
                asker.explained(new Question(now, there.get(), pad, Corner.SLOW), limits, progress);
        Line line = new Line(net, pad, 0, new ArrayList<>(), new ArrayList<>());
        if (answer instanceof Answer.Open open) {
            line = new Line(net, pad, open.route().total().slowPs(), List.of(), List.of());
        } else if (answer instanceof Answer.Blocked blocked) {
            for (WhyBlocked.Option option : sparingTheGroup(blocked)) {
                List<Edit> room = new ArrayList<>(AnswerEdits.of(blocked, option));
                room.remove(room.size() - 1);
                Optional<Design> after = tried(now, room);
                if (after.isPresent()) {
                    int ps = option.route().total().slowPs();
                    lines.put(net, new Line(net, pad, ps, room, freedBy(blocked, option)));
                    return after.get();
                }
            }
        }
        lines.put(net, line);
        return now;
    }

    private static List<Freed> freedBy(
            Answer.Blocked blocked, WhyBlocked.Option option) {
        return option.option().removals().stream()
                .map(r -> new Freed(blocked, r))
                .toList();
    }

    private static Optional<Design> tried(Design now, List<Edit> room) {
        try {
            return Optional.of(WhatIf.of(now, room));
        } catch (IllegalArgumentException doesNotFit) {
            return Optional.empty();
        }
    }

    /**
     * Clearances that leave the group's own nets, and the cells that drive them, where they are.
     */
    private List<WhyBlocked.Option> sparingTheGroup(Answer.Blocked blocked) {
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
        BusRouting routing = new BusRouting(request.design());
        List<Edit> room = new ArrayList<>();
        for (Line line : lines.values()) {
            line.room().stream().filter(e -> !room.contains(e)).forEach(room::add);
        }
        routing.make(room);
        for (Line line : lines.values()) {
            routing.add(request.nets().get(line.net()), line.pad(), line.alonePs());
        }
        return routing.route(left, Optional.empty(), progress);
    }

    /** Makes more room for lines that found no way beside the others; whether any was made. */
    private boolean clearBesideOthers(Bus bus, Map<Integer, Line> lines) {
        Set<String> served =
                bus.lines().stream().map(l -> l.net().name()).collect(Collectors.toSet());
        Design after = WhatIf.of(request.design(), bus.edits());
        boolean any = false;
        for (Line line : List.copyOf(lines.values())) {
            if (served.contains(nameOf(line.net()))) {
                continue;
            }
            Map<Integer, Line> more = new LinkedHashMap<>();
            int choice = request.pads().indexOf(line.pad());
            after = clear(line.net(), choice, after, more);
            Line extra = more.get(line.net());
            if (extra != null && !extra.room().isEmpty()) {
                List<Edit> room = new ArrayList<>(line.room());
                room.addAll(extra.room());
                List<Freed> freed = new ArrayList<>(line.freed());
                freed.addAll(extra.freed());
                if (fits(lines, line.net(), room)) {
                    lines.put(
                            line.net(),
                            new Line(line.net(), line.pad(), line.alonePs(), room, freed));
                    any = true;
                }
            }
        }
        return any;
    }

    /** Whether all the room for all lines can be made when one line's is changed. */
    private boolean fits(Map<Integer, Line> lines, int net, List<Edit> room) {
        List<Edit> all = new ArrayList<>();
        for (Line line : lines.values()) {
            (line.net() == net ? room : line.room())
                    .stream().filter(e -> !all.contains(e)).forEach(all::add);
        }
        return tried(request.design(), all).isPresent();
    }

    /** Leaves out what is freed for a line when all lines that were served are served without. */
    private Bus putBackNeedless(Map<Integer, Line> lines, List<Bus.Left> left, Bus served) {
        Bus best = served;
        if (lines.values().stream().filter(l -> !l.freed().isEmpty()).count() < 2) {
            return best;
        }
        for (Line line : List.copyOf(lines.values())) {
            if (line.freed().isEmpty() || !fits(lines, line.net(), List.of())) {
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

    private static List<Freed> freed(Map<Integer, Line> lines) {
        Set<String> seen = new HashSet<>();
        List<Freed> result = new ArrayList<>();
        for (Line line : lines.values()) {
            for (Freed freed : line.freed()) {
                Removal removal = freed.removal();
                if (seen.add(removal.removing().toText())) {
                    result.add(freed);
                }
            }
        }
        return result;
    }
}
}
