package padward.cli.watch;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.change.Ledger;
import padward.cli.form.EntryForm;
import padward.cli.option.AcceptOption;
import padward.cli.option.DesignOption;
import padward.cli.option.DriverOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.SigningOption;
import padward.cli.output.CautionTable;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.form.JsonText;
import padward.format.ledger.LedgerReplay;
import padward.watch.answer.WatchText;
import padward.watch.circuit.Circuit;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;
import padward.watch.request.CircuitRequest;
import padward.watch.request.ReducedRequest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code watch}: a small circuit of unused cells between nets and a pad. */
@Command(
        name = "watch",
        mixinStandardHelpOptions = true,
        description =
                "Places a small circuit on cells and wires that the design leaves unused, between"
                        + " nets and a pad: a trigger, a selector, a divider. Nets are"
                        + " branched. Without --may-move nets keep every wire and nothing is moved."
                        + " With --ledger, the circuit is kept; undo takes it out again.",
        footer = {
            "",
            "Example:",
            "  padward watch trigger --design fixtures/small/only.design.json \\",
            "      --when 'level/sample[1:0] == 2b11 && !beep' --pad J1.2"
        })
public final class WatchCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private CircuitOption circuit;
    @Mixin private SimulateOption simulate;
    @Mixin private DriverOption driver;
    @Mixin private SigningOption signing;
    @Mixin private AcceptOption accept;
    @Mixin private DryRunOption dryRun;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-p", "--pad"},
            required = true,
            split = ",",
            paramLabel = "PAD",
            description =
                    "The pad: its name, package pin, port, board net or header pin (J1.3). For "
                            + "count, a second one for the marker, separated by a comma; for own, one "
                            + "for each output.")
    private List<String> pads = List.of();

    @Option(
            names = {"-l", "--ledger"},
            paramLabel = "FILE",
            description = "Keeps the circuit in this ledger, on top of the entries that it has.")
    private Path ledger;

    @Option(
            names = "--may-move",
            description =
                    "Where it does not fit, nets that are there may be rerouted and cells relocated; "
                            + "what is moved, and what that delays, is reported.")
    private boolean mayMove;

    @Option(names = "--json", description = "Prints the answer as JSON.")
    private boolean json;

    private WatchResult result;
    private Optional<String> hint = Optional.empty();
    private Optional<String> fewer = Optional.empty();
    private Optional<SimulateOption.Done> simulated = Optional.empty();

    @Override
    public Integer call() throws BadInput {
        simulate.check(design.file(), Optional.ofNullable(ledger));
        Design read = design.read();
        Optional<Ledger> kept = Optional.empty();
        if (ledger == null) {
            answer(read);
            simulate();
        } else {
            boolean[] changed = {false};
            Ledger now =
                    dryRun.change(
                            ledger,
                            design.file(),
                            read.fabric(),
                            old -> {
                                Ledger next = kept(old, read);
                                changed[0] = next != old;
                                return next;
                            });
            kept = changed[0] ? Optional.of(now) : kept;
        }
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(JsonText.pretty(WatchReport.form(), report(kept)));
        } else {
            print(kept, out);
        }
        out.flush();
        return result instanceof WatchResult.Placed ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private void answer(Design now) throws BadInput {
        CircuitRequest request = circuit.request(now.fabric());
        Circuit wanted = request.circuit(now);
        result = placed(now, wanted);
        if (result instanceof WatchResult.DoesNotFit) {
            Optional<CircuitRequest> smaller = request.smaller();
            if (smaller.isPresent()) {
                Circuit less = smaller.get().circuit(now);
                if (placed(now, less) instanceof WatchResult.Placed) {
                    hint =
                            Optional.of(
                                    "With --combinational it fits: "
                                            + WatchText.cells(less)
                                            + ", and the pin shows glitches.");
                }
            }
            if (hint.isEmpty()) {
                tryMoving();
            }
            if (result instanceof WatchResult.DoesNotFit) {
                fewer =
                        ReducedRequest.find(request, result.question(), design.progress())
                                .map(ReducedRequest::text);
            }
        }
    }

    /** Whether it fits with others moved; where that needs no move after all, it is the answer. */
    private void tryMoving() {
        WatchQuestion asked = result.question();
        if (asked.mayMove()
                || !(WatchPlacer.placeMoving(asked, design.progress())
                        instanceof WatchResult.Placed placed)) {
            return;
        }
        if (placed.moves().isEmpty()) {
            result = placed;
        } else {
            hint = Optional.of("With --may-move " + WatchText.fitsMoving(placed));
        }
    }

    private void simulate() throws BadInput {
        if (result instanceof WatchResult.Placed placed) {
            simulated = simulate.simulate(placed, !dryRun.isOn(), design.progress());
        }
    }

    private WatchResult placed(Design now, Circuit wanted) throws BadInput {
        int outputs = wanted.outputs().size();
        List<Integer> indices = new ArrayList<>();
        for (String text : pads) {
            indices.add(DesignOption.pad(now, text));
        }
        if (indices.stream().distinct().count() != outputs || indices.size() != outputs) {
            throw new BadInput(
                    "--pad",
                    "",
                    outputs == 1
                            ? "one pad"
                            : outputs
                                    + " different pads, separated by commas, for "
                                    + wanted.outputNames(),
                    "“" + String.join(",", pads) + "”");
        }
        return WatchPlacer.place(
                new WatchQuestion(now, wanted, indices, driver.of(now)).moving(mayMove),
                design.progress());
    }

    private Ledger kept(Ledger old, Design read) throws BadInput {
        Design now = LedgerReplay.applied(old, ledger, read);
        answer(now);
        if (!(result instanceof WatchResult.Placed placed)) {
            return old;
        }
        List<String> accepted = accept.checked(Price.ofPads(now, placed.edits()));
        // Before the ledger is written: when this fails, nothing is kept.
        simulate();
        WatchResult.Leg first = placed.legs().get(0);
        return old.with(
                signing.entry(
                                now,
                                first.net(),
                                first.pad(),
                                placed.edits(),
                                placed.question().circuit().function())
                        .accepting(accepted));
    }

    private void print(Optional<Ledger> kept, PrintWriter out) {
        out.println(WatchText.sentence(result));
        hint.ifPresent(out::println);
        fewer.ifPresent(out::println);
        if (!(result instanceof WatchResult.Placed placed)) {
            return;
        }
        WatchTable.print(placed, out);
        kept.ifPresent(
                now ->
                        out.println(
                                dryRun.either(
                                                "Kept as entry ",
                                                "Not kept (--dry-run); it would be entry ")
                                        + now.entries().size()
                                        + " of "
                                        + ledger
                                        + "."));
        simulated.map(SimulateOption.Done::text).ifPresent(out::println);
        CautionTable.printShared(Cautions.ofEdits(placed.question().design(), placed.edits()), out);
    }

    private WatchReport report(Optional<Ledger> kept) {
        return new WatchReport(
                result,
                hint,
                fewer,
                kept.isPresent() && !dryRun.isOn(),
                kept.map(k -> ledger.toString()),
                kept.map(EntryForm.Numbered::last),
                simulated);
    }
}
