package padward.ui.export;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.survey.PadRank;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.breakout.text.WhyText;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.fabric.Pad;
import padward.fabric.delay.Delay;
import padward.ui.design.OpenDesign;
import padward.ui.nets.NetRow;
import padward.unblock.weigh.Removal;

/** The lists of the window as tables for CSV files; delays in picoseconds. */
final class CsvTables {
    private CsvTables() {}

    /** All pads for a net, best first. */
    static CsvTable routesOut(Survey survey) {
        CsvTable.Builder table =
                new CsvTable.Builder(
                        "rank",
                        "rankReason",
                        "net",
                        "pad",
                        "packagePin",
                        "answer",
                        "fast_ps",
                        "slow_ps",
                        "wouldLoseSignal",
                        "blocking",
                        "replacesPort",
                        "onTheBoard");
        int rank = 1;
        for (Answer answer : survey.answers()) {
            Pad pad = answer.question().padValue();
            Optional<Delay> delay = answer.findRoute().map(Route::total);
            Design design = answer.question().design();
            table.row(
                    rank++,
                    PadRank.of(answer).reason(),
                    survey.net().name(),
                    pad.name(),
                    pad.packagePin(),
                    AnswerText.word(answer),
                    delay.map(Delay::fastPs).map(String::valueOf).orElse(""),
                    delay.map(Delay::slowPs).map(String::valueOf).orElse(""),
                    AnswerText.wouldLose(answer),
                    obstacleNames(answer),
                    design.findPortOn(answer.question().pad()).map(Port::name).orElse(""),
                    AnswerText.onBoard(answer.question()));
        }
        return table.build();
    }

    private static String obstacleNames(Answer answer) {
        return answer instanceof Answer.Blocked blocked
                ? blocked.obstacles().stream()
                        .map(o -> WhyText.who(o.occupant()))
                        .collect(Collectors.joining(", "))
                : "";
    }

    /** All nets of a design. O(size of the design). */
    static CsvTable nets(OpenDesign opened, Progress progress) {
        CsvTable.Builder table =
                new CsvTable.Builder(
                        "net",
                        "driver",
                        "fanOut",
                        "vertices",
                        "latestFast_ps",
                        "latestSlow_ps",
                        "clock",
                        "routesOut");
        Design design = opened.design();
        for (Net net : design.nets()) {
            progress.report((double) net.id() / design.nets().size(), net.name());
            Optional<Delay> latest = NetRow.findLatest(design, net);
            table.row(
                    net.name(),
                    design.textOf(net.driver()),
                    net.sinks().size(),
                    net.route().size(),
                    latest.map(Delay::fastPs).map(String::valueOf).orElse(""),
                    latest.map(Delay::slowPs).map(String::valueOf).orElse(""),
                    net.clock() ? "yes" : "no",
                    opened.padReachability().leadOutOf(net) ? "yes" : "no");
        }
        return table.build();
    }

    /** The options to unblock: one row per obstacle of each option. */
    static CsvTable options(Answer.Blocked blocked, List<WhyBlocked.Option> options) {
        CsvTable.Builder table =
                new CsvTable.Builder(
                        "option",
                        "obstacle",
                        "resource",
                        "resourceKind",
                        "consequence",
                        "onEveryRoute",
                        "fast_ps",
                        "slow_ps");
        int number = 1;
        for (WhyBlocked.Option option : options) {
            List<Removal> removals = option.option().removals();
            for (int i = 0; i < removals.size(); i++) {
                Obstacle obstacle = option.obstacles().get(i);
                table.row(
                        number,
                        WhyText.who(obstacle.occupant()),
                        obstacle.resource(),
                        obstacle.resourceKind(),
                        WhyText.consequence(blocked, removals.get(i)),
                        removals.get(i).onEveryRoute() ? "yes" : "no",
                        option.route().total().fastPs(),
                        option.route().total().slowPs());
            }
            number++;
        }
        return table.build();
    }

    /** A route hop by hop; the pad driver comes last where its delay is known. */
    static CsvTable hops(Route route) {
        CsvTable.Builder table =
                new CsvTable.Builder(
                        "hop",
                        "name",
                        "kind",
                        "tile",
                        "edge",
                        "stepFast_ps",
                        "stepSlow_ps",
                        "fast_ps",
                        "slow_ps",
                        "onNet",
                        "usedBy");
        int number = 0;
        for (Hop hop : route.hops()) {
            table.row(
                    number++,
                    hop.name(),
                    hop.kind().name().toLowerCase(Locale.ROOT),
                    hop.tile(),
                    hop.edge().map(e -> e.name().toLowerCase(Locale.ROOT)).orElse(""),
                    hop.step().fastPs(),
                    hop.step().slowPs(),
                    hop.total().fastPs(),
                    hop.total().slowPs(),
                    hop.onNet() ? "yes" : "no",
                    hop.obstacle().map(WhyText::who).orElse(""));
        }
        if (route.setting().isPresent()) {
            table.row(
                    number,
                    "pad driver",
                    "driver",
                    "",
                    "",
                    route.total().fastPs() - route.toPadVertex().fastPs(),
                    route.total().slowPs() - route.toPadVertex().slowPs(),
                    route.total().fastPs(),
                    route.total().slowPs(),
                    "no",
                    "");
        }
        return table.build();
    }
}
