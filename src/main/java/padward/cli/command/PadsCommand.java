package padward.cli.command;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.LimitOption;
import padward.cli.option.ListFormOption;
import padward.cli.option.PadFilterOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.NaturalOrder;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.PadNames;
import padward.design.Port;
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
    @Mixin private PadFilterOption filter;
    @Mixin private ListFormOption form;
    @Spec private CommandSpec spec;

    @Option(
            names = "--sort",
            paramLabel = "KEY",
            description =
                    "Sorts by pad, pin, bank or port, where numbers count as numbers. Otherwise the "
                            + "pads are in the order of the fabric.")
    private Key sort;

    /** What the list can be sorted by. */
    enum Key {
        PAD,
        PIN,
        BANK,
        PORT;

        /** What a pad is sorted by; pads without it are after the others. */
        private Comparator<Integer> order(Design design) {
            Function<Integer, String> text =
                    index -> {
                        Pad pad = design.fabric().pads().get(index);
                        return switch (this) {
                            case PAD -> pad.name();
                            case PIN -> pad.packagePin();
                            case BANK -> pad.bank();
                            case PORT -> design.findPortOn(index).map(Port::name).orElse("");
                        };
                    };
            return Comparator.<Integer, Boolean>comparing(i -> text.apply(i).isEmpty())
                    .thenComparing(text, new NaturalOrder());
        }

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

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
        filter.check(read);
        List<Integer> pads = pads(read);
        for (int i : limit.start(pads)) {
            String[] row = row(read, i);
            table.row(row);
            list.add(new Reports.Pads.One(row[0], row[1], row[2], row[3], row[4], row[5], row[6]));
        }
        if (form.isJson()) {
            Reports.Pads report = new Reports.Pads(list, limit.leftOut(pads.size()));
            out.println(JsonText.pretty(Reports.Pads.form(), report));
        } else {
            printRemarks(pads.size(), form.print(table, spec.commandLine()));
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private void printRemarks(int count, PrintWriter out) {
        limit.remark(count).ifPresent(out::println);
        if (count == 0) {
            out.println("No pads match the filter.");
        }
    }

    private List<Integer> pads(Design design) {
        Stream<Integer> chosen =
                IntStream.range(0, design.fabric().pads().size())
                        .filter(i -> filter.accepts(design, i))
                        .boxed();
        return (sort == null ? chosen : chosen.sorted(sort.order(design))).toList();
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
