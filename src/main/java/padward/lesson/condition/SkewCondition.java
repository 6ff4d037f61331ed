package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.search.SearchEngineKind;

/**
 * Nets are brought out and kept, and arrive at their pins close together, at each corner
 * separately.
 *
 * @param nets their names, at least two
 * @param maxPs largest difference allowed between any two of them, picoseconds
 */
public record SkewCondition(List<String> nets, int maxPs) implements Condition {
    /** Copies the nets. */
    public SkewCondition {
        nets = List.copyOf(nets);
    }

    @Override
    public boolean isFulfilled(WindowState state) {
        List<Delay> arrivals = arrivals(state);
        return arrivals.size() == nets.size()
                && spread(arrivals, Corner.FAST) <= maxPs
                && spread(arrivals, Corner.SLOW) <= maxPs;
    }

    /** The delays at the pins of those nets that are brought out. */
    private List<Delay> arrivals(WindowState state) {
        List<Delay> result = new ArrayList<>();
        if (state.kept().isEmpty()) {
            return result;
        }
        Asker asker = new Asker(state.now().fabric(), SearchEngineKind.OWN);
        for (String name : nets) {
            for (LedgerEntry kept : state.kept()) {
                if (kept.net().equals(name)) {
                    arrival(asker, state.now(), name, kept.pad()).ifPresent(result::add);
                    break;
                }
            }
        }
        return result;
    }

    private static Optional<Delay> arrival(Asker asker, Design design, String name, String pad) {
        Optional<Net> net = design.findNet(name);
        List<Integer> at = Condition.pads(design, pad);
        if (net.isEmpty() || at.size() != 1 || !feeds(design, net.get(), at.get(0))) {
            return Optional.empty();
        }
        Answer answer =
                asker.answer(
                        new Question(design, net.get(), at.get(0), Corner.SLOW), Progress.NONE);
        return answer instanceof Answer.FreeRoute open
                ? Optional.of(open.route().total())
                : Optional.empty();
    }

    private static boolean feeds(Design design, Net net, int pad) {
        return net.sinks().stream()
                .anyMatch(
                        s ->
                                s instanceof Terminal.PortEnd end
                                        && end.role() == Terminal.PortEnd.Role.PAD
                                        && design.ports().get(end.port()).pad() == pad);
    }

    private static int spread(List<Delay> delays, Corner corner) {
        int most = delays.stream().mapToInt(d -> d.at(corner)).max().orElse(0);
        int least = delays.stream().mapToInt(d -> d.at(corner)).min().orElse(0);
        return most - least;
    }

    @Override
    public String toText() {
        return "brought out and kept: "
                + String.join(", ", nets)
                + ", at most "
                + maxPs
                + " ps apart at each corner";
    }

    @Override
    public Optional<String> seen(WindowState state) {
        List<Delay> arrivals = arrivals(state);
        if (arrivals.size() < nets.size()) {
            return Optional.of(
                    arrivals.size()
                            + " of "
                            + nets.size()
                            + " nets have been brought out and kept");
        }
        return Optional.of(
                "they are "
                        + spread(arrivals, Corner.FAST)
                        + " ps apart at the fast corner, "
                        + spread(arrivals, Corner.SLOW)
                        + " ps at the slow one");
    }

    @Override
    public List<Missing> missing(Design design) {
        return Condition.missing(design, nets, List.of());
    }
}
