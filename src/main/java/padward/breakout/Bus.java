package padward.breakout;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import padward.base.Progress;
import padward.clearance.LetGo;
import padward.clearance.PortBranch;
import padward.clearance.Situation;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Trial;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.route.Engine;
import padward.route.NegotiatedRouter;
import padward.route.Path;
import padward.route.RouteJob;
import padward.route.RoutingRound;

/**
 * Several nets brought out at once: a pad for each, and ways that do not meet. First each net's
 * ways to all pads are priced alone; then pads are matched to nets; then all ways are laid together
 * by negotiated congestion. Nets that find no way beside the others are named.
 *
 * @param lines the nets that are served, in the order asked
 * @param left the nets that are not, with the reason
 * @param edits what it takes, in order
 * @param alonePs sum over the lines of the least delay to their pads, each alone, slow corner: no
 *     joint solution on these pads is quicker
 */
public record Bus(List<Line> lines, List<Left> left, List<Edit> edits, long alonePs) {
    /** Rounds of negotiation. */
    private static final int ROUNDS = 60;

    /** Copies the lists. */
    public Bus {
        lines = List.copyOf(lines);
        left = List.copyOf(left);
        edits = List.copyOf(edits);
    }

    /**
     * One net on its pad.
     *
     * @param net the net
     * @param pad index of its pad
     * @param way its way
     */
    public record Line(Net net, int pad, Way way) {}

    /**
     * A net that is not served.
     *
     * @param net the net
     * @param reason why, as a clause
     */
    public record Left(Net net, String reason) {}

    /**
     * A round of negotiation.
     *
     * @param nets the nets, in the order of the round's trees
     * @param round what the round left
     */
    public record Round(List<Net> nets, RoutingRound round) {
        /** Copies the nets. */
        public Round {
            nets = List.copyOf(nets);
        }
    }

    /** What the choice of pads goes by. */
    public enum Aim {
        /** The least sum of delays. */
        SUM,
        /** The least greatest delay. */
        WORST,
        /** The least difference between the delays. */
        SKEW,
        /** The nets' order along the pads' order, then the least sum. */
        ORDER
    }

    /** The sum of the lines' delays to outside their pads, slow corner. */
    public long totalPs() {
        return lines.stream().mapToLong(l -> l.way().total().slowPs()).sum();
    }

