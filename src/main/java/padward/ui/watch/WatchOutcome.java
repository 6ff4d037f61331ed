package padward.ui.watch;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.change.LedgerEntry;
import padward.ui.design.OpenDesign;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;
import padward.watch.request.CircuitRequest;
import padward.watch.request.ReducedRequest;

/** What came of asking for a watch circuit. */
sealed interface WatchOutcome {
    /**
     * It fits, and can be kept.
     *
     * @param version what was open
     * @param result where its cells and wires are
     * @param sentence the answer
     * @param details what it costs and when it shows what, a sentence each
     * @param price what has to be accepted
     * @param cautions about the pads
     * @param entry the change, as it would be kept
     * @param opened the design with it
     */
    record Fits(
            long version,
            WatchResult.Placed result,
            String sentence,
            List<String> details,
            Price price,
            List<Cautions.Shared> cautions,
            LedgerEntry entry,
            OpenDesign opened)
            implements WatchOutcome {
        /** Copies the lists. */
        public Fits {
            details = List.copyOf(details);
            cautions = List.copyOf(cautions);
        }
    }

    /**
     * It does not fit.
     *
     * @param request the circuit, with what its files say
     * @param question the question that was answered
     * @param sentence why not
     * @param smaller what fits without a register, as a sentence; empty when that does not help
     * @param fewer the circuit with the first of its nets only; empty when that does not help
     * @param moving what fits when others are moved, as a sentence; empty when that does not help
     */
    record DoesNotFit(
            CircuitRequest request,
            WatchQuestion question,
            String sentence,
            Optional<String> smaller,
            Optional<ReducedRequest> fewer,
            Optional<String> moving)
            implements WatchOutcome {}

    /**
     * It cannot be asked.
     *
     * @param fault what is wrong with which option
     */
    record Faulty(BadInput fault) implements WatchOutcome {}
}
