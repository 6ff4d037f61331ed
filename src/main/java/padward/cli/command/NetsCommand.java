package padward.cli.command;

import java.io.PrintWriter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.LimitOption;
import padward.cli.option.ListFormOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.NaturalOrder;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.Glob;
import padward.design.Net;
import padward.format.form.JsonText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code nets}: the nets of a design. */
@Command(
        name = "nets",
        mixinStandardHelpOptions = true,
        description = "Lists nets with their drivers, fan-out and wires.",
        footer = {
            "",
            "Example:",
            "  padward nets --design fixtures/small/only.design.json 'pump/*'"
        })
public final class NetsCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private LimitOption limit;
    @Mixin private ListFormOption form;
    @Spec private CommandSpec spec;

    @Parameters(
            arity = "0..1",
            defaultValue = "*",
            paramLabel = "PATTERN",
            description = "Names to list; * matches any characters, ? matches one.")
    private String pattern;

    @Option(
            names = "--sort",
            paramLabel = "KEY",
            description =
                    "Sorts by name, where numbers count as numbers, or by fan-out or vertices, most "
                            + "first. Otherwise the nets are in the order of the design.")
    private Key sort;

    /** What the list can be sorted by. */
    enum Key {
        NAME(Comparator.comparing(Net::name, new NaturalOrder())),
        FAN_OUT(Comparator.comparing((Net n) -> -n.sinks().size())),
        VERTICES(Comparator.comparing((Net n) -> -n.route().size()));

        private final Comparator<Net> order;

        Key(Comparator<Net> order) {
            this.order = order;
        }

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        Glob glob = Glob.of(pattern);
        Stream<Net> matching = read.nets().stream().filter(n -> glob.matches(n.name()));
        List<Net> all = (sort == null ? matching : matching.sorted(sort.order)).toList();
        List<Net> nets = limit.start(all);
        PrintWriter out = spec.commandLine().getOut();
        if (form.isJson()) {
            Reports.Nets report =
                    new Reports.Nets(
                            nets.stream().map(n -> one(read, n)).toList(),
                            limit.leftOut(all.size()));
            out.println(JsonText.pretty(Reports.Nets.form(), report));
        } else {
            TextTable table = new TextTable("net", "driver", "fan-out", "vertices", "kind");
            for (Net net : nets) {
                table.row(
                        net.name(),
                        read.textOf(net.driver()),
                        String.valueOf(net.sinks().size()),
                        String.valueOf(net.route().size()),
                        net.clock() ? "clock" : "");
            }
            PrintWriter remarks = form.print(table, spec.commandLine());
            limit.remark(all.size()).ifPresent(remarks::println);
            if (!form.isCsv()) {
                out.println(all.size() + " of " + read.nets().size() + " nets");
            }
            if (nets.isEmpty() && !pattern.startsWith("*") && !pattern.endsWith("*")) {
                remarks.println(
                        "A pattern matches whole names: *"
                                + pattern
                                + "* matches all names that contain it.");
            }
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private static Reports.Nets.One one(Design design, Net net) {
        return new Reports.Nets.One(
                net.name(),
                design.textOf(net.driver()),
                net.sinks().size(),
                net.route().size(),
                net.clock());
    }
}
