package padward.bench;

import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;
import padward.unblock.UnblockExplanation;
import padward.unblock.move.Consequence;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.SearchLimits;

import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;

/**
 * Explains 200 blocked questions about a routed design, and applies the first option to unblock of
 * each, with moves and without. Prints how many are proven within a second of this thread's processor
 * time, and fails if fewer than 95 in 100 are, if an option does not open a route, or if, at up to
 * 2.5 million vertices, explaining takes longer than is promised.
 *
 * <p>Argument: a design's file; a number of wires for a made irregular one, 180000 for some
 * 220,000 vertices; the workbench example when there is none.
 */
public final class Blocked {
    static final String EXAMPLE = "fixtures/workbench/design.json.gz";
    private static final int QUESTIONS = 200;
    private static final double PROMISED_SHARE = 0.95;
    private static final double PROMISED_MS = 1000;
    private static final double PROMISED_MEAN_MS = 30;
    private static final double PROMISED_MOST_MS = 250;

    /** The greatest design for which mean and most are promised. */
    private static final int VERTICES = 2_500_000;

    private Blocked() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        Design design = open(args.length > 0 ? args[0] : EXAMPLE);
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        Random random = new Random(4);
        double[] ms = new double[QUESTIONS];
        int[] byCount = new int[8];
        int[] byConsequence = new int[3];
        int asked = 0;
        int proven = 0;
        int options = 0;
        int opened = 0;
        int openedByMoves = 0;
        int tried = 0;
        while (asked < QUESTIONS) {
            tried++;
            Net net = design.nets().get(random.nextInt(design.nets().size()));
            int pad = random.nextInt(design.fabric().pads().size());
            Question question = new Question(design, net, pad, Corner.SLOW);
            if (!(asker.answer(question, Progress.NONE) instanceof Answer.Blocked)) {
                continue;
            }
            double begin = nowMs();
            Answer.Blocked blocked =
                    (Answer.Blocked) asker.explained(question, SearchLimits.USUAL, Progress.NONE);
            ms[asked] = nowMs() - begin;
            UnblockExplanation explanation = blocked.why().orElseThrow().explanation();
            UnblockOption best = explanation.best();
            proven += explanation.provenFewest() && ms[asked] <= PROMISED_MS ? 1 : 0;
            byCount[Math.min(best.removals().size(), byCount.length - 1)]++;
            options += explanation.options().size();
            for (Removal removal : best.removals()) {
                byConsequence[kind(removal.consequence())]++;
            }
            opened += isOpen(asker, question, best.removing(blocked.disconnected())) ? 1 : 0;
            openedByMoves += isOpen(asker, question, best.edits(blocked.disconnected())) ? 1 : 0;
            asked++;
        }
        Arrays.sort(ms);
        double mean = Arrays.stream(ms).average().orElseThrow();
        System.out.printf(
                "%,d vertices, %,d nets; %d blocked questions among %d%n",
                design.fabric().vertexCount(), design.nets().size(), asked, tried);
        System.out.printf(
                "  explained in: mean %.1f  p50 %.0f  p90 %.0f  p99 %.0f  most %.0f ms%n",
                mean,
                ms[asked / 2],
                ms[asked * 9 / 10],
                ms[asked * 99 / 100],
                ms[asked - 1]);
        System.out.printf(
                "  obstacles of the first option, 1 to 6, and more: %s; options listed: %.1f%n",
                Arrays.toString(Arrays.copyOfRange(byCount, 1, byCount.length)),
                (double) options / asked);
        System.out.printf(
                "  obstacles that are removable %d, movable %d, lose function %d%n",
                byConsequence[0], byConsequence[1], byConsequence[2]);
        System.out.printf(
                "  proven fewest within %.0f ms: %d of %d; opened by removing: %d; by moving: %d%n",
                PROMISED_MS, proven, asked, opened, openedByMoves);
        Promises promises = new Promises();
        promises.atLeast("proven fewest in time, share", (double) proven / asked, PROMISED_SHARE);
        promises.atLeast("opened by removing, share", (double) opened / asked, 1);
        promises.atLeast("opened by moving, share", (double) openedByMoves / asked, 1);
        if (design.fabric().vertexCount() <= VERTICES) {
            promises.atMost("explaining, mean, ms", mean, PROMISED_MEAN_MS);
            promises.atMost("explaining, most, ms", ms[asked - 1], PROMISED_MOST_MS);
        }
        System.exit(promises.report());
    }

    /** The design of an argument, see above. */
    static Design open(String what) throws BadInput {
        return what.matches("\\d+")
                ? DesignMaker.makeIrregular(Integer.parseInt(what), 5, 0.6, Progress.NONE).design()
                : DesignReader.read(Path.of(what), Progress.NONE);
    }

    private static double nowMs() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1e6;
    }

    private static int kind(Consequence consequence) {
        if (consequence instanceof Consequence.Removable) {
            return 0;
        }
        return consequence instanceof Consequence.Movable ? 1 : 2;
    }

    private static boolean isOpen(Asker asker, Question question, List<Edit> edits) {
        Design after = Outcome.apply(question.design(), new ArrayList<>(edits));
        Optional<Net> net = after.findNet(question.net().name());
        return net.isPresent()
                && asker.answer(
                                new Question(after, net.get(), question.pad(), question.corner()),
                                Progress.NONE)
                        instanceof Answer.FreeRoute;
    }
}
