package padward.ui.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import padward.design.Design;
import padward.design.NameLookup;
import padward.format.ledger.EntrySigning;
import padward.ui.model.WorkState;
import padward.watch.answer.WatchLines;
import padward.watch.answer.WatchPrice;
import padward.watch.answer.WatchText;
import padward.watch.circuit.Circuit;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;
import padward.watch.request.CircuitRequest;
import padward.watch.request.ReducedRequest;

/**
 * Answers a question about a watch circuit, with all texts that are shown of it. Away from the UI
 * thread.
 *
 * @param on what is open
 * @param request the circuit
 * @param own the files of a circuit of the user's own, if it is one
 * @param pads names of the pads for its outputs
 * @param mayMove whether nets that are there may be rerouted
 */
record WatchAsking(
        WorkState on,
        CircuitRequest request,
        Optional<OwnFiles> own,
        List<String> pads,
        boolean mayMove) {
    private static final String PADS = "--pad";

    /** Copies the names. */
    WatchAsking {
        pads = List.copyOf(pads);
    }

    WatchOutcome answer(Progress progress) {
        try {
            CircuitRequest whole = request;
            if (own.isPresent()) {
                whole = request.with(own.get().read(on.opened().design().fabric(), progress));
            }
            WatchResult result = placed(whole, mayMove, progress);
            return result instanceof WatchResult.Placed placed
                    ? fits(placed)
                    : new WatchOutcome.DoesNotFit(
                            whole,
                            result.question(),
                            WatchText.sentence(result),
                            Optional.empty(),
                            Optional.empty(),
                            Optional.empty());
        } catch (BadInput fault) {
            return new WatchOutcome.Faulty(fault);
        }
    }

    /**
     * What would help a circuit that does not fit: the same answer with that, or, where the run
     * with moves needs none after all, that it fits.
     */
    WatchOutcome withHelp(WatchOutcome.DoesNotFit not, Progress progress) {
        try {
            Optional<String> smaller = smaller(not.request(), progress);
            Optional<WatchResult.Placed> moving = moving(not.question(), progress);
            if (moving.isPresent() && moving.get().moves().isEmpty()) {
                return fits(moving.get());
            }
            return new WatchOutcome.DoesNotFit(
                    not.request(),
                    not.question(),
                    not.sentence(),
                    smaller,
                    ReducedRequest.find(not.request(), not.question(), progress),
                    moving.map(m -> "With other nets and cells moved " + WatchText.fitsMoving(m)));
        } catch (BadInput fault) {
            return new WatchOutcome.Faulty(fault);
        }
    }

    private WatchResult placed(CircuitRequest wanted, boolean moving, Progress progress)
            throws BadInput {
        Design design = on.opened().design();
        Circuit circuit = wanted.circuit(design);
        return WatchPlacer.place(
                new WatchQuestion(design, circuit, indices(design, circuit)).moving(moving),
                progress);
    }

    private List<Integer> indices(Design design, Circuit circuit) throws BadInput {
        int outputs = circuit.outputs().size();
        List<Integer> result = new ArrayList<>();
        for (String name : pads) {
            result.add(NameLookup.requirePad(design, name, PADS));
        }
        if (result.size() != outputs || result.stream().distinct().count() != outputs) {
            String expected =
                    outputs == 1
                            ? "one pad"
                            : outputs
                                    + " different pads, separated by commas, for "
                                    + circuit.outputNames();
            String found = pads.isEmpty() ? "none" : "“" + String.join(", ", pads) + "”";
            throw new BadInput(PADS, "", expected, found);
        }
        return result;
    }

    private Optional<WatchResult.Placed> moving(WatchQuestion question, Progress progress) {
        return !mayMove
                        && WatchPlacer.placeMoving(question, progress)
                                instanceof WatchResult.Placed fits
                ? Optional.of(fits)
                : Optional.empty();
    }

    private Optional<String> smaller(CircuitRequest whole, Progress progress) throws BadInput {
        Optional<CircuitRequest> less = whole.smaller();
        return less.isPresent()
                        && placed(less.get(), mayMove, progress) instanceof WatchResult.Placed fits
                ? Optional.of(
                        "Without a register before the pad it fits: "
                                + WatchText.cells(fits.question().circuit())
                                + ", and the pin shows glitches.")
                : Optional.empty();
    }

    private WatchOutcome fits(WatchResult.Placed placed) {
        Design design = on.opened().design();
        Price price = WatchPrice.of(placed);
        List<String> details = new ArrayList<>(WatchLines.lines(placed));
        details.add(
                "What it costs: "
                        + WatchText.cells(placed.question().circuit())
                        + ". "
                        + PriceText.sentences(price));
        details.addAll(WatchText.cautions(placed));
        WatchResult.Leg first = placed.legs().get(0);
        return new WatchOutcome.Fits(
                on.version(),
                placed,
                WatchText.sentence(placed),
                details,
                price,
                Cautions.ofEdits(design, placed.edits()),
                EntrySigning.unsigned(first.net(), first.pad(), placed.edits())
                        .withNote(placed.question().circuit().function()),
                on.opened().with(placed.design()));
    }
}
