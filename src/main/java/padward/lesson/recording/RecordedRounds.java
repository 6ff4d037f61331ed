package padward.lesson.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.design.Design;
import padward.design.Net;

/**
 * A group of nets brought out together, with the recorded rounds of their negotiation: at least one
 * round, unless no net found a pad.
 *
 * @param bus the result
 * @param rounds the rounds, in order
 */
public record RecordedRounds(Bus bus, List<Bus.Round> rounds) {
    /** Copies the rounds. */
    public RecordedRounds {
        rounds = List.copyOf(rounds);
    }

    /**
     * Brings the nets out and records the rounds.
     *
     * @param pads indices of the pads that may be used
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RecordedRounds of(
            Design design, List<Net> nets, List<Integer> pads, Progress progress) {
        List<Bus.Round> rounds = new ArrayList<>();
        Bus bus =
                Bus.of(
                        design,
                        nets,
                        pads,
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        Optional.of(rounds::add),
                        progress);
        return new RecordedRounds(bus, rounds);
    }
}
