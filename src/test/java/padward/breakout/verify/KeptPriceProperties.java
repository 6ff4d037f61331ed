package padward.breakout.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.example.OddDesigns;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;
import padward.unblock.why.SearchLimits;

/** The edits of an answer cost what the answer costs, whichever option is taken. */
class KeptPriceProperties {
    private final Map<Price.Fate, Integer> fates = new EnumMap<>(Price.Fate.class);
    private int compared;
    private int delayed;

    private void compare(Design design, Net net, int pad, String what) {
        Question question = new Question(design, net, pad, Corner.SLOW);
        Answer answer =
                new Asker(design.fabric(), SearchEngineKind.OWN)
                        .explained(question, SearchLimits.USUAL, Progress.NONE);
        if (answer instanceof Answer.FreeRoute free && !AnswerEdits.isThere(free)) {
            check(design, AnswerEdits.of(free), Price.of(answer), what);
        } else if (answer instanceof Answer.Blocked blocked) {
            for (WhyBlocked.Option option : blocked.why().orElseThrow().options()) {
                check(
                        design,
                        AnswerEdits.of(blocked, option),
                        Price.of(question, option.option().removals()),
                        what);
            }
        }
    }

    private void check(Design design, List<Edit> edits, Price told, String what) {
        if (!(Outcome.of(design, edits) instanceof Outcome.Applied)) {
            return;
        }
        Price kept = KeptPrice.of(design, edits);
        String with = what + ": " + edits;
        same(kept.ports(), told.ports(), with);
        same(kept.follows(), told.follows(), with);
        same(kept.drives(), told.drives(), with);
        same(kept.obstacles(), told.obstacles(), with);
        same(kept.moved(), told.moved(), with);
        same(kept.lost(), told.lost(), with);
        compared++;
        delayed += told.moved().size();
        told.obstacles().forEach(o -> fates.merge(o.fate(), 1, Integer::sum));
    }

    private static <T> void same(List<T> one, List<T> other, String what) {
        assertThat(new HashSet<>(one)).as(what).isEqualTo(new HashSet<>(other));
    }

    private void ask(Design design, Random random, int questions, String what) {
        List<Net> nets = List.copyOf(design.nets());
        for (int i = 0; i < questions && !nets.isEmpty(); i++) {
            Net net = nets.get(random.nextInt(nets.size()));
            compare(design, net, random.nextInt(design.fabric().pads().size()), what);
        }
    }

    @Test
    void onOddDesigns() {
        for (long seed = 0; seed < 400; seed++) {
            long kind =
                    List.of(
                                    0L,
                                    OddDesigns.WITH_PARTS,
                                    OddDesigns.WITH_ALIKE_PINS,
                                    OddDesigns.WITH_TWO_NETS_ON_PADS)
                            .get((int) (seed % 4));
            ask(OddDesigns.make(kind + seed), new Random(seed), 6, "seed " + (kind + seed));
        }
        assertThat(compared).isGreaterThan(300);
        assertThat(fates.keySet())
                .contains(Price.Fate.REMOVABLE, Price.Fate.MOVABLE, Price.Fate.LOSES_FUNCTION);
        assertThat(delayed).isPositive();
    }

    @Test
    void onMadeDesigns() {
        for (long seed = 0; seed < 2; seed++) {
            Design design = DesignMaker.make(3_000, seed, 0.8, Progress.NONE).design();
            ask(design, new Random(seed), 25, "made, seed " + seed);
        }
        assertThat(compared).isGreaterThan(20);
        assertThat(fates).containsKey(Price.Fate.REMOVABLE);
    }

    @Test
    void nothingKeptCostsNothing() {
        Design design = OddDesigns.make(1);
        assertThat(KeptPrice.of(design, List.of())).isEqualTo(Price.NOTHING);
    }
}
