package padward.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Asker;
import padward.breakout.Keeping;
import padward.breakout.Question;
import padward.breakout.WhyBlocked;
import padward.clearance.SearchLimits;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.design.Trial;
import padward.format.Digest;
import padward.format.LedgerFile;
import padward.route.Engine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code keep}: a question's answer, kept in a ledger. */
@Command(
        name = "keep",
        mixinStandardHelpOptions = true,
        description = {
            "Asks as ask does, on the design with all that the ledger holds, and adds what the",
            "answer takes to the ledger: what is let go, freed and moved, and the way itself.",
            "The design's file is not changed; apply writes a changed copy."
        },
        footer = {
            "",
            "Example:",
            "  padward keep --design fixtures/small/only.design.json \\",
            "      --net 'pump/level/sample[1]' --pad J1.3 --ledger bench.json --note 'see sample 1'"
        })
final class KeepCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private QuestionOption question;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-l", "--ledger"},
            required = true,
            paramLabel = "FILE",
            description = "The ledger; made if it is not there.")
    private Path ledger;

    @Option(
            names = "--clearance",
            defaultValue = "1",
            paramLabel = "N",
            description =
                    "Which of the clearances that ask tells, when blocked (${DEFAULT-VALUE}).")
    private int number;

    @Option(names = "--note", defaultValue = "", description = "Why, for whoever reads it next.")
    private String note;

    @Option(
            names = "--who",
            defaultValue = "${sys:user.name}",
            description = "Who keeps it (${DEFAULT-VALUE}).")
    private String who;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        PrintWriter out = spec.commandLine().getOut();
        boolean[] kept = {false};
        LedgerFile.change(
                ledger,
                design.file(),
                read.fabric(),
                old -> {
                    Design now = LedgerTable.apply(old, read, ledger);
                    Answer answer = ask(now);
                    out.println(AnswerText.sentence(answer));
                    if (answer instanceof Answer.NoWay) {
                        return old;
                    }
                    LedgerEntry entry = entry(now, answer);
                    Ledger next = old.with(entry);
                    // What cannot be applied must not be kept.
                    LedgerTable.apply(next, read, ledger);
                    out.println();
                    out.println("Kept as entry " + next.entries().size() + " of " + ledger + ":");
                    entry.edits().forEach(e -> out.println("  " + e.toText()));
                    kept[0] = true;
                    return next;
                });
        out.flush();
        return kept[0] ? Padward.DONE : Padward.NOT_OPEN;
    }

    private Answer ask(Design now) throws BadInput {
        return new Asker(now.fabric(), Engine.OWN)
                .explained(question.about(now), SearchLimits.USUAL, Progress.NONE);
    }

    private LedgerEntry entry(Design now, Answer answer) throws BadInput {
        List<Edit> edits;
        if (answer instanceof Answer.Open open) {
            if (open.way().branchHop() == open.way().hops().size() - 1) {
                throw new BadInput("--pad", "", "a pad that the net is not on", "one it is on");
            }
            if (number != 1) {
                throw new BadInput("--clearance", "", "1, for the way is open", "" + number);
            }
            edits = Keeping.of(open);
        } else {
            Answer.Blocked blocked = (Answer.Blocked) answer;
            List<WhyBlocked.Option> options = blocked.why().orElseThrow().options();
            if (number < 1 || number > options.size()) {
                throw new BadInput(
                        "--clearance", "", "a number from 1 to " + options.size(), "" + number);
            }
            edits = Keeping.of(blocked, options.get(number - 1));
        }
        Question asked = answer.question();
        return new LedgerEntry(
                OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString(),
                who.isBlank() ? "unknown" : who,
                note,
                asked.net().name(),
                asked.padValue().name(),
                edits,
                Digest.of(now),
                Digest.of(Trial.of(now, edits)));
    }
}
