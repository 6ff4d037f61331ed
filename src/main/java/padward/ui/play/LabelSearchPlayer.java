package padward.ui.play;

import it.unimi.dsi.fastutil.ints.Int2ObjectLinkedOpenHashMap;
import java.util.List;
import java.util.stream.Collectors;
import padward.breakout.text.WhyText;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.lesson.recording.LabelSearchStep;
import padward.lesson.recording.RecordedLabels;
import padward.ui.scene.MapOverlay;

/** Plays the search for the fewest obstacles, label by label; a step is one expanded label. */
final class LabelSearchPlayer implements StepPlayer {
    private final Fabric fabric;
    private final RecordedLabels played;
    private int done;

    LabelSearchPlayer(Fabric fabric, RecordedLabels played) {
        this.fabric = fabric;
        this.played = played;
    }

    @Override
    public int done() {
        return done;
    }

    @Override
    public int size() {
        return played.size();
    }

    @Override
    public void goTo(int steps) {
        done = Math.max(0, Math.min(size(), steps));
    }

    @Override
    public int next() {
        int at = done;
        while (at < size() && played.step(at).event() != LabelSearchStep.Event.TAKEN) {
            at++;
        }
        return Math.min(size(), at + 1);
    }

    @Override
    public int previous() {
        int at = done - 2;
        while (at >= 0 && played.step(at).event() != LabelSearchStep.Event.TAKEN) {
            at--;
        }
        return Math.max(0, at + 1);
    }

    @Override
    public String text() {
        if (done == 0) {
            return "Before the first label. The search starts from the "
                    + (played.startedFromNet() ? "net" : "pad")
                    + "; cuts prove that at least "
                    + played.atLeastByCuts()
                    + (played.atLeastByCuts() == 1 ? " obstacle" : " obstacles")
                    + " must be removed.";
        }
        LabelSearchStep step = played.step(done - 1);
        String label =
                fabric.vertexName(step.vertex()) + " with " + set(step.removed()) + " removed";
        return switch (step.event()) {
            case MADE -> "New label: " + label + ".";
            case DROPPED ->
                    "Dropped: " + label + "; the same set, or a smaller one, is already there.";
            case TAKEN -> "Expands " + label + ".";
            case ARRIVED -> "Arrived: removing " + set(step.removed()) + " opens a route.";
        };
    }

    private static String set(List<Occupant> occupants) {
        return occupants.isEmpty()
                ? "nothing"
                : occupants.stream().map(WhyText::who).collect(Collectors.joining(" and "));
    }

    @Override
    public MapOverlay overlay() {
        // The smallest set so far at each vertex.
        Int2ObjectLinkedOpenHashMap<LabelSearchStep> labels = new Int2ObjectLinkedOpenHashMap<>();
        for (int i = 0; i < done; i++) {
            LabelSearchStep step = played.step(i);
            if (step.event() != LabelSearchStep.Event.DROPPED) {
                LabelSearchStep before = labels.get(step.vertex());
                if (before == null || step.removed().size() <= before.removed().size()) {
                    labels.put(step.vertex(), step);
                }
            }
        }
        int last = done == 0 ? Fabric.NOTHING : played.step(done - 1).vertex();
        return new LabelSearchPainter(List.copyOf(labels.values()), last);
    }
}
