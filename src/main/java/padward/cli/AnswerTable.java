package padward.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Hop;
import padward.breakout.Obstacle;
import padward.breakout.Way;
import padward.design.Occupant;
import padward.fabric.EdgeKind;

/** Prints what follows an answer's sentence: obstacles, hops, cautions. */
final class AnswerTable {
    private AnswerTable() {}

    static void print(Answer answer, PrintWriter out) {
        if (answer instanceof Answer.Open open) {
            printWay(open.way(), out);
        } else if (answer instanceof Answer.Blocked blocked) {
            out.println();
            out.println("To be freed first:");
            for (Obstacle obstacle : blocked.obstacles()) {
                out.println("  " + AnswerText.obstacle(obstacle) + ", in tile " + obstacle.tile());
            }
            printWay(blocked.way(), out);
        }
        out.println();
        out.println("Cautions:");
        answer.cautions().forEach(c -> out.println("  - " + c));
    }

    private static void printWay(Way way, PrintWriter out) {
        TextTable table = new TextTable("reached", "by", "delay", "from driver", "");
        for (Hop hop : way.hops()) {
            table.row(
                    hop.name(),
                    hop.edge().map(EdgeKind::label).orElse("driver"),
                    hop.edge().isEmpty() ? "" : hop.step().toText(),
                    hop.total().toText(),
                    remark(hop));
        }
        way.setting()
                .ifPresent(
                        s ->
                                table.row(
                                        "outside the pad",
                                        "pad driver",
                                        s.delay().toText(),
                                        way.total().toText(),
                                        "set to " + s.name()));
        out.println();
        table.print(out);
    }

    private static String remark(Hop hop) {
        List<String> remarks = new ArrayList<>();
        if (hop.onNet()) {
            remarks.add("on the net already");
        }
        hop.obstacle()
                .ifPresent(
                        o ->
                                remarks.add(
                                        "held by "
                                                + (o instanceof Occupant.ByCell ? "cell " : "net ")
                                                + o.name()));
        return String.join(", ", remarks);
    }
}
