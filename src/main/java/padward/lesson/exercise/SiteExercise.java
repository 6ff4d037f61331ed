package padward.lesson.exercise;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.text.AnswerText;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.unblock.why.Chokepoint;
import padward.unblock.why.SearchLimits;

/**
 * "Which site must be empty?": a used site that every route passes, among used sites that some
 * route avoids.
 */
final class SiteExercise {
    private static final SearchLimits LIMITS = new SearchLimits(200_000, 400, 2, 0);

    private final Design design;
    private final Fabric fabric;
    private final Asker asker;
    private final Random random;
    private final Difficulty difficulty;
    private final Progress progress;

    SiteExercise(
            Design design, Asker asker, Random random, Difficulty difficulty, Progress progress) {
        this.design = design;
        this.fabric = design.fabric();
        this.asker = asker;
        this.random = random;
        this.difficulty = difficulty;
        this.progress = progress;
    }

    /** The exercise about a net and a pad; empty unless exactly one used site is on every route. */
    Optional<Exercise> make(Net net, int pad, long seed) {
        Question question = new Question(design, net, pad, Corner.SLOW);
        if (!(asker.answer(question, progress) instanceof Answer.Blocked)) {
            return Optional.empty();
        }
        Answer answer = asker.explained(question, LIMITS, progress);
        if (!(answer instanceof Answer.Blocked blocked) || blocked.why().isEmpty()) {
            return Optional.empty();
        }
        List<Chokepoint> used =
                blocked.why().get().explanation().chokepoints().stream()
                        .filter(Chokepoint::mustBeRemoved)
                        .toList();
        Set<String> must = used.stream().map(Chokepoint::resource).collect(Collectors.toSet());
        List<Chokepoint> sites =
                used.stream().filter(c -> fabric.findSite(c.resource()) >= 0).toList();
        // The enable's site must be empty too, although no route passes it.
        boolean more = blocked.obstacles().stream().anyMatch(o -> o.hops().isEmpty());
        if (sites.size() != 1 || more) {
            return Optional.empty();
        }
        int right = fabric.findSite(sites.get(0).resource());
        List<Integer> choices = new ArrayList<>(others(right, must));
        if (choices.size() < difficulty.choices() - 1) {
            return Optional.empty();
        }
        choices.add(right);
        Collections.shuffle(choices, random);
        return Optional.of(exercise(blocked, choices, choices.indexOf(right), seed));
    }

    /**
     * Used sites that are not on every route; the harder the exercise, the nearer to the right one.
     */
    private List<Integer> others(int right, Set<String> must) {
        List<Integer> others = new ArrayList<>();
        for (Cell cell : design.cells()) {
            boolean wrong = !must.contains(fabric.site(cell.site()).name());
            if (wrong && cell.site() != right) {
                others.add(cell.site());
            }
        }
        if (difficulty == Difficulty.EASY) {
            Collections.shuffle(others, random);
        } else {
            String kind = fabric.site(right).kind();
            others.sort(
                    Comparator.comparing((Integer s) -> !fabric.site(s).kind().equals(kind))
                            .thenComparingInt(s -> tiles(right, s))
                            .thenComparingInt(s -> s));
        }
        return others.subList(0, Math.min(others.size(), difficulty.choices() - 1));
    }

    private int tiles(int one, int other) {
        int a = fabric.site(one).tile();
        int b = fabric.site(other).tile();
        return Math.abs(fabric.column(a) - fabric.column(b))
                + Math.abs(fabric.row(a) - fabric.row(b));
    }

    private Exercise exercise(Answer.Blocked blocked, List<Integer> choices, int right, long seed) {
        Question question = blocked.question();
        List<String> names = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        for (int site : choices) {
            SiteView view = fabric.site(site);
            names.add(view.name());
            String occupant =
                    design.occupancy().findCellOn(site).map(c -> "used by " + c.name()).orElse("");
            remarks.add(difficulty == Difficulty.HARD ? "" : view.kind() + ", " + occupant);
        }
        List<String> facts = new ArrayList<>();
        if (difficulty == Difficulty.EASY) {
            facts.add(
                    "A route to a pad passes the IO register site before it, in the pad's own tile,"
                            + " unless the fabric has a connection around it.");
        }
        return new Exercise(
                ExerciseKind.SITE,
                difficulty,
                seed,
                question.net().name(),
                "Net "
                        + question.net().name()
                        + " cannot reach pad "
                        + question.padValue().name()
                        + " now. Which of these sites must be empty before it can?",
                facts,
                new Exercise.Truth.OneOf(names, remarks, right),
                AnswerText.explanation(blocked));
    }
}
