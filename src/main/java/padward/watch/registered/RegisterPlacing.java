package padward.watch.registered;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.WantedDriver;
import padward.breakout.group.Bus;
import padward.breakout.group.IoRegister;
import padward.breakout.group.RegisterCheck;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.timing.ExternalLineDelay;
import padward.timing.LaunchTime;
import padward.timing.OutputPath;
import padward.watch.answer.CircuitSetupHold;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchQuestion.PadRegister;
import padward.watch.place.WatchResult;

/**
 * Places the registers of one line as a small watch circuit.
 *
 * @param clock name of the clock's net
 * @param clockMhz its frequency, MHz; 0 when not known
 */
record RegisterPlacing(
        String clock,
        double clockMhz,
        ExternalLineDelay external,
        double localPercent,
        Progress progress) {
    /**
     * A line with its registers.
     *
     * @param register what was found
     * @param line the line of the last register's net; empty when it is refused
     * @param edits what places it
     */
    record Placed(FabricRegister register, Optional<Bus.Line> line, List<Edit> edits) {}

    /**
     * Places the registers of a line.
     *
     * @param inPad why the pad's own register alone does not do, as a clause
     */
    Placed place(Design design, Bus.Line line, String inPad) {
        Net net = design.findNet(line.net().name()).orElseThrow();
        Net clocks = design.findNet(clock).orElseThrow();
        LaunchTime launch = LaunchTime.of(design, net);
        if (RegisterCheck.isHalfSeen(clocks, launch)) {
            return refused(
                    net, line, false, RegisterCheck.otherClock(clocks, launch).orElse(inPad));
        }
        boolean two = RegisterCheck.otherClock(clocks, launch).isPresent();
        String refusal = "";
        for (Optional<PadRegister> last : places(design, line, two)) {
            WatchResult result =
                    WatchPlacer.place(
                            new WatchQuestion(
                                    design,
                                    circuit(net.name(), two),
                                    List.of(line.pad()),
                                    wish(line),
                                    last,
                                    false),
                            progress);
            if (result instanceof WatchResult.Placed placed) {
                CircuitSetupHold check = CircuitSetupHold.of(placed, localPercent);
                Optional<String> late = failure(check);
                if (late.isEmpty()) {
                    return accepted(placed, line, two, last.isPresent(), check);
                }
                refusal = late.get();
            } else {
                refusal = clause(((WatchResult.DoesNotFit) result).text());
            }
        }
        String why = inPad + "; " + (two ? "two registers" : "a register") + " in the fabric: ";
        return refused(net, line, two, why + refusal);
    }

    private static Placed refused(Net net, Bus.Line line, boolean two, String why) {
        return new Placed(
                FabricRegister.refused(net, line.pad(), two, why), Optional.empty(), List.of());
    }

    /** The pad's own register for the second of two, if that is free; then the fabric alone. */
    private static List<Optional<PadRegister>> places(Design design, Bus.Line line, boolean two) {
        List<Optional<PadRegister>> result = new ArrayList<>();
        Pad pad = design.fabric().pads().get(line.pad());
        if (two && pad.dataSite() != Fabric.NOTHING) {
            SiteView site = design.fabric().site(pad.dataSite());
            IoRegister.find(design.fabric(), pad)
                    .flatMap(
                            r ->
                                    r.toFunction(site)
                                            .map(f -> new PadRegister(site.id(), r.kind(), f)))
                    .ifPresent(r -> result.add(Optional.of(r)));
        }
        result.add(Optional.empty());
        return result;
    }

    static WantedDriver wish(Bus.Line line) {
        return line.route()
                .setting()
                .map(DriverSetting::name)
                .map(WantedDriver::of)
                .orElse(WantedDriver.NONE);
    }

    /** One register, or two one after the other; made by hand, as it needs no lookup table. */
    private Circuit circuit(String net, boolean two) {
        List<CircuitElement> elements = new ArrayList<>();
        Signal data = new Signal.Observed(net);
        if (two) {
            elements.add(new CircuitElement.Register("first", data, clock, Optional.empty()));
            data = new Signal.Made(0);
        }
        elements.add(new CircuitElement.Register("out", data, clock, Optional.empty()));
        Circuit.Output out = new Circuit.Output("out", new Signal.Made(elements.size() - 1));
        return new Circuit(
                two ? "sync" : "register",
                net + ", registered by " + clock + ".",
                elements,
                List.of(out),
                elements.size(),
                StartState.any(elements.size()),
                List.of());
    }

    private Optional<String> failure(CircuitSetupHold check) {
        if (check.holdPs().filter(h -> h < 0).isPresent()) {
            return Optional.of(
                    String.format(
                            Locale.ROOT,
                            "hold is not met: the data changes %.3f ns too early",
                            -check.holdPs().get() / 1000.0));
        }
        return check.leastPeriodPs()
                .filter(p -> clockMhz > 0 && p > 1e6 / clockMhz)
                .map(
                        p ->
                                String.format(
                                        Locale.ROOT,
                                        "setup is not met: it takes a period of %.3f ns",
                                        p / 1000.0));
    }

    private Placed accepted(
            WatchResult.Placed placed,
            Bus.Line line,
            boolean two,
            boolean lastAtPad,
            CircuitSetupHold check) {
        Answer.FreeRoute free = placed.legs().get(0).answer();
        Net out = free.question().net();
        Bus.Line now = new Bus.Line(out, line.pad(), free.route(), line.standing());
        LaunchTime launch =
                LaunchTime.of(placed.design(), placed.design().findNet(out.name()).orElseThrow());
        Delay toPad = launch.latest().orElse(Delay.ZERO).plus(free.route().toPadVertex());
        OutputPath output = now.output(placed.design(), external);
        return new Placed(
                new FabricRegister(
                        line.net(),
                        line.pad(),
                        two,
                        placed.cells(),
                        lastAtPad,
                        Optional.empty(),
                        Optional.of(toPad.plus(output.toInstrument())),
                        Optional.of(output.after(toPad)),
                        Optional.of(check),
                        launch.unknown().stream().sorted().toList()),
                Optional.of(now),
                placed.edits());
    }

    /** A sentence as the end of another. */
    private static String clause(String sentence) {
        String text =
                sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
        boolean name = text.length() > 1 && Character.isUpperCase(text.charAt(1));
        return name ? text : Character.toLowerCase(text.charAt(0)) + text.substring(1);
    }
}
