package padward.bench;

import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.Survey;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBoundTable;
import padward.route.search.SearchEngineKind;
import padward.ui.design.SearchableNames;
import padward.ui.model.Suggestions;
import padward.unblock.why.SearchLimits;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * What users wait for, in processor time of this thread, so that a busy machine disturbs little:
 * opening a design, with the table of least delays calculated meanwhile by another thread; the first
 * ask and the first survey after that; surveying the net with the most wires against an ordinary one;
 * completing a name, among the design's and among a million ({@link NameKeys}). Fails where a promise is missed.
 *
 * <p>Argument: a design's file; a made one of a million wires when there is none.
 */
public final class Waits {
    private static final int ROUNDS = 3;
    private static final double SURVEY_RATIO = 1.5;
    private static final double ASK_MS = 1000;
    private static final double EXPLAIN_MS = 500;
    private static final double SURVEY_MS = 2000;
    private static final double KEY_MS = 5;
    private static final int KEYS = 400;

    private Waits() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        double begin = nowMs();
        Design design = BenchDesigns.open(args);
        System.out.printf(
                "%,d vertices, %,d nets: %s in %.0f ms%n",
                design.fabric().vertexCount(),
                design.nets().size(),
                args.length > 0 ? "opened" : "made",
                nowMs() - begin);
        Promises promises = new Promises();
        firstAnswers(design, promises);
        surveys(design, promises);
        keys(design, promises);
        NameKeys.measure(promises);
        System.exit(promises.report());
    }

    /**
     * What the first questions take in a process that has just read the design: of the pads with a
     * port, the first that is blocked for the net, explained; then a survey.
     */
    private static void firstAnswers(Design design, Promises promises) {
        Net net = ordinary(design);
        // Another thread may still be at it; waiting for it would not count as processor time.
        double waited = System.nanoTime() / 1e6;
        FabricIndex.of(design.fabric())
                .table(Corner.SLOW, LowerBoundTable.Goals.PADS, Progress.NONE);
        waited = System.nanoTime() / 1e6 - waited;
        System.out.printf("  waited for the table of least delays: %.0f ms by the clock%n", waited);
        double begin = nowMs() - waited;
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        Answer blocked = null;
        double askMs = 0;
        for (int i = 0; i < design.ports().size() && !(blocked instanceof Answer.Blocked); i++) {
            int pad = design.ports().get(i).pad();
            Question question = new Question(design, net, pad, Corner.SLOW);
            blocked = asker.answer(question, Progress.NONE);
            askMs = nowMs() - begin;
        }
        begin = nowMs();
        if (blocked instanceof Answer.Blocked) {
            asker.explained(blocked.question(), SearchLimits.USUAL, Progress.NONE);
        }
        double explainMs = nowMs() - begin;
        double surveyMs = survey(design, net);
        promises.atMost("first ask, up to the first pad that is blocked, ms", askMs, ASK_MS);
        promises.atMost("explaining that, ms", explainMs, EXPLAIN_MS);
        promises.atMost("first survey, ms", surveyMs, SURVEY_MS);
    }

    private static Net ordinary(Design design) {
        return design.nets().stream()
                .filter(n -> n.route().size() > 10)
                .min(Comparator.comparingInt(n -> n.route().size()))
                .orElseThrow();
    }

    private static void surveys(Design design, Promises promises) {
        Net widest =
                design.nets().stream()
                        .max(Comparator.comparingInt(n -> n.route().size()))
                        .orElseThrow();
        Net ordinary = ordinary(design);
        double wideMs = Double.MAX_VALUE;
        double ordinaryMs = Double.MAX_VALUE;
        for (int round = 0; round < ROUNDS; round++) {
            wideMs = Math.min(wideMs, survey(design, widest));
            ordinaryMs = Math.min(ordinaryMs, survey(design, ordinary));
        }
        System.out.printf(
                "  survey of a net of %,d wires %.0f ms, of one of %d %.0f ms%n",
                widest.route().size(), wideMs, ordinary.route().size(), ordinaryMs);
        promises.atMost("survey, wide net to ordinary one", wideMs / ordinaryMs, SURVEY_RATIO);
    }

    private static double survey(Design design, Net net) {
        double begin = nowMs();
        Survey.of(design, net, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
        return nowMs() - begin;
    }

    private static void keys(Design design, Promises promises) {
        List<String> all = design.nets().stream().map(Net::name).sorted().toList();
        SearchableNames names = new SearchableNames(all);
        double begin = nowMs();
        names.index();
        System.out.printf("  index of %,d names %.0f ms%n", all.size(), nowMs() - begin);
        List<String> typed = typed(all, new Random(5));
        double[] ms = new double[typed.size()];
        for (int round = 0; round < ROUNDS; round++) {
            for (int i = 0; i < ms.length; i++) {
                begin = nowMs();
                names.find(typed.get(i), Suggestions.COUNTED);
                ms[i] = nowMs() - begin;
            }
        }
        Arrays.sort(ms);
        System.out.printf("  a key: median %.3f ms, most %.1f ms%n", ms[ms.length / 2], last(ms));
        promises.atMost("a key among the design's names, p99, ms", ms[ms.length * 99 / 100], KEY_MS);
    }

    private static double last(double[] sorted) {
        return sorted[sorted.length - 1];
    }

    /** Beginnings, parts and patterns of names, some of which none has. */
    private static List<String> typed(List<String> all, Random random) {
        List<String> result = new ArrayList<>();
        while (result.size() < KEYS) {
            String name = all.get(random.nextInt(all.size()));
            int from = random.nextBoolean() ? 0 : random.nextInt(name.length());
            int to = from + 1 + random.nextInt(name.length() - from);
            String part = name.substring(from, to);
            result.add(random.nextInt(4) == 0 ? "*" + part.replace('/', '*') + "?" : part);
        }
        return result;
    }

    private static double nowMs() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1e6;
    }
}
