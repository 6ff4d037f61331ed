package padward.lesson.exercise;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.breakout.survey.PadRank;
import padward.breakout.survey.Survey;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.board.Attachment;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;

/** "Which pad is the cheapest?": the first of several pads in the order of the survey. */
final class PadExercise {
    private static final int MOST_PADS = 600;

    private final Design design;
    private final Fabric fabric;
    private final Random random;
    private final Difficulty difficulty;
    private final Progress progress;

    PadExercise(Design design, Random random, Difficulty difficulty, Progress progress) {
        this.design = design;
        this.fabric = design.fabric();
        this.random = random;
        this.difficulty = difficulty;
        this.progress = progress;
    }

    /** The exercise about a net; empty when its pads cost the same. */
    Optional<Exercise> make(Net net, long seed) {
        if (fabric.pads().size() > MOST_PADS) {
            return Optional.empty();
        }
        List<Answer> ranked =
                Survey.of(design, net, Corner.SLOW, SearchEngineKind.OWN, progress)
                        .answers()
                        .stream()
                        .filter(a -> !(a instanceof Answer.NoRoute))
                        .toList();
        int count = difficulty.choices();
        if (ranked.size() < count) {
            return Optional.empty();
        }
        int best = random.nextInt(ranked.size() - count + 1);
        List<Answer> later = new ArrayList<>();
        for (Answer other : ranked.subList(best + 1, ranked.size())) {
            if (!sameCost(ranked.get(best), other)) {
                later.add(other);
            }
        }
        if (later.size() < count - 1) {
            return Optional.empty();
        }
        if (difficulty != Difficulty.HARD) {
            Collections.shuffle(later, random);
        }
        List<Answer> choices = new ArrayList<>(later.subList(0, count - 1));
        choices.add(ranked.get(best));
        Collections.shuffle(choices, random);
        return Optional.of(exercise(net, ranked, choices, choices.indexOf(ranked.get(best)), seed));
    }

    private static boolean sameCost(Answer one, Answer other) {
        return PadRank.of(one).grade() == PadRank.of(other).grade()
                && oddVoltage(one) == oddVoltage(other)
                && Survey.functionCost(one) == Survey.functionCost(other)
                && obstacles(one) == obstacles(other)
                && route(one).total().slowPs() == route(other).total().slowPs();
    }

    private static boolean oddVoltage(Answer answer) {
        return DriverFit.of(answer.question()).conflict().isPresent();
    }

    private static int obstacles(Answer answer) {
        return answer instanceof Answer.Blocked blocked ? blocked.obstacles().size() : 0;
    }

    private static Route route(Answer answer) {
        return answer.findRoute().orElseThrow();
    }

    private Exercise exercise(
            Net net, List<Answer> ranked, List<Answer> choices, int right, long seed) {
        List<String> names = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        for (Answer answer : choices) {
            names.add(answer.question().padValue().name());
            remarks.add(difficulty == Difficulty.HARD ? "" : remark(answer));
        }
        List<String> truth =
                ranked.stream()
                        .filter(choices::contains)
                        .map(a -> a.question().padValue().name() + ": " + costText(a))
                        .toList();
        int root = net.route().root();
        List<String> facts = new ArrayList<>();
        facts.add(
                "From the cheapest pad to the most expensive: free with a place for a lead; free; a port"
                        + " loses it and nothing listens; its obstacles are not removable; something"
                        + " on the board follows; something drives it. Within these: one whose"
                        + " bank's voltages agree; one where the design loses the least; one with"
                        + " the fewest obstacles; one with the shortest delay at the slow corner.");
        facts.add("The net's driver is in tile " + fabric.tileName(fabric.tile(root)) + ".");
        return new Exercise(
                ExerciseKind.PAD,
                difficulty,
                seed,
                net.name(),
                "On which of these pads is it cheapest to bring out net " + net.name() + "?",
                facts,
                new Exercise.Truth.OneOf(names, remarks, right),
                "In order: " + String.join("; ", truth) + ".");
    }

    /** What is known about a pad without a search. */
    private String remark(Answer answer) {
        int index = answer.question().pad();
        Pad pad = answer.question().padValue();
        List<String> parts = new ArrayList<>();
        design.findPortOn(index).map(Port::name).ifPresent(p -> parts.add("port " + p));
        design.board()
                .findWiring(index)
                .ifPresent(
                        w -> w.attachments().stream().map(Attachment::toText).forEach(parts::add));
        if (pad.dataSite() >= 0) {
            design.occupancy()
                    .findCellOn(pad.dataSite())
                    .ifPresent(c -> parts.add("IO register site used by " + c.name()));
        }
        return parts.isEmpty()
                ? "no port, nothing on the board, IO register site free"
                : String.join(", ", parts);
    }

    private static String wouldLose(Answer answer) {
        int ends =
                answer instanceof Answer.Blocked blocked
                        ? blocked.obstacles().stream()
                                .filter(o -> !o.removable())
                                .mapToInt(o -> o.wouldLose())
                                .sum()
                        : 0;
        return ends
                + (ends == 1
                        ? " endpoint would lose its signal"
                        : " endpoints would lose their signal");
    }

    private static String costText(Answer answer) {
        List<String> parts = new ArrayList<>();
        parts.add(PadRank.of(answer).reason());
        if (oddVoltage(answer)) {
            parts.add("voltages in its bank do not agree");
        }
        boolean removable =
                answer instanceof Answer.Blocked blocked
                        && blocked.obstacles().stream().allMatch(Obstacle::removable);
        int obstacles = obstacles(answer);
        if (obstacles > 0) {
            parts.add(
                    obstacles
                            + (obstacles == 1 ? " obstacle, " : " obstacles, ")
                            + (removable ? "removable" : "not removable, " + wouldLose(answer)));
        }
        parts.add(route(answer).total().toText());
        return String.join(", ", parts);
    }
}
