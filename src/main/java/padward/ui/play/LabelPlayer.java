package padward.ui.play;

import it.unimi.dsi.fastutil.ints.Int2ObjectLinkedOpenHashMap;
import java.util.List;
import java.util.stream.Collectors;
import padward.breakout.text.WhyText;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.lesson.recording.LabelStep;
import padward.lesson.recording.PlayedLabels;
import padward.ui.scene.Overlay;

/** Plays the search for the fewest obstacles, label by label; people count labels looked at. */
final class LabelPlayer implements Player {
    private final Fabric fabric;
    private final PlayedLabels played;
    private int done;

    LabelPlayer(Fabric fabric, PlayedLabels played) {
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
        while (at < size() && played.step(at).event() != LabelStep.Event.TAKEN) {
            at++;
        }
        return Math.min(size(), at + 1);
    }

    @Override
    public int previous() {
        int at = done - 2;
        while (at >= 0 && played.step(at).event() != LabelStep.Event.TAKEN) {
            at--;
        }
        return Math.max(0, at + 1);
    }

    @Override
    public String told() {
        if (done == 0) {
            return "Before the first label. The search sets out from the "
                    + (played.setOutFromNet() ? "net" : "pad")
                    + "; cuts show that at least "
                    + played.atLeastByCuts()
                    + " must go.";
        }
        LabelStep step = played.step(done - 1);
        String label = fabric.vertexName(step.vertex()) + " with " + set(step.freed());
        return switch (step.event()) {
            case MADE -> "A label waits: " + label + ".";
            case DROPPED -> "Not needed: " + label + "; a smaller set, or the same, is there.";
            case TAKEN -> "Looks at " + label + ".";
            case ARRIVED -> "Arrived: freeing " + set(step.freed()) + " opens a way.";
        };
    }

    private static String set(List<Occupant> freed) {
        return freed.isEmpty()
                ? "nothing freed"
                : freed.stream().map(WhyText::who).collect(Collectors.joining(" and "));
    }

    @Override
    public Overlay overlay() {
        // The smallest set at each vertex so far.
        Int2ObjectLinkedOpenHashMap<LabelStep> labels = new Int2ObjectLinkedOpenHashMap<>();
        for (int i = 0; i < done; i++) {
            LabelStep step = played.step(i);
            if (step.event() != LabelStep.Event.DROPPED) {
                LabelStep before = labels.get(step.vertex());
                if (before == null || step.freed().size() <= before.freed().size()) {
                    labels.put(step.vertex(), step);
                }
            }
        }
        int last = done == 0 ? Fabric.NOTHING : played.step(done - 1).vertex();
        return new LabelPainter(List.copyOf(labels.values()), last);
    }
}
