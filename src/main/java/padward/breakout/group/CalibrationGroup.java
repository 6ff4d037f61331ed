package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.RouteBuilder;
import padward.breakout.ask.WantedDriver;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.route.search.VertexPath;
import padward.unblock.release.QuestionContext;

/**
 * One net brought out on several pads at once: its changes leave all of them together, but for what
 * their lines differ by, so that one capture shows the differences of the lines.
 */
public final class CalibrationGroup {
    private CalibrationGroup() {}

    /**
     * Brings a net out on pads, one after the other, each over the shortest route that is then
     * free.
     *
     * @param pads indices of the pads
     * @param ports whether ports may lose their pads
     * @param driver what is wanted of the pads' drivers
     * @return a line for each pad that was reached; the others are named with the reason
     * @throws CancellationException when {@code progress} says so
     */
    public static Bus of(
            Design design,
            Net net,
            List<Integer> pads,
            Bus.Ports ports,
            WantedDriver driver,
            Progress progress) {
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        Design now = design;
        List<Edit> edits = new ArrayList<>();
        List<Bus.Left> left = new ArrayList<>();
        List<Integer> reached = new ArrayList<>();
        long alonePs = 0;
        for (int pad : pads) {
            progress.check();
            progress.report((double) reached.size() / pads.size(), "calibrating " + net.name());
            String name = design.fabric().pads().get(pad).name();
            Net own = now.findNet(net.name()).orElseThrow();
            Question question = new Question(now, own, pad, Corner.SLOW, driver);
            if (ports == Bus.Ports.KEEP && question.losingPort().isPresent()) {
                left.add(new Bus.Left(net, "a port would lose pad " + name, false));
                continue;
            }
            if (!(asker.answer(question, progress) instanceof Answer.FreeRoute free)) {
                left.add(new Bus.Left(net, "no free route to " + name, false));
                continue;
            }
            List<Edit> out = AnswerEdits.of(free);
            Outcome outcome = Outcome.of(now, out);
            if (outcome instanceof Outcome.Refused refused) {
                String why = String.join("; ", refused.reasons());
                left.add(new Bus.Left(net, "pad " + name + " cannot be added: " + why, false));
                continue;
            }
            now = ((Outcome.Applied) outcome).design();
            edits.addAll(out);
            reached.add(pad);
            alonePs += free.route().total().slowPs();
        }
        List<Bus.Line> lines = new ArrayList<>();
        for (int pad : reached) {
            lines.add(line(design, now, net, pad, driver));
        }
        return new Bus(lines, left, edits, alonePs, Optional.empty());
    }

    /** A line as it is in the end, with the load of all the others. */
    private static Bus.Line line(
            Design before, Design after, Net net, int pad, WantedDriver driver) {
        Net own = after.findNet(net.name()).orElseThrow();
        Question question = new Question(after, own, pad, Corner.SLOW, driver);
        QuestionContext context =
                new QuestionContext(after, own, Optional.empty(), question.padValue());
        int vertex = question.padValue().vertex();
        Route route = new RouteBuilder(question, context).build(new VertexPath(new int[] {vertex}));
        return new Bus.Line(net, pad, route, DriverFit.standing(before, pad));
    }
}
