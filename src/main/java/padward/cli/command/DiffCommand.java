package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.text.PriceText;
import padward.breakout.verify.DesignDiff;
import padward.breakout.verify.KeptPrice;
import padward.cli.form.Reports;
import padward.cli.manners.ConsoleProgress;
import padward.cli.output.CautionTable;
import padward.cli.output.DiffTable;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.form.JsonText;
import padward.format.ledger.ComparedDesigns;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code diff}: the differences between two designs. */
@Command(
        name = "diff",
        mixinStandardHelpOptions = true,
        description =
                "Lists every net, cell and port that differs between two designs on the same"
                        + " fabric, with wires and delays. Either can be a ledger, which stands for the"
                        + " design that it gives: applied to the other file, if that is a design;"
                        + " otherwise to the design that it names (in the ledger's folder) or that"
                        + " --design names.",
        footer = {
            "",
            "Exit status: 0 nothing differs, 1 something does, 2 bad input.",
            "",
            "Example:",
            "  padward diff fixtures/small/only.design.json bench.json"
        })
public final class DiffCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "A", description = "A design or a ledger.")
    private Path one;

    @Parameters(index = "1", paramLabel = "B", description = "A design or a ledger.")
    private Path other;

    @Option(
            names = {"-d", "--design"},
            paramLabel = "FILE",
            description = "The design that ledgers are applied to.")
    private Path design;

    @Option(names = "--json", description = "Prints the differences as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        ComparedDesigns sides =
                ComparedDesigns.read(
                        one, other, Optional.ofNullable(design), ConsoleProgress.of(spec));
        Design before = sides.before();
        DesignDiff diff = DesignDiff.between(before, sides.after());
        List<Question> shown = Question.ofNewOutputs(before, sides.after());
        // Of two designs, only what is on the pads is known: what else was removed for them is not.
        Price price =
                sides.kept().isEmpty()
                        ? shown.stream().map(Price::ofPad).reduce(Price.NOTHING, Price::plus)
                        : KeptPrice.ofAll(before, sides.kept());
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            Reports.Compared report =
                    new Reports.Compared(
                            one.toString(),
                            other.toString(),
                            diff,
                            before.fabric(),
                            price,
                            Cautions.shared(shown));
            out.println(JsonText.pretty(Reports.Compared.form(), report));
        } else {
            DiffTable.print(diff, before.fabric(), out);
            if (!shown.isEmpty()) {
                if (!sides.kept().isEmpty()) {
                    out.println("What it costs: " + PriceText.sentences(price));
                } else if (!price.isNothing()) {
                    String told = String.join(" ", PriceText.losses(price));
                    out.println("What it costs at the pads: " + told);
                }
                CautionTable.printShared(Cautions.shared(shown), out);
            }
        }
        out.flush();
        return diff.isNothing() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }
}
