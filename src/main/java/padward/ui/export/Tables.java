package padward.ui.export;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Hop;
import padward.breakout.Obstacle;
import padward.breakout.Survey;
import padward.breakout.Way;
import padward.breakout.WhyBlocked;
import padward.breakout.WhyText;
import padward.clearance.Removal;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.fabric.Delay;
import padward.fabric.Pad;
import padward.ui.nets.NetRow;
import padward.ui.scene.Opened;

/** What the window shows in lists, as tables for files; delays in picoseconds. */
final class Tables {
    private Tables() {}

    /** All pads for a net, best first. */
    static Table waysOut(Survey survey) {
        Table.Builder table =
                new Table.Builder(
                        "rank",
                        "net",
                        "pad",
                        "packagePin",
                        "answer",
                        "fast_ps",
                        "slow_ps",
                        "atStake",
                        "inTheWay",
                        "givesUp",
                        "onTheBoard");
        int rank = 1;
        for (Answer answer : survey.answers()) {
            Pad pad = answer.question().padValue();
            Optional<Delay> delay = answer.findWay().map(Way::total);
            Design design = answer.question().design();
            table.row(
                    rank++,
                    survey.net().name(),
                    pad.name(),
                    pad.packagePin(),
                    AnswerText.word(answer),
                    delay.map(Delay::fastPs).map(String::valueOf).orElse(""),
                    delay.map(Delay::slowPs).map(String::valueOf).orElse(""),
                    AnswerText.atStake(answer),
                    inTheWay(answer),
                    design.findPortOn(answer.question().pad()).map(Port::name).orElse(""),
                    AnswerText.onBoard(answer.question()));
        }
        return table.build();
    }

    private static String inTheWay(Answer answer) {
        return answer instanceof Answer.Blocked blocked
                ? blocked.obstacles().stream()
                        .map(o -> WhyText.who(o.occupant()))
                        .collect(Collectors.joining(", "))
                : "";
    }

    /** All nets of a design. O(size of the design). */
    static Table nets(Opened opened, Progress progress) {
        Table.Builder table =
                new Table.Builder(
                        "net",
                        "driver",
                        "fanOut",
                        "vertices",
                        "latestFast_ps",
                        "latestSlow_ps",
                        "clock",
                        "wayOut");
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
                    opened.outlets().leadOutOf(net) ? "yes" : "no");
        }
        return table.build();
    }

    /** What would open a blocked way: a row for each obstacle of each clearance. */
    static Table openings(Answer.Blocked blocked, List<WhyBlocked.Option> options) {
        Table.Builder table =
                new Table.Builder(
                        "clearance",
                        "obstacle",
                        "holds",
                        "holdsKind",
                        "consequence",
                        "onEveryWay",
                        "fast_ps",
                        "slow_ps");
        int number = 1;
        for (WhyBlocked.Option option : options) {
            List<Removal> removals = option.clearance().removals();
            for (int i = 0; i < removals.size(); i++) {
                Obstacle obstacle = option.obstacles().get(i);
                table.row(
                        number,
                        WhyText.who(obstacle.occupant()),
                        obstacle.resource(),
                        obstacle.resourceKind(),
                        WhyText.consequence(blocked, removals.get(i)),
                        removals.get(i).onEveryWay() ? "yes" : "no",
                        option.way().total().fastPs(),
                        option.way().total().slowPs());
            }
            number++;
        }
        return table.build();
    }

    /** A way hop by hop; the pad's driver comes last where its delay is known. */
    static Table hops(Way way) {
        Table.Builder table =
                new Table.Builder(
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
                        "heldBy");
        int number = 0;
        for (Hop hop : way.hops()) {
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
        if (way.setting().isPresent()) {
            table.row(
                    number,
                    "pad driver",
                    "driver",
                    "",
                    "",
                    way.total().fastPs() - way.toPadVertex().fastPs(),
                    way.total().slowPs() - way.toPadVertex().slowPs(),
                    way.total().fastPs(),
                    way.total().slowPs(),
                    "no",
                    "");
        }
        return table.build();
    }
}
