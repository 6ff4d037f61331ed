package padward.ui.play;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.breakout.group.Bus;
import padward.lesson.recording.RecordedRounds;
import padward.route.negotiate.RoutingRound;
import padward.ui.scene.MapOverlay;

/** Plays the rounds in which several nets negotiate for wires. */
final class NegotiationPlayer implements StepPlayer {
    private final RecordedRounds played;
    private int done;

    NegotiationPlayer(RecordedRounds played) {
        this.played = played;
    }

    @Override
    public int done() {
        return done;
    }

    @Override
    public int size() {
        return played.rounds().size();
    }

    @Override
    public void goTo(int steps) {
        done = Math.max(0, Math.min(size(), steps));
    }

    @Override
    public String text() {
        if (size() == 0) {
            return "No net found a pad; there was nothing to negotiate.";
        }
        if (done == 0) {
            return "Before the first round: one after the other, each net will take its cheapest route.";
        }
        Bus.Round round = played.rounds().get(done - 1);
        RoutingRound values = round.round();
        String routed =
                values.routed().stream()
                        .map(i -> round.nets().get(i).name())
                        .collect(Collectors.joining(", "));
        long shared = values.sharedCount();
        return "Round "
                + values.number()
                + (values.number() == 1 ? ": routed " : ": rerouted ")
                + (routed.isEmpty() ? "nothing" : routed)
                + ". "
                + (shared == 0
                        ? "No wire is shared any more."
                        : shared
                                + (shared == 1
                                        ? " vertex is shared and becomes more expensive."
                                        : " vertices are shared and become more expensive."));
    }

    @Override
    public MapOverlay overlay() {
        Optional<Bus.Round> round =
                done == 0 ? Optional.empty() : Optional.of(played.rounds().get(done - 1));
        List<RoutingRound.PricedVertex> priced =
                round.map(r -> r.round().priced()).orElse(List.of());
        return new NegotiationPainter(round, priced);
    }
}
