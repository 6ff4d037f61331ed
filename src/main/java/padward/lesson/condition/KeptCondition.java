package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Question;
import padward.breakout.survey.Survey;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;

/**
 * A change that brings a net out is kept; an empty member matches anything.
 *
 * @param net the net's name
 * @param pads the pads allowed, by any of their names; empty for any pad
 * @param hazardous whether something else may drive the pad in the original design
 */
public record KeptCondition(Optional<String> net, List<String> pads, Optional<Boolean> hazardous)
        implements Condition {
    /** Copies the pads. */
    public KeptCondition {
        pads = List.copyOf(pads);
    }

    @Override
    public boolean isFulfilled(WindowState state) {
        return state.kept().stream().anyMatch(k -> fits(k, state.original()));
    }

    private boolean fits(LedgerEntry kept, Design original) {
        List<Integer> pad = Condition.pads(original, kept.pad());
        boolean amongPads =
                pads.isEmpty()
                        || pads.stream().anyMatch(p -> Condition.pads(original, p).equals(pad));
        return net.map(kept.net()::equals).orElse(true)
                && amongPads
                && hazardous.map(h -> isHazardous(kept, pad, original) == h).orElse(true);
    }

    private static boolean isHazardous(LedgerEntry kept, List<Integer> pad, Design original) {
        Optional<Net> net = original.findNet(kept.net());
        return net.isPresent()
                && pad.size() == 1
                && Survey.hazardous(new Question(original, net.get(), pad.get(0), Corner.SLOW));
    }

    @Override
    public String toText() {
        List<String> parts = new ArrayList<>();
        parts.add(net.map(n -> "net " + n).orElse("a net"));
        if (!pads.isEmpty()) {
            parts.add("on " + String.join(" or ", pads));
        }
        hazardous.ifPresent(
                h ->
                        parts.add(
                                h
                                        ? "where something else may drive the pad"
                                        : "where nothing else drives the pad"));
        return "brought out and kept: " + String.join(" ", parts);
    }

    @Override
    public Optional<String> seen(WindowState state) {
        if (state.kept().isEmpty()) {
            return Optional.of("nothing has been kept");
        }
        List<String> all = state.kept().stream().map(k -> k.net() + " on " + k.pad()).toList();
        return Optional.of("this has been kept: " + String.join("; ", all));
    }

    @Override
    public List<Missing> missing(Design design) {
        return Condition.missing(design, net.stream().toList(), pads);
    }
}
