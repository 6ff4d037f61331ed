package padward.cli.command;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.Outcome;
import padward.cli.form.AnswerForm;
import padward.cli.form.EntryForm;
import padward.cli.form.Reports;
import padward.cli.option.AcceptOption;
import padward.cli.option.DesignOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.LedgerOption;
import padward.cli.option.QuestionOption;
import padward.cli.option.SigningOption;
import padward.cli.output.CautionTable;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.form.JsonText;
import padward.format.ledger.LedgerReplay;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code keep}: a question's answer, kept in a ledger. */
@Command(
        name = "keep",
        mixinStandardHelpOptions = true,
        description =
                "Answers a question as ask does, on the design with all changes in the ledger, and"
                        + " adds the answer's edits to the ledger: what is disconnected, removed and"
                        + " moved, and the route. A ledger that does not exist is created. The design's"
                        + " file is not changed; apply writes a changed copy.",
        footer = {
            "",
            "Example:",
            "  padward keep --design fixtures/small/only.design.json \\",
            "      --net 'pump/level/sample[1]' --pad J2.1 --ledger bench.json --note 'see sample"
                    + " 1'"
        })
public final class KeepCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private QuestionOption question;
    @Mixin private LedgerOption ledger;
    @Mixin private SigningOption signing;
    @Mixin private AcceptOption accept;
    @Mixin private DryRunOption dryRun;
    @Spec private CommandSpec spec;

    @Option(
            names = "--option",
            defaultValue = "1",
            paramLabel = "N",
            description =
                    "Which of the options to unblock that ask lists, if the pad is blocked "
                            + "(${DEFAULT-VALUE}).")
    private int number;

    @Option(names = "--json", description = "Prints the answer and what was kept as JSON.")
    private boolean json;

    private Answer answer;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        boolean[] kept = {false};
        Ledger now =
                dryRun.change(
                        ledger.file(),
                        design.file(),
                        read.fabric(),
                        old -> {
                            Ledger next = kept(old, read);
                            kept[0] = next != old;
                            return next;
                        });
        // Only now, with the file written, may it be reported as kept.
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(JsonText.pretty(Reports.Kept.form(), report(now, kept[0])));
        } else {
            print(now, kept[0], out);
        }
        out.flush();
        return kept[0] ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    /** The ledger with the answer's edits; the same one when there is no route. */
    private Ledger kept(Ledger old, Design read) throws BadInput {
        Design now = LedgerReplay.applied(old, ledger.file(), read);
        answer =
                new Asker(now.fabric(), SearchEngineKind.OWN)
                        .explained(question.about(now), SearchLimits.USUAL, design.progress());
        if (answer instanceof Answer.NoRoute) {
            return old;
        }
        List<Edit> edits = edits();
        Question asked = answer.question();
        // Edits that cannot be applied must not be kept.
        if (Outcome.of(now, edits) instanceof Outcome.Refused refused) {
            throw new BadInput(
                    "--pad",
                    "",
                    "a pad whose answer can be applied",
                    asked.padValue().name() + ": " + LedgerReplay.few(refused.reasons()));
        }
        // Of what is kept, which may tie the enable of the pad's driver on.
        answer = answer.withCautions(Cautions.of(asked, edits));
        List<String> accepted = accept.checked(Price.ofPad(asked));
        return old.with(
                signing.entry(now, asked.net().name(), asked.padValue().name(), edits)
                        .accepting(accepted));
    }

    private List<Edit> edits() throws BadInput {
        if (answer instanceof Answer.FreeRoute free) {
            if (AnswerEdits.of(free).isEmpty()) {
                throw new BadInput("--pad", "", "a pad that the net is not on", "one it is on");
            }
            if (number != 1) {
                throw new BadInput("--option", "", "1, because the route is open", "" + number);
            }
            return AnswerEdits.of(free);
        }
        Answer.Blocked blocked = (Answer.Blocked) answer;
        List<WhyBlocked.Option> options = blocked.why().orElseThrow().options();
        if (number < 1 || number > options.size()) {
            String expected =
                    options.isEmpty()
                            ? "a pad that can be unblocked; no option was found"
                            : "a number from 1 to " + options.size();
            throw new BadInput("--option", "", expected, "" + number);
        }
        return AnswerEdits.of(blocked, options.get(number - 1));
    }

    private void print(Ledger now, boolean kept, PrintWriter out) {
        out.println(AnswerText.sentence(answer));
        if (kept) {
            int count = now.entries().size();
            out.println();
            out.println(
                    dryRun.either("Kept as entry ", "Not kept (--dry-run); it would be entry ")
                            + count
                            + " of "
                            + ledger.file()
                            + ":");
            now.entries().get(count - 1).edits().forEach(e -> out.println("  " + e.toText()));
            out.println("What it costs: " + PriceText.sentences(price()));
        }
        CautionTable.print(answer.cautions(), out);
    }

    private Reports.Kept report(Ledger now, boolean kept) {
        return new Reports.Kept(
                kept && !dryRun.isOn(),
                ledger.file().toString(),
                kept ? Optional.of(EntryForm.Numbered.last(now)) : Optional.empty(),
                AnswerForm.Given.of(answer),
                answer instanceof Answer.NoRoute ? Optional.empty() : Optional.of(price()));
    }

    /** What the option costs that is kept. */
    private Price price() {
        return answer instanceof Answer.Blocked blocked
                ? Price.of(
                        blocked.question(),
                        blocked.why().orElseThrow().options().get(number - 1).option().removals())
                : Price.of(answer);
    }
}
