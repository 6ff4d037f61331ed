package padward.breakout.survey;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.NoRouteReason;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;

/**
 * How a net stands with all pads together, for lists of nets: whether it gets out now, could be
 * brought out, or has no route at all, and why.
 *
 * @param open pads that it gets out on now
 * @param takingPort pads that it gets out on now if a port loses them
 * @param blocked pads on which something blocks the route
 * @param fewest obstacles on the best of the blocked routes; 0 when there is none
 * @param reason why there is no route out on any pad; empty when there is one
 */
public record NetObservability(
        int open, int takingPort, int blocked, int fewest, Optional<NoRouteReason> reason) {
    /**
     * Surveys a net and sums up.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static NetObservability of(Design design, Net net, Corner corner, Progress progress) {
        return of(Survey.of(design, net, corner, SearchEngineKind.OWN, progress));
    }

    /** Sums a survey up. */
    public static NetObservability of(Survey survey) {
        int open = 0;
        int takingPort = 0;
        int blocked = 0;
        int fewest = Integer.MAX_VALUE;
        Map<NoRouteReason, Integer> reasons = new EnumMap<>(NoRouteReason.class);
        for (Answer answer : survey.answers()) {
            if (answer instanceof Answer.Open) {
                open++;
            } else if (answer instanceof Answer.TakesPort) {
                takingPort++;
            } else if (answer instanceof Answer.Blocked used) {
                blocked++;
                fewest = Math.min(fewest, used.obstacles().size());
            } else if (answer instanceof Answer.NoRoute none) {
                reasons.merge(none.reason(), 1, Integer::sum);
            }
        }
        Optional<NoRouteReason> reason =
                open + takingPort + blocked > 0 ? Optional.empty() : Optional.of(usual(reasons));
        return new NetObservability(open, takingPort, blocked, blocked > 0 ? fewest : 0, reason);
    }

    /** What holds for most pads; what lies with the pad counts only where nothing else does. */
    private static NoRouteReason usual(Map<NoRouteReason, Integer> reasons) {
        return reasons.entrySet().stream()
                .max(
                        (a, b) -> {
                            int byKind = Boolean.compare(ofTheNet(a), ofTheNet(b));
                            return byKind != 0 ? byKind : a.getValue() - b.getValue();
                        })
                .map(Map.Entry::getKey)
                .orElse(NoRouteReason.NOTHING_LEADS_TO_PAD);
    }

    private static boolean ofTheNet(Map.Entry<NoRouteReason, Integer> entry) {
        return entry.getKey() != NoRouteReason.INPUT_ONLY_PAD
                && entry.getKey() != NoRouteReason.NO_FITTING_SETTING;
    }

    /** The same in a few words. */
    public String toText() {
        if (reason.isPresent()) {
            return "no route: " + words(reason.get());
        }
        if (open > 0) {
            return open + (open == 1 ? " pad open" : " pads open");
        }
        if (takingPort > 0) {
            return "takes a port's pad";
        }
        return "blocked by " + fewest + (fewest == 1 ? " obstacle" : " obstacles");
    }

    private static String words(NoRouteReason reason) {
        return switch (reason) {
            case INPUT_ONLY_PAD -> "all pads are inputs";
            case NO_FITTING_SETTING -> "no driver fits its bank's voltage";
            case OWN_DRIVER_ON_ENABLE -> "its own driver controls the pad's enable";
            case LOCKED -> "needs what is locked";
            case UNUSABLE_ON_ROUTE -> "needs what is unusable";
            case NEVER_LEAVES_ITS_SITE -> "internal to its site";
            case CLOCK_WIRES_ONLY -> "clock wires only";
            case DEDICATED_WIRES -> "dedicated wires only";
            case NOTHING_LEADS_TO_PAD -> "no wire leads to a pad";
            case PAD_OUT_OF_REACH -> "its wires lead to no pad";
            case OWN_PASS_THROUGH -> "its routes need sites that it passes through";
            case SWITCHES_EXCLUDE -> "its routes need switches that exclude each other";
        };
    }
}
