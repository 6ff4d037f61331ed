package padward.breakout;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.fabric.Corner;
import padward.route.Engine;

/**
 * All pads for one net, ranked: open ones first, the quickest foremost; then blocked ones, those
 * with the fewest obstacles foremost; last those without a way.
 *
 * @param net the net
 * @param corner corner that ranks delays
 * @param answers one for each pad, best first
 */
public record Survey(Net net, Corner corner, List<Answer> answers) {
    /** Copies the answers. */
    public Survey {
        answers = List.copyOf(answers);
    }

    /**
     * Asks for every pad.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Survey of(
            Design design, Net net, Corner corner, Engine engine, Progress progress) {
        Asker asker = new Asker(design.fabric(), engine);
        int count = design.fabric().pads().size();
        List<Answer> answers = new ArrayList<>(count);
        for (int pad = 0; pad < count; pad++) {
            progress.report((double) pad / count, "pad " + (pad + 1) + " of " + count);
            answers.add(asker.answer(new Question(design, net, pad, corner), progress));
        }
        answers.sort(
                Comparator.comparing((Answer a) -> a instanceof Answer.NoWay)
                        .thenComparing(Survey::hazardous)
                        .thenComparingInt(Survey::obstacleCount)
                        .thenComparingInt(a -> delayPs(a, corner))
                        .thenComparingInt(a -> a.question().pad()));
        return new Survey(net, corner, answers);
    }

    /**
     * Whether something else may drive the pad: a part on the board, or whatever feeds an input.
     */
    private static boolean hazardous(Answer answer) {
        Design design = answer.question().design();
        int pad = answer.question().pad();
        boolean driven =
                design.board()
                        .findWiring(pad)
                        .map(w -> w.attachments().stream().anyMatch(t -> t.kind().drives()))
                        .orElse(false);
        return driven
                || design.findPortOn(pad)
                        .map(p -> p.direction() != PortDirection.OUT)
                        .orElse(false);
    }

    private static int obstacleCount(Answer answer) {
        if (answer instanceof Answer.Open) {
            return 0;
        }
        return answer instanceof Answer.Blocked blocked
                ? blocked.obstacles().size()
                : Integer.MAX_VALUE;
    }

    private static int delayPs(Answer answer, Corner corner) {
        if (answer instanceof Answer.Open open) {
            return open.way().total().at(corner);
        }
        return answer instanceof Answer.Blocked blocked
                ? blocked.way().total().at(corner)
                : Integer.MAX_VALUE;
    }
}
