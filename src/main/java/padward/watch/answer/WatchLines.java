package padward.watch.answer;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import padward.change.Edit;
import padward.design.Design;
import padward.design.PadNames;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.timing.SinkDelayChange;
import padward.watch.circuit.CircuitElement;
import padward.watch.place.WatchResult;
import padward.watch.place.WatchTiming;

/** What a placed circuit does to the design and when it shows what, a sentence each. */
public final class WatchLines {
    private WatchLines() {}

    /** All of it but the price and the cautions. */
    public static List<String> lines(WatchResult.Placed placed) {
        List<String> result = new ArrayList<>();
        result.add(WatchText.latency(placed.question().circuit()));
        sites(placed).ifPresent(result::add);
        result.addAll(reads(placed));
        branched(placed).ifPresent(result::add);
        for (WatchTiming.Arrival arrival : placed.timing().arrivals()) {
            result.add(
                    "From net "
                            + arrival.net()
                            + " to "
                            + arrival.end()
                            + ": "
                            + arrival.delay().toText()
                            + ".");
        }
        for (WatchTiming.ClockUse clock : placed.timing().clocks()) {
            clock.toPads()
                    .forEach(
                            p ->
                                    result.add(
                                            "From clock "
                                                    + clock.net()
                                                    + " to pad "
                                                    + p.pad()
                                                    + ": "
                                                    + p.delay().toText()
                                                    + "."));
            result.add(clock(clock));
        }
        result.addAll(CircuitSetupHold.of(placed).lines());
        for (SinkDelayChange change : placed.loads()) {
            result.add(
                    "Sink "
                            + change.sink()
                            + " of net "
                            + change.net()
                            + " gets its signal after "
                            + change.after().toText()
                            + ", before after "
                            + change.before().toText()
                            + ".");
        }
        return result;
    }

    /** Where its cells are, if it has any. */
    private static Optional<String> sites(WatchResult.Placed placed) {
        List<CircuitElement> elements = placed.question().circuit().elements();
        return placed.cells().isEmpty()
                ? Optional.empty()
                : Optional.of(
                        placed.cells().stream()
                                .map(c -> elements.get(c.element()).name() + " on site " + c.site())
                                .collect(Collectors.joining(", ", "Cells: ", ".")));
    }

    /** When a clock comes to the circuit's registers, and when to those that it had. */
    public static String clock(WatchTiming.ClockUse clock) {
        return "Clock "
                + clock.net()
                + " comes to the circuit's registers after "
                + clock.arrival().toText()
                + "; the registers that it had already get it after "
                + clock.elsewhere().toText()
                + ".";
    }

    /**
     * The nets that get branches, if any, with how many pins each feeds more. None of them is
     * rerouted: nets that a circuit observes and its clocks stay.
     */
    public static Optional<String> branched(WatchResult.Placed placed) {
        Map<String, Integer> counts = new TreeMap<>();
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.AddSink sink) {
                counts.merge(sink.net(), 1, Integer::sum);
            }
        }
        return counts.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        counts.entrySet().stream()
                                .map(e -> e.getKey() + more(e.getValue()))
                                .collect(
                                        Collectors.joining(
                                                ", ",
                                                "Branched, each keeping all its wires: ",
                                                ".")));
    }

    private static String more(int pins) {
        return pins == 1 ? " (1 pin more)" : " (" + pins + " pins more)";
    }

    /** The pads that it reads, each with the pins of the board where a level can be set. */
    public static List<String> reads(WatchResult.Placed placed) {
        List<String> result = new ArrayList<>();
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.AddInput input) {
                result.add("Read: " + padText(placed, input) + ", as port " + input.port() + ".");
            }
        }
        return result;
    }

    private static String padText(WatchResult.Placed placed, Edit.AddInput input) {
        Design design = placed.question().design();
        int pad = PadNames.findExact(design.fabric(), input.pad()).orElseThrow();
        Pad read = design.fabric().pads().get(pad);
        String place =
                design.board()
                        .findWiring(pad)
                        .flatMap(PadWiring::findLeadPlace)
                        .map(p -> ", " + p.toShortText())
                        .orElse("");
        return read.packagePin().isEmpty()
                ? "pad " + read.name() + place
                : "pin " + read.packagePin() + " (pad " + read.name() + place + ")";
    }
}
