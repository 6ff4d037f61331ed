package padward.lesson.exercise;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.Asker;
import padward.breakout.survey.PadReachability;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Pad;
import padward.route.search.SearchEngineKind;

/**
 * Makes any number of exercises about one design, each from its seed, none from a list. Not
 * thread-safe.
 */
public final class ExerciseMaker {
    private static final int TRIES = 300;

    private final Design design;
    private final Asker asker;
    private final List<Net> nets;

    /** A maker of exercises about a design. O(vertices). */
    public ExerciseMaker(Design design) {
        this.design = design;
        this.asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        PadReachability outlets = PadReachability.of(design);
        this.nets = design.nets().stream().filter(n -> !n.clock() && outlets.leadOutOf(n)).toList();
    }

    /**
     * Makes an exercise.
     *
     * @return empty when no exercise of that kind can be made: no used sites, no free pads
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<Exercise> make(
            ExerciseKind kind, Difficulty difficulty, long seed, Progress progress) {
        Random random = new Random(seed * 31 + kind.ordinal());
        if (nets.isEmpty() || design.fabric().pads().isEmpty()) {
            return Optional.empty();
        }
        int tries = kind == ExerciseKind.PAD ? TRIES / 10 : TRIES;
        for (int i = 0; i < tries; i++) {
            progress.check();
            Net net = nets.get(random.nextInt(nets.size()));
            Optional<Exercise> made =
                    switch (kind) {
                        case SITE ->
                                new SiteExercise(design, asker, random, difficulty, progress)
                                        .make(net, padFor(random), seed);
                        case PAD ->
                                new PadExercise(design, random, difficulty, progress)
                                        .make(net, seed);
                        case DELAY ->
                                new DelayExercise(design, asker, difficulty, progress)
                                        .make(net, random.nextInt(padCount()), seed);
                    };
            if (made.isPresent()) {
                return made;
            }
        }
        return Optional.empty();
    }

    private int padCount() {
        return design.fabric().pads().size();
    }

    /** Prefers pads that the design uses, as blocked ones are found there; a few tries find one. */
    private int padFor(Random random) {
        int pad = random.nextInt(padCount());
        for (int i = 0; i < 20 && !hasUsedSite(pad); i++) {
            pad = random.nextInt(padCount());
        }
        return pad;
    }

    private boolean hasUsedSite(int index) {
        Pad pad = design.fabric().pads().get(index);
        return pad.dataSite() >= 0
                && pad.directions().canDrive()
                && design.occupancy().findCellOn(pad.dataSite()).isPresent();
    }
}
