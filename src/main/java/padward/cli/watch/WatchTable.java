package padward.cli.watch;

import java.io.PrintWriter;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.cli.output.SinkDelayTable;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.PadNames;
import padward.design.PadWiring;
import padward.fabric.Pad;
import padward.watch.place.WatchResult;
import padward.watch.place.WatchText;
import padward.watch.place.WatchTiming;

/** Prints a placed watch circuit and what it costs. */
final class WatchTable {
    private WatchTable() {}

    static void print(WatchResult.Placed placed, PrintWriter out) {
        Design design = placed.question().design();
        out.println(WatchText.latency(placed.question().circuit()));
        out.println();
        if (!placed.cells().isEmpty()) {
            TextTable cells = new TextTable("cell", "kind", "site");
            placed.cells().forEach(c -> cells.row(c.cell(), c.kind(), c.site()));
            cells.print(out);
            out.println();
        }
        branched(placed)
                .ifPresent(b -> out.println("Branched, each keeping all its wires: " + b + "."));
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.AddInput input) {
                out.println("Read: " + padText(placed, input) + ", as port " + input.port() + ".");
            }
        }
        TextTable delays = new TextTable("from", "to", "delay");
        for (WatchTiming.Arrival arrival : placed.timing().arrivals()) {
            delays.row("net " + arrival.net(), arrival.end(), arrival.delay().toText());
        }
        for (WatchTiming.ClockUse clock : placed.timing().clocks()) {
            for (WatchTiming.ToPad pad : clock.toPads()) {
                delays.row("clock " + clock.net(), "pad " + pad.pad(), pad.delay().toText());
            }
        }
        delays.print(out);
        for (WatchTiming.ClockUse clock : placed.timing().clocks()) {
            out.println(
                    "Clock "
                            + clock.net()
                            + " comes to the circuit's registers after "
                            + clock.arrival().toText()
                            + "; the registers that it had already get it after "
                            + clock.elsewhere().toText()
                            + ".");
        }
        SinkDelayTable.print(design, placed.edits(), out);
        Price price = Price.ofPads(design, placed.edits());
        out.println(
                "What it costs: "
                        + WatchText.cells(placed.question().circuit())
                        + ". "
                        + PriceText.sentences(price));
        WatchText.cautions(placed).forEach(out::println);
    }

    /** The nets that get branches, if any, with how many pins each feeds more. */
    private static Optional<String> branched(WatchResult.Placed placed) {
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
                                .collect(Collectors.joining(", ")));
    }

    private static String more(int pins) {
        return pins == 1 ? " (1 pin more)" : " (" + pins + " pins more)";
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
