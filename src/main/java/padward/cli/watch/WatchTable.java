package padward.cli.watch;

import java.io.PrintWriter;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import padward.cli.output.SinkDelayTable;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.watch.answer.CircuitSetupHold;
import padward.watch.answer.WatchLines;
import padward.watch.answer.WatchPrice;
import padward.watch.answer.WatchText;
import padward.watch.place.WatchResult;
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
        WatchLines.branched(placed).ifPresent(out::println);
        WatchLines.reads(placed).forEach(out::println);
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
            out.println(WatchLines.clock(clock));
        }
        CircuitSetupHold.of(placed).lines().forEach(out::println);
        SinkDelayTable.print(design, placed.edits(), out);
        Price price = WatchPrice.of(placed);
        out.println(
                "What it costs: "
                        + WatchText.cells(placed.question().circuit())
                        + ". "
                        + PriceText.sentences(price));
        WatchText.cautions(placed).forEach(out::println);
    }
}
