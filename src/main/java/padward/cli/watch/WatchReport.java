package padward.cli.watch;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.delay;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.whole;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.change.Edit;
import padward.cli.form.AnswerForm;
import padward.cli.form.EntryForm;
import padward.cli.form.PriceForm;
import padward.fabric.delay.Delay;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;
import padward.timing.SinkDelayChange;
import padward.watch.answer.CircuitSetupHold;
import padward.watch.answer.WatchPrice;
import padward.watch.answer.WatchText;
import padward.watch.circuit.Circuit;
import padward.watch.place.WatchResult;
import padward.watch.place.WatchTiming;

/**
 * What came of a watch circuit, as the command prints it in JSON.
 *
 * @param smaller what a smaller variant would do, if that would fit
 * @param fewer what the circuit would do with the first of its nets only, if that would fit
 * @param kept whether it was kept
 * @param ledger the ledger's file, where it was kept or would be
 * @param entry the entry there
 * @param simulated what was simulated
 */
public record WatchReport(
        WatchResult result,
        Optional<String> smaller,
        Optional<String> fewer,
        boolean kept,
        Optional<String> ledger,
        Optional<EntryForm.Numbered> entry,
        Optional<SimulateOption.Done> simulated) {
    /** The form. */
    public static Form<WatchReport> form() {
        var report = new Fields<WatchReport>();
        report.constant("format", "padward-watch/1");
        report.needed("circuit", text(), r -> r.circuit().name()).means("which circuit it is");
        report.needed("function", text(), r -> r.circuit().function()).means("what it does");
        report.needed("fits", Kinds.flag(), r -> r.placed().isPresent()).means("whether it fits");
        report.needed("sentence", text(), r -> WatchText.sentence(r.result()))
                .means("the answer in words");
        report.needed("latency", whole(), r -> r.circuit().latency())
                .means("clock cycles from the nets to the output");
        report.needed("clocks", texts(), r -> List.copyOf(r.circuit().clocks()))
                .means("of which clocks");
        report.maybe("reason", text(), r -> r.misfit().map(n -> n.reason().label()))
                .means("why it does not fit");
        report.maybe("proven", Kinds.flag(), r -> r.misfit().map(n -> n.proven()))
                .means("whether that is proven");
        report.maybe("cells", list(cell()), r -> r.placed().map(WatchResult.Placed::cells))
                .means("the circuit's cells");
        report.maybe("outputs", list(output()), r -> r.placed().map(WatchResult.Placed::legs))
                .means("the answer for each output");
        report.maybe("delays", list(toEnd()), r -> r.placed().map(WatchReport::delays))
                .means("from nets and clocks to the circuit's ends");
        report.maybe("clockArrivals", list(clock()), r -> r.placed().map(p -> p.timing().clocks()))
                .means("when clocks arrive");
        report.maybe("setupHold", setupHold(), r -> r.placed().map(CircuitSetupHold::of))
                .means("setup and hold at the circuit's registers");
        report.maybe("loads", list(load()), r -> r.placed().map(WatchResult.Placed::loads))
                .means("sinks of the nets whose delay changes");
        report.maybe("moved", texts(), r -> r.placed().map(WatchReport::moved))
                .means("what is moved to make room, in words");
        report.maybe("edits", texts(), r -> r.placed().map(WatchReport::edits)).means("in words");
        report.maybe("notes", texts(), r -> r.placed().map(WatchText::cautions))
                .means("cautions about the circuit itself");
        report.maybe("price", PriceForm.price(), r -> r.placed().map(WatchReport::price))
                .means("what it costs");
        PriceForm.addShared(
                report,
                r -> r.placed().map(p -> Cautions.ofEdits(p.question().design(), p.edits())));
        report.maybe("smaller", text(), WatchReport::smaller)
                .means("what a smaller variant would do");
        report.maybe("fewerNets", text(), WatchReport::fewer)
                .means("that it would fit with the first of the nets only");
        report.maybe("simulated", simulation(), WatchReport::simulated).means("what was simulated");
        report.needed("kept", Kinds.flag(), WatchReport::kept).means("whether it was kept");
        report.maybe("ledger", text(), WatchReport::ledger).means("the ledger's file");
        report.maybe("entry", EntryForm.entry(), WatchReport::entry)
                .means("what was kept, or would be");
        return report.written();
    }

    private Circuit circuit() {
        return result.question().circuit();
    }

    private Optional<WatchResult.Placed> placed() {
        return result instanceof WatchResult.Placed placed ? Optional.of(placed) : Optional.empty();
    }

    private Optional<WatchResult.DoesNotFit> misfit() {
        return result instanceof WatchResult.DoesNotFit not ? Optional.of(not) : Optional.empty();
    }

    private static List<String> moved(WatchResult.Placed placed) {
        return WatchText.moves(placed);
    }

    private static List<String> edits(WatchResult.Placed placed) {
        return placed.edits().stream().map(Edit::toText).toList();
    }

    private static Price price(WatchResult.Placed placed) {
        return WatchPrice.of(placed);
    }

    private static Form<WatchResult.PlacedCell> cell() {
        var cell = new Fields<WatchResult.PlacedCell>();
        cell.needed("name", text(), WatchResult.PlacedCell::cell).means("its name");
        cell.needed("kind", text(), WatchResult.PlacedCell::kind).means("its kind");
        cell.needed("site", text(), WatchResult.PlacedCell::site).means("its site");
        return cell.written();
    }

    private static Form<WatchResult.Leg> output() {
        var output = new Fields<WatchResult.Leg>();
        output.needed("output", text(), WatchResult.Leg::output).means("the output");
        output.needed("answer", AnswerForm.answer(), l -> AnswerForm.Given.of(l.answer()))
                .means("how it comes to its pad");
        return output.written();
    }

    /** A delay from a net or a clock, one of which is named, to an end. */
    private record ToEnd(Optional<String> net, Optional<String> clock, String to, Delay delay) {}

    private static List<ToEnd> delays(WatchResult.Placed placed) {
        List<ToEnd> result = new ArrayList<>();
        for (WatchTiming.Arrival a : placed.timing().arrivals()) {
            result.add(new ToEnd(Optional.of(a.net()), Optional.empty(), a.end(), a.delay()));
        }
        for (WatchTiming.ClockUse clock : placed.timing().clocks()) {
            for (WatchTiming.ToPad pad : clock.toPads()) {
                result.add(
                        new ToEnd(
                                Optional.empty(),
                                Optional.of(clock.net()),
                                "pad " + pad.pad(),
                                pad.delay()));
            }
        }
        return result;
    }

    private static Form<ToEnd> toEnd() {
        var end = new Fields<ToEnd>();
        end.maybe("net", text(), ToEnd::net).means("from which net");
        end.maybe("clock", text(), ToEnd::clock).means("or from which clock");
        end.needed("to", text(), ToEnd::to).means("to where");
        end.needed("delay_ps", delay(), ToEnd::delay).means("how long it takes");
        return end.written();
    }

    private static Form<WatchTiming.ClockUse> clock() {
        var clock = new Fields<WatchTiming.ClockUse>();
        clock.needed("clock", text(), WatchTiming.ClockUse::net).means("the clock");
        clock.needed("here_ps", delay(), WatchTiming.ClockUse::arrival)
                .means("at the circuit's registers");
        clock.needed("elsewhere_ps", delay(), WatchTiming.ClockUse::elsewhere)
                .means("at those that it had already");
        return clock.written();
    }

    private static Form<SimulateOption.Done> simulation() {
        var done = new Fields<SimulateOption.Done>();
        done.needed("file", text(), d -> d.file().toString()).means("where it was written");
        done.needed("cycles", whole(), SimulateOption.Done::cycles).means("how many clock cycles");
        done.needed("given", texts(), d -> List.copyOf(d.given()))
                .means("the nets with levels from outside");
        return done.written();
    }

    private static Form<CircuitSetupHold> setupHold() {
        var times = new Fields<CircuitSetupHold>();
        times.maybe("leastPeriod_ps", whole().boxed(), CircuitSetupHold::leastPeriodPs)
                .means("the shortest clock period that meets setup");
        times.maybe("hold_ps", whole().boxed(), CircuitSetupHold::holdPs)
                .means("by how much hold is met");
        times.needed("unknown", texts(), t -> List.copyOf(t.unknown())).means("what is not stated");
        times.needed("apart", texts(), t -> List.copyOf(t.apart()))
                .means("what comes from a port or another clock");
        return times.written();
    }

    private static Form<SinkDelayChange> load() {
        var load = new Fields<SinkDelayChange>();
        load.needed("net", text(), SinkDelayChange::net).means("the net");
        load.needed("sink", text(), SinkDelayChange::sink).means("its sink");
        load.needed("before_ps", delay(), SinkDelayChange::before).means("delay before");
        load.needed("after_ps", delay(), SinkDelayChange::after).means("delay after");
        return load.written();
    }
}
