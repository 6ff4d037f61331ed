package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import padward.base.Progress;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.Pad;
import padward.route.negotiate.RoutingRound;

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
     * @param route its route
     */
    public record Line(Net net, int pad, Route route) {
        /** The edit that brings the line out, on a design that has the others already. */
        Edit breakOut(Design design) {
            return AnswerEdits.breakOut(new Question(design, net, pad, Corner.SLOW), route);
        }
    }

    /**
     * A net that is not served.
     *
     * @param net the net
     * @param reason why, as a clause
     * @param couldBeUnblocked whether freeing occupants could help
     */
    public record Left(Net net, String reason, boolean couldBeUnblocked) {}

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
        return lines.stream().mapToLong(l -> l.route().total().slowPs()).sum();
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
        return RouteMatrix.of(design, nets, pads, aim, progress).route(Map.of(), watcher, progress);
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
                Delay a = lines.get(i).route().total();
                Delay b = lines.get(j).route().total();
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
