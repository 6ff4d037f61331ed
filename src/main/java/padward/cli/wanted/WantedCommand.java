package padward.cli.wanted;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.text.AnswerText;
import padward.breakout.wanted.WantedCheck;
import padward.breakout.wanted.WantedNet;
import padward.breakout.wanted.WantedResult;
import padward.cli.option.DesignOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.form.JsonText;
import padward.format.question.WantedTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code wanted}: a list of nets, looked at after each run of the implementation. */
@Command(
        name = "wanted",
        mixinStandardHelpOptions = true,
        description =
                "Checks the nets that you want to see at the bench, listed in a table (CSV) with the"
                        + " columns net and, if you like, pads (the pads that will do, the best first,"
                        + " with | between them) and need (must or may). With the design before the"
                        + " last run of the implementation, also reports what changed: a pad is newly"
                        + " blocked, a port is on it now, a net has another name, is new or gone, or its"
                        + " delay moved. The exit status is 1 when a net that must be seen cannot, or"
                        + " changed.",
        footer = {
            "",
            "Example:",
            "  padward wanted fixtures/small/wanted.csv --design fixtures/small/only.design.json"
                    + " \\",
            "      --was fixtures/small/only.design.json"
        })
public final class WantedCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The table of wanted nets, .csv or .tsv.")
    private Path file;

    @Option(
            names = "--was",
            paramLabel = "FILE",
            description = "The design before the last run of the implementation.")
    private Path was;

    @Option(
            names = "--more-than-ps",
            defaultValue = "100",
            paramLabel = "PS",
            description =
                    "Reports a delay that moved by more than this, picoseconds (${DEFAULT-VALUE}).")
    private int morePs;

    @Option(
            names = "--corner",
            defaultValue = "slow",
            description =
                    "The corner at which routes have the shortest delay, fast or slow "
                            + "(${DEFAULT-VALUE}).")
    private Corner corner;

    @Option(names = "--json", description = "Prints the table as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        if (morePs < 0) {
            throw new BadInput("--more-than-ps", "", "a number from 0", "" + morePs);
        }
        List<WantedTable.Row> rows = WantedTable.read(file);
        Design now = design.read();
        Optional<Design> before = was == null ? Optional.empty() : Optional.of(design.read(was));
        WantedReport report = report(rows, new WantedCheck(now, before, corner, morePs));
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(JsonText.pretty(WantedReport.form(), report));
        } else {
            print(report, out);
        }
        out.flush();
        return report.needAttention() == 0 ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private WantedReport report(List<WantedTable.Row> rows, WantedCheck check) throws BadInput {
        List<WantedResult> results = new ArrayList<>();
        for (WantedTable.Row row : rows) {
            try {
                results.add(
                        check.of(
                                new WantedNet(row.net(), row.pads(), row.must()),
                                design.progress()));
            } catch (BadInput fault) {
                throw new BadInput(
                        file.toString(),
                        row.place(fault.source()),
                        fault.expected(),
                        fault.found());
            }
        }
        return new WantedReport(
                design.file().toString(), Optional.ofNullable(was).map(Path::toString), results);
    }

    private static void print(WantedReport report, PrintWriter out) {
        TextTable table =
                new TextTable("net", "need", "pad", "answer", "at the pin, rated load", "changes");
        for (WantedResult result : report.nets()) {
            Optional<Answer> answer = result.answer();
            table.row(
                    result.net().map(Net::name).orElse(result.wanted().net()),
                    result.wanted().must() ? "must" : "may",
                    answer.map(a -> a.question().padValue().name()).orElse(""),
                    answer.map(AnswerText::word).orElse("gone"),
                    answer.flatMap(Answer::findRoute).map(r -> r.total().toText()).orElse(""),
                    WantedReport.words(result).collect(Collectors.joining("; ")));
        }
        table.print(out);
        for (WantedResult result : report.nets()) {
            if (!result.near().isEmpty()) {
                out.println();
                out.println("Registers around " + result.wanted().net() + " that are still there:");
                result.near().forEach(n -> out.println("  " + WantedReport.words(n)));
            }
        }
        out.println();
        out.println(conclusion(report));
    }

    private static String conclusion(WantedReport report) {
        long attention = report.needAttention();
        if (attention > 0) {
            return attention == 1
                    ? "1 net that must be seen needs your attention."
                    : attention + " nets that must be seen need your attention.";
        }
        if (report.was().isEmpty()) {
            return "All nets that must be seen can be seen.";
        }
        return report.changed()
                ? "All nets that must be seen can be seen, and nothing changed for them."
                : "All nets that must be seen can be seen, and nothing changed.";
    }
}
