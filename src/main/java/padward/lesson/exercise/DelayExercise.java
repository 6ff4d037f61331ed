package padward.lesson.exercise;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/** "Estimate the delay": from the driver to a pin, over the free route with the shortest delay. */
final class DelayExercise {
    private static final int LEAST_HOPS = 4;

    private final Design design;
    private final Fabric fabric;
    private final Asker asker;
    private final Difficulty difficulty;
    private final Progress progress;

    DelayExercise(Design design, Asker asker, Difficulty difficulty, Progress progress) {
        this.design = design;
        this.fabric = design.fabric();
        this.asker = asker;
        this.difficulty = difficulty;
        this.progress = progress;
    }

    /** The exercise about a net and a pad; empty when no free route leads there. */
    Optional<Exercise> make(Net net, int pad, long seed) {
        Question question = new Question(design, net, pad, Corner.SLOW);
        if (!(asker.answer(question, progress) instanceof Answer.FreeRoute open)
                || open.route().hops().size() < LEAST_HOPS) {
            return Optional.empty();
        }
        Route route = open.route();
        int truth = route.total().slowPs();
        return Optional.of(
                new Exercise(
                        ExerciseKind.DELAY,
                        difficulty,
                        seed,
                        net.name(),
                        "Net "
                                + net.name()
                                + " is brought out on pad "
                                + question.padValue().name()
                                + " over the free route with the shortest delay. How many nanoseconds"
                                + " after its driver does the signal arrive at the pin, at the slow"
                                + " corner?",
                        facts(route),
                        new Exercise.Truth.About(
                                truth, (int) Math.ceil(truth * difficulty.tolerance())),
                        sum(route)));
    }

    private List<String> facts(Route route) {
        List<String> facts = new ArrayList<>();
        switch (difficulty) {
            case EASY -> route.hops().stream().skip(1).forEach(h -> facts.add(named(h)));
            case MEDIUM -> {
                facts.add(
                        "The route: "
                                + String.join(", ", route.hops().stream().map(Hop::name).toList()));
                facts.addAll(byKind(route));
            }
            default -> {
                Hop first = route.hops().get(0);
                Hop last = route.hops().get(route.hops().size() - 1);
                facts.add("From tile " + first.tile() + " to tile " + last.tile() + ".");
                facts.addAll(byKind(route));
            }
        }
        route.setting()
                .ifPresent(
                        s ->
                                facts.add(
                                        String.format(
                                                Locale.ROOT,
                                                "The pad's driver, with setting %s, takes %.3f ns.",
                                                s.name(),
                                                s.delay().slowPs() / 1000.0)));
        return facts;
    }

    private static String named(Hop hop) {
        return String.format(
                Locale.ROOT,
                "To %s through a %s: %.3f ns.",
                hop.name(),
                hop.edge().map(e -> e.label()).orElse("driver"),
                hop.step().slowPs() / 1000.0);
    }

    /** The shortest and the longest delay of each kind of hop on this route. */
    private List<String> byKind(Route route) {
        Map<String, int[]> ranges = new LinkedHashMap<>();
        for (Hop hop : route.hops().subList(1, route.hops().size())) {
            String wire = fabric.wireKind(hop.vertex());
            String kind =
                    hop.edge().map(e -> e.label()).orElse("")
                            + " into a "
                            + (wire.isEmpty()
                                    ? hop.kind().name().toLowerCase(Locale.ROOT)
                                    : "wire of kind " + wire);
            int ps = hop.step().slowPs();
            int[] range = ranges.computeIfAbsent(kind, k -> new int[] {ps, ps});
            range[0] = Math.min(range[0], ps);
            range[1] = Math.max(range[1], ps);
        }
        List<String> result = new ArrayList<>();
        ranges.forEach(
                (kind, range) ->
                        result.add(
                                range[0] == range[1]
                                        ? String.format(
                                                Locale.ROOT,
                                                "A %s takes %.3f ns.",
                                                kind,
                                                range[0] / 1000.0)
                                        : String.format(
                                                Locale.ROOT,
                                                "A %s takes %.3f to %.3f ns.",
                                                kind,
                                                range[0] / 1000.0,
                                                range[1] / 1000.0)));
        return result;
    }

    private static String sum(Route route) {
        List<String> parts = new ArrayList<>();
        route.hops().stream()
                .skip(1)
                .forEach(
                        h ->
                                parts.add(
                                        String.format(
                                                Locale.ROOT, "%.3f", h.step().slowPs() / 1000.0)));
        int driver = route.total().slowPs() - route.toPadVertex().slowPs();
        parts.add(String.format(Locale.ROOT, "%.3f for the pad's driver", driver / 1000.0));
        return "The hops add up: " + String.join(" + ", parts) + " ns.";
    }
}