    /**
     * Brings nets out on some of the pads given.
     *
     * @param nets the nets, in the order of the bits
     * @param pads indices of pads that may be taken, in their order on the board
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Bus of(
            Design design, List<Net> nets, List<Integer> pads, Aim aim, Progress progress) {
        return of(design, nets, pads, aim, Optional.empty(), progress);
    }

    /**
     * The same, watched.
     *
     * @param watcher is told what each round of negotiation left
     */
    public static Bus of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Aim aim,
            Optional<Consumer<Round>> watcher,
            Progress progress) {
        List<Net> toServe = new ArrayList<>();
        List<Integer> mayTake = new ArrayList<>(pads);
        List<Left> there = new ArrayList<>();
        for (Net net : nets) {
            Optional<Integer> on = padOn(design, net, pads);
            if (on.isPresent()) {
                mayTake.remove(on.get());
                there.add(new Left(net, "it is on " + padName(design, on.get()) + " already"));
            } else {
                toServe.add(net);
            }
        }
        Bus bus = serve(design, toServe, mayTake, aim, watcher, progress);
        there.addAll(bus.left());
        return new Bus(bus.lines(), there, bus.edits(), bus.alonePs());
    }

    private static Optional<Integer> padOn(Design design, Net net, List<Integer> pads) {
        return pads.stream()
                .filter(
                        p ->
                                net.route().placeOf(design.fabric().pads().get(p).vertex())
                                        != Fabric.NOTHING)
                .findFirst();
    }

    private static Bus serve(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Aim aim,
            Optional<Consumer<Round>> watcher,
            Progress progress) {
        int[][] costs = new int[nets.size()][pads.size()];
        List<Map<Integer, Answer>> alone = new ArrayList<>();
        for (int i = 0; i < nets.size(); i++) {
            progress.report((double) i / nets.size(), "pricing " + nets.get(i).name());
            Map<Integer, Answer> byPad = new HashMap<>();
            Survey.of(design, nets.get(i), Corner.SLOW, Engine.OWN, progress)
                    .answers()
                    .forEach(a -> byPad.put(a.question().pad(), a));
            alone.add(byPad);
            for (int j = 0; j < pads.size(); j++) {
                costs[i][j] =
                        byPad.get(pads.get(j)) instanceof Answer.Open open
                                ? open.way().total().slowPs()
                                : Matching.NONE;
            }
        }
        int[] choice =
                switch (aim) {
                    case SUM -> Matching.leastSum(costs);
                    case WORST -> Matching.leastWorst(costs);
                    case SKEW -> Matching.leastSpread(costs);
                    case ORDER -> Matching.inOrder(costs);
                };
        return lay(design, nets, pads, costs, choice, alone, watcher, progress);
    }

    private static Bus lay(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            int[][] costs,
            int[] choice,
            List<Map<Integer, Answer>> alone,
            Optional<Consumer<Round>> watcher,
            Progress progress) {
        List<Edit> edits = new ArrayList<>();
        List<Left> left = new ArrayList<>();
        List<Integer> served = new ArrayList<>();
        long alonePs = 0;
        for (int i = 0; i < nets.size(); i++) {
            if (choice[i] == Matching.NONE) {
                left.add(new Left(nets.get(i), whyNoPad(alone.get(i), pads)));
                continue;
            }
            served.add(i);
            PortBranch.find(design, pads.get(choice[i]))
                    .map(LetGo::toEdit)
                    .filter(e -> !edits.contains(e))
                    .ifPresent(edits::add);
        }
        Design freed = Trial.of(design, edits);
        List<RouteJob> jobs = new ArrayList<>();
        for (int i : served) {
            jobs.add(job(freed, nets.get(i), pads.get(choice[i])));
        }
        List<Net> routed = served.stream().map(nets::get).toList();
        Optional<Consumer<RoutingRound>> rounds =
                watcher.map(w -> round -> w.accept(new Round(routed, round)));
        List<Optional<RouteTree>> trees =
                new NegotiatedRouter(design.fabric(), closed(freed), rounds)
                        .route(jobs, ROUNDS, progress);
        List<Line> lines = new ArrayList<>();
        Design now = freed;
        for (int k = 0; k < served.size(); k++) {
            Net net = nets.get(served.get(k));
            int pad = pads.get(choice[served.get(k)]);
            Optional<Line> line = trees.get(k).flatMap(t -> line(freed, net, pad, t));
            if (line.isEmpty()) {
                left.add(new Left(net, "no way to " + padName(design, pad) + " beside the others"));
                continue;
            }
            lines.add(line.get());
            alonePs += costs[served.get(k)][choice[served.get(k)]];
            Edit edit = Keeping.breakOut(now, line.get());
            now = Trial.of(now, List.of(edit));
            edits.add(edit);
        }
        return new Bus(lines, left, edits, alonePs);
    }

    private static String padName(Design design, int pad) {
        return "pad " + design.fabric().pads().get(pad).name();
    }

    private static String whyNoPad(Map<Integer, Answer> byPad, List<Integer> pads) {
        long open = pads.stream().filter(p -> byPad.get(p) instanceof Answer.Open).count();
        if (open > 0) {
            return "all " + open + " pads that it reaches are taken by the others";
        }
        long blocked = pads.stream().filter(p -> byPad.get(p) instanceof Answer.Blocked).count();
        return blocked > 0
                ? "no pad is open to it; blocked are " + blocked + ", ask tells by what"
                : "it has no way to any of the pads";
    }

    private static RouteJob job(Design design, Net net, int pad) {
        Net now = design.findNet(net.name()).orElseThrow();
        int goal = design.fabric().pads().get(pad).vertex();
        return RouteJob.from(design.fabric(), now.route(), Corner.SLOW, goal);
    }

    /** What no way may enter: what is held, and pads, which are only to be ends. */
    private static BitSet closed(Design design) {
        BitSet closed = (BitSet) design.occupancy().bits().clone();
        design.fabric().pads().forEach(p -> closed.set(p.vertex()));
        return closed;
    }

    /** A line's way; empty when it uses what the net itself closes. */
    private static Optional<Line> line(Design freed, Net net, int pad, RouteTree tree) {
        Fabric fabric = freed.fabric();
        Net now = freed.findNet(net.name()).orElseThrow();
        List<Integer> reversed = new ArrayList<>();
        int goal = fabric.pads().get(pad).vertex();
        for (int p = tree.placeOf(goal); p != Fabric.NOTHING; p = tree.parent(p)) {
            reversed.add(tree.vertex(p));
            if (now.route().placeOf(tree.vertex(p)) != Fabric.NOTHING) {
                break;
            }
        }
        int[] path = new int[reversed.size()];
        for (int i = 0; i < path.length; i++) {
            path[i] = reversed.get(path.length - 1 - i);
        }
        Question question = new Question(freed, now, pad, Corner.SLOW);
        Situation situation = new Situation(freed, now, Optional.empty());
        for (int i = 1; i < path.length; i++) {
            boolean shut =
                    situation.closed().get(path[i])
                            || i < path.length - 1 && fabric.kind(path[i]) == VertexKind.PAD;
            if (shut) {
                return Optional.empty();
            }
        }
        Way way = new WayBuilder(question, situation).build(new Path(path), Optional.empty());
        return Optional.of(new Line(now, pad, way));
    }

    /**
     * How far apart two lines' signals arrive at the most.
     *
     * @param one a line
     * @param other another
     * @param fastPs difference at the fast corner, ps
     * @param slowPs difference at the slow corner, ps
     * @param acrossPs difference when one is fast and the other slow, whichever is worse, ps
     */
    public record Skew(Line one, Line other, int fastPs, int slowPs, int acrossPs) {}

    /** All pairs of lines, the worst across corners first. */
    public List<Skew> skews() {
        List<Skew> result = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            for (int j = i + 1; j < lines.size(); j++) {
                Delay a = lines.get(i).way().total();
                Delay b = lines.get(j).way().total();
                result.add(
                        new Skew(
                                lines.get(i),
                                lines.get(j),
                                Math.abs(a.fastPs() - b.fastPs()),
                                Math.abs(a.slowPs() - b.slowPs()),
                                Math.max(a.slowPs() - b.fastPs(), b.slowPs() - a.fastPs())));
            }
        }
        result.sort((x, y) -> Integer.compare(y.acrossPs(), x.acrossPs()));
        return result;
    }

    /** The pad of a line. */
    public static Pad padOf(Design design, Line line) {
        return design.fabric().pads().get(line.pad());
    }
}
