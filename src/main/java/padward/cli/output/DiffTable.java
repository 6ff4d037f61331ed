package padward.cli.output;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import padward.breakout.verify.DesignDiff;
import padward.breakout.verify.DesignPartDiff;
import padward.breakout.verify.Difference;
import padward.breakout.verify.NetDiff;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;

/** Prints the differences between two designs. */
public final class DiffTable {
    private final Fabric fabric;
    private final PrintWriter out;

    private DiffTable(Fabric fabric, PrintWriter out) {
        this.fabric = fabric;
        this.out = out;
    }

    public static void print(DesignDiff diff, Fabric fabric, PrintWriter out) {
        DiffTable table = new DiffTable(fabric, out);
        diff.nets().forEach(table::net);
        diff.cells().forEach(c -> table.part("Cell", c));
        diff.ports().forEach(p -> table.part("Port", p));
        if (diff.isNothing()) {
            out.println("No differences.");
        }
        DesignDiff.Same same = diff.same();
        out.println(
                "Unchanged: "
                        + same.nets()
                        + " nets with "
                        + same.steps()
                        + " switches, fixed connections and pass-throughs and "
                        + same.delays()
                        + " delays, "
                        + same.cells()
                        + " cells, "
                        + same.ports()
                        + " ports.");
    }

    private void net(NetDiff net) {
        out.println("Net " + net.name() + ": " + net.how().label());
        facts(net.how(), net.facts());
        steps("- ", net.stepsGone());
        steps("+ ", net.stepsNew());
        for (NetDiff.EndDelay end : net.ends()) {
            out.println(
                    "  to "
                            + end.end()
                            + ": "
                            + delay(end.before())
                            + " before, "
                            + delay(end.after())
                            + " after");
        }
    }

    private static String delay(Optional<Delay> delay) {
        return delay.map(Delay::toText).orElse("not reached");
    }

    /** Chains of steps are printed on one line. */
    private void steps(String mark, List<NetDiff.Step> steps) {
        StringBuilder line = new StringBuilder();
        int last = Fabric.NOTHING;
        for (NetDiff.Step step : steps) {
            if (step.from() != last) {
                flush(line);
                line.append("  ").append(mark).append(fabric.vertexName(step.from()));
            }
            line.append(" > ").append(fabric.vertexName(step.to()));
            last = step.to();
        }
        flush(line);
    }

    private void flush(StringBuilder line) {
        if (!line.isEmpty()) {
            out.println(line);
            line.setLength(0);
        }
    }

    private void part(String kind, DesignPartDiff part) {
        out.println(kind + " " + part.name() + ": " + part.how().label());
        facts(part.how(), part.facts());
    }

    private void facts(Difference how, List<NetDiff.Fact> facts) {
        for (NetDiff.Fact fact : facts) {
            String text =
                    switch (how) {
                        case GONE -> fact.before();
                        case NEW -> fact.after();
                        case CHANGED ->
                                shown(fact.before()) + " before, " + shown(fact.after()) + " after";
                    };
            out.println("  " + fact.what() + ": " + text);
        }
    }

    private static String shown(String text) {
        return text.isEmpty() ? "none" : text;
    }
}
