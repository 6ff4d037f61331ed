package padward.cli.output;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.ask.NearbySignal;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.AnswerText;
import padward.breakout.text.WhyText;
import padward.design.Occupant;
import padward.fabric.EdgeKind;
import padward.unblock.UnblockExplanation;
import padward.unblock.weigh.Removal;

/** Prints what follows an answer's sentence: obstacles, hops, cautions. */
public final class AnswerTable {
    private AnswerTable() {}

    public static void print(Answer answer, PrintWriter out) {
        if (answer instanceof Answer.FreeRoute free) {
            printRoute(free.route(), out);
            String narrow = WhyText.everyFreeRoute(free);
            if (!narrow.isEmpty()) {
                out.println();
                out.println(narrow);
            }
        } else if (answer instanceof Answer.Blocked blocked) {
            blocked.why()
                    .ifPresentOrElse(
                            w -> printWhy(blocked, w, out), () -> printObstacles(blocked, out));
            printRoute(blocked.route(), out);
        } else if (answer instanceof Answer.NoRoute none && !none.nearby().isEmpty()) {
            printNearby(none, out);
        }
        CautionTable.print(answer.cautions(), out);
    }

    private static void printObstacles(Answer.Blocked blocked, PrintWriter out) {
        out.println();
        out.println("Must be removed first:");
        for (Obstacle obstacle : blocked.obstacles()) {
            out.println("  " + AnswerText.obstacle(obstacle) + ", in tile " + obstacle.tile());
        }
    }

    private static void printWhy(Answer.Blocked blocked, WhyBlocked why, PrintWriter out) {
        UnblockExplanation explanation = why.explanation();
        String narrow = WhyText.oneOfThese(explanation);
        if (!narrow.isEmpty()) {
            out.println();
            out.println(narrow);
        }
        out.println();
        out.println("Options to unblock, best first. " + WhyText.proof(explanation));
        int number = 1;
        for (WhyBlocked.Option option : why.options()) {
            String total = option.route().total().toText();
            out.println("  " + number++ + ". " + WhyText.option(option.option()) + ": " + total);
            List<Removal> removals = option.option().removals();
            for (int i = 0; i < removals.size(); i++) {
                Obstacle obstacle = option.obstacles().get(i);
                String every = removals.get(i).onEveryRoute() ? "; on every route" : "";
                out.println("     " + AnswerText.obstacle(obstacle) + every);
                out.println("       " + WhyText.consequence(blocked, removals.get(i)));
            }
        }
        out.println();
        out.println("Route with option 1:");
    }

    private static void printNearby(Answer.NoRoute none, PrintWriter out) {
        out.println();
        out.println("Related signals that do reach the pad:");
        TextTable table = new TextTable("net", "relation", "answer");
        for (NearbySignal signal : none.nearby()) {
            table.row(signal.net().name(), signal.difference(), AnswerText.word(signal.answer()));
        }
        table.print(out);
    }

    private static void printRoute(Route route, PrintWriter out) {
        TextTable table = new TextTable("vertex", "reached by", "delay", "from driver", "");
        for (Hop hop : route.hops()) {
            table.row(
                    hop.name(),
                    hop.edge().map(EdgeKind::label).orElse("driver"),
                    hop.edge().isEmpty() ? "" : hop.step().toText(),
                    hop.total().toText(),
                    remark(hop));
        }
        route.setting()
                .ifPresent(
                        s ->
                                table.row(
                                        "at the pin, rated load",
                                        "pad driver",
                                        route.total().less(route.toPadVertex()).toText(),
                                        route.total().toText(),
                                        "setting " + s.name()));
        out.println();
        table.print(out);
        route.setting()
                .flatMap(s -> s.shortestLevels(s.output().map(o -> o.ratedPf()).orElse(0.0)))
                .ifPresent(text -> out.println("At the rated load: " + text));
    }

    private static String remark(Hop hop) {
        List<String> remarks = new ArrayList<>();
        if (hop.onNet()) {
            remarks.add("already on the net");
        }
        hop.obstacle()
                .ifPresent(
                        o ->
                                remarks.add(
                                        "used by "
                                                + (o instanceof Occupant.ByCell ? "cell " : "net ")
                                                + o.name()));
        return String.join(", ", remarks);
    }
}
