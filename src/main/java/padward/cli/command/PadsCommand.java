package padward.cli.command;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.LimitOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.PadNames;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.format.form.JsonText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code pads}: the pads of a design's fabric, with what uses them. */
@Command(
        name = "pads",
        mixinStandardHelpOptions = true,
        description =
                "Lists pads with package pin, bank, port and what uses their IO register sites.",
        footer = {"", "Example:", "  padward pads --design fixtures/small/only.design.json"})
public final class PadsCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private LimitOption limit;
    @Spec private CommandSpec spec;

    @Option(names = "--json", description = "Prints JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        PrintWriter out = spec.commandLine().getOut();
        TextTable table =
                new TextTable(
                        "pad",
                        "pin",
                        "bank",
                        "direction",
                        "port",
                        "IO register used by",
                        "also called");
        List<Reports.Pads.One> list = new ArrayList<>();
        int count = read.fabric().pads().size();
        for (int i : limit.start(IntStream.range(0, count).boxed().toList())) {
            String[] row = row(read, i);
            table.row(row);
            list.add(new Reports.Pads.One(row[0], row[1], row[2], row[3], row[4], row[5], row[6]));
        }
        if (json) {
            Reports.Pads report = new Reports.Pads(list, limit.leftOut(count));
            out.println(JsonText.pretty(Reports.Pads.form(), report));
        } else {
            table.print(out);
            limit.remark(count).ifPresent(out::println);
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private static String[] row(Design design, int index) {
        Pad pad = design.fabric().pads().get(index);
        String port =
                design.findPortOn(index)
                        .map(p -> p.name() + " (" + p.direction().label() + ")")
                        .orElse("");
        return new String[] {
            pad.name(),
            pad.packagePin(),
            pad.bank(),
            pad.directions().name().toLowerCase(Locale.ROOT),
            port,
            occupant(design, pad.dataSite()),
            PadNames.namesOf(design, index).stream()
                    .filter(n -> !n.equals(pad.name()) && !n.equals(pad.packagePin()))
                    .collect(Collectors.joining(", "))
        };
    }

    private static String occupant(Design design, int site) {
        if (site == Fabric.NOTHING) {
            return "";
        }
        return design.occupancy()
                .findUserOf(site)
                .map(o -> (o instanceof Occupant.ByCell ? "cell " : "net ") + o.name())
                .orElse("");
    }
}
