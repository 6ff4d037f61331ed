package padward.ui.play;

import java.util.Locale;
import java.util.OptionalInt;
import java.util.function.IntPredicate;
import padward.fabric.Fabric;
import padward.lesson.recording.RecordedQuestion;
import padward.lesson.recording.Recording;
import padward.lesson.recording.RecordingReplay;
import padward.lesson.recording.SearchStep;
import padward.route.cost.ObstacleCost;
import padward.route.search.SearchOutcome;
import padward.ui.scene.MapOverlay;

/** Plays one search of a question; a step is one settled vertex. */
final class SearchPlayer implements StepPlayer {
    /** Number of ticks in which a large search is played. */
    private static final int MAX_TICKS = 300;

    private final Fabric fabric;
    private final RecordedQuestion.Part part;
    private final RecordingReplay replay;

    SearchPlayer(Fabric fabric, RecordedQuestion.Part part) {
        this.fabric = fabric;
        this.part = part;
        this.replay = new RecordingReplay(part.recording());
    }

    RecordingReplay replay() {
        return replay;
    }

    private Recording recording() {
        return part.recording();
    }

    @Override
    public int done() {
        return replay.done();
    }

    @Override
    public int size() {
        return recording().size();
    }

    @Override
    public void goTo(int steps) {
        replay.goTo(steps);
    }

    @Override
    public int next() {
        return find(done(), 1);
    }

    @Override
    public int next(int count) {
        int left = count;
        int at = done();
        while (at < size() && left > 0) {
            if (recording().step(at++) instanceof SearchStep.Settled) {
                left--;
            }
        }
        return at;
    }

    @Override
    public int stride() {
        return Math.max(1, recording().outcome().settled() / MAX_TICKS);
    }

    @Override
    public int previous() {
        return find(Math.max(0, done() - 1), -1);
    }

    /** The moment after the nearest settled vertex, forwards or backwards from a place. */
    private int find(int from, int by) {
        for (int at = from; at >= 0 && at < size(); at += by) {
            boolean here = by > 0 ? at + 1 > done() : at + 1 < done();
            if (here && recording().step(at) instanceof SearchStep.Settled) {
                return at + 1;
            }
        }
        return by > 0 ? size() : 0;
    }

    /** Moves to the moment when a number of vertices are settled, or to an end. */
    void goToSettled(int count) {
        while (replay.settledCount() < count && replay.canGoOn()) {
            replay.forward();
        }
        while (replay.settledCount() > count && replay.done() > 0) {
            replay.back();
        }
    }

    /** The moment after the first step about a vertex that passes a test. */
    OptionalInt first(IntPredicate test) {
        OptionalInt at = recording().firstStep(0, test);
        return at.isPresent() ? OptionalInt.of(at.getAsInt() + 1) : at;
    }

    @Override
    public String text() {
        if (replay.last().isEmpty()) {
            return "Before the first step. The net's own wires will be the first frontier.";
        }
        SearchStep step = replay.last().get();
        String name = fabric.vertexName(step.vertex());
        if (step instanceof SearchStep.Settled settled) {
            return "Settles "
                    + name
                    + " at "
                    + cost(settled.cost())
                    + estimate(settled.ahead())
                    + (replay.canGoOn() ? "." : ". " + end());
        }
        if (step instanceof SearchStep.Reached reached) {
            boolean start = reached.from() == Fabric.NOTHING;
            return (start
                            ? name + " is already on the net: it joins the frontier at "
                            : "From "
                                    + fabric.vertexName(reached.from())
                                    + ", "
                                    + name
                                    + " is reached at ")
                    + cost(reached.cost())
                    + estimate(reached.ahead())
                    + (replay.canGoOn() ? "." : ". " + end());
        }
        return name
                + " may not be entered: "
                + "it is in use, or it belongs to the net itself."
                + (replay.canGoOn() ? "" : " " + end());
    }

    private static String estimate(long ahead) {
        return ahead == 0 ? "" : "; at least " + cost(ahead) + " remain";
    }

    private String end() {
        if (!recording().isWhole()) {
            return "The recording ends here because it has reached its limit; the search continued.";
        }
        SearchOutcome outcome = recording().outcome();
        if (outcome instanceof SearchOutcome.Found found) {
            return "The pad is reached: no cheaper route can exist.";
        }
        return outcome.settled() == 0
                ? "Then a search backwards from the pad showed that nothing free leads there."
                : "The frontier is empty: no route leads to the pad.";
    }

    /** A cost in words: its delay, and how often the route runs into something in use. */
    static String cost(long cost) {
        long stretches = cost / ObstacleCost.PRICE;
        String delay = String.format(Locale.ROOT, "%.3f ns", cost % ObstacleCost.PRICE / 1000.0);
        return stretches == 0
                ? delay
                : delay
                        + " through "
                        + stretches
                        + (stretches == 1 ? " occupied stretch" : " occupied stretches");
    }

    @Override
    public MapOverlay overlay() {
        return new SearchPainter(replay);
    }
}
