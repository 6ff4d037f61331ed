package padward.watch.request;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Listing;
import padward.base.Progress;
import padward.watch.answer.WatchText;
import padward.watch.circuit.Circuit;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;

/**
 * A circuit that shows several nets, one at a time, made smaller until it fits: with the first of
 * its nets only.
 *
 * @param request the circuit, with the names of the nets that are left
 * @param of how many nets were asked for
 * @param unregistered whether a register before the pad had to be left out as well
 * @param placed where it fits
 */
public record ReducedRequest(
        CircuitRequest request, int of, boolean unregistered, WatchResult.Placed placed) {
    /** How long is looked, whatever the circuit and the design. */
    private static final long MOST_MILLIS = 5_000;

    /** Fewer than these leave nothing to choose from. */
    private static final int FEWEST = 2;

    /**
     * The largest number of the nets, in their order, that was found to fit; where none is, the
     * same without a register before the pad. The number is halved in on: a number that does not
     * fit is taken to rule out all larger ones. At most eight circuits are tried, in some seconds.
     *
     * @param asked the circuit that does not fit
     * @param question the question that was answered with that
     * @throws BadInput when the request names what is not there
     * @throws CancellationException when {@code progress} says so
     */
    public static Optional<ReducedRequest> find(
            CircuitRequest asked, WatchQuestion question, Progress progress) throws BadInput {
        if (!asked.sort().showsOneAtATime()) {
            return Optional.empty();
        }
        List<String> nets = asked.watched(question.design());
        Progress limited = progress.within(MOST_MILLIS);
        Optional<ReducedRequest> found = largest(asked, false, nets, question, limited);
        Optional<CircuitRequest> less = asked.smaller();
        if (found.isEmpty() && less.isPresent()) {
            found = largest(less.get(), true, nets, question, limited);
        }
        progress.check();
        return found;
    }

    private static Optional<ReducedRequest> largest(
            CircuitRequest asked,
            boolean unregistered,
            List<String> nets,
            WatchQuestion question,
            Progress limited)
            throws BadInput {
        Optional<ReducedRequest> best = Optional.empty();
        int fits = FEWEST - 1;
        int tooMany = nets.size();
        try {
            while (tooMany - fits > 1) {
                int count = (fits + tooMany) / 2;
                CircuitRequest first = asked.withNets(nets.subList(0, count));
                Circuit circuit = first.circuit(question.design());
                if (WatchPlacer.place(question.with(circuit), limited)
                        instanceof WatchResult.Placed placed) {
                    best =
                            Optional.of(
                                    new ReducedRequest(first, nets.size(), unregistered, placed));
                    fits = count;
                } else {
                    tooMany = count;
                }
            }
            return best;
        } catch (CancellationException late) {
            return best; // what was found until then does fit
        }
    }

    /** That it fits, as a sentence. */
    public String text() {
        Circuit circuit = placed.question().circuit();
        List<String> by = request.steer();
        return (unregistered ? "Without a register before the pad, and with " : "With ")
                + "only the first "
                + request.nets().size()
                + " of the "
                + of
                + " nets"
                + (by.isEmpty() ? "" : ", chosen by " + Listing.all(by) + ",")
                + " it fits: "
                + WatchText.cells(circuit)
                + (unregistered ? ", and the pin shows glitches." : ".");
    }
}
