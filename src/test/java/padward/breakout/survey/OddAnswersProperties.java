package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.example.OddDesigns;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;

/**
 * On odd little designs: the survey says what a question about one pad says; what is proposed can
 * be kept; and the design with it, written and read again, answers with the delay that was told.
 */
class OddAnswersProperties {
    private static final SearchLimits LIMITS = new SearchLimits(10_000_000, 60_000, 4, 1);

    @TempDir private Path folder;
    private int kept;
    private int blocked;
    private int questions;

    @Test
    void whatIsSaidHolds() throws BadInput {
        check(0, 400);
        assertThat(kept).isGreaterThan(1_000);
        assertThat(blocked).isGreaterThan(300);
    }

    @Test
    void whatIsSaidHoldsWhereSwitchesExcludeEachOther() throws BadInput {
        check(OddDesigns.WITH_SWITCH_GROUPS, OddDesigns.WITH_SWITCH_GROUPS + 400);
        assertThat(kept).isGreaterThan(1_000);
        assertThat(blocked).isGreaterThan(300);
    }

    @Test
    void whatIsSaidHoldsWhereSitesHaveParts() throws BadInput {
        check(OddDesigns.WITH_PARTS, OddDesigns.WITH_PARTS + 300);
        assertThat(kept).isGreaterThan(700);
        assertThat(blocked).isGreaterThan(200);
    }

    /** The port's disconnection frees wires of its enable too, over which the only route leads. */
    @Test
    void surveysKnowWhatAnEnableGivesBack() throws BadInput {
        check(8_071, 8_072);
        check(OddDesigns.WITH_LOCKS + 641, OddDesigns.WITH_LOCKS + 642);
    }

    @Test
    @Tag("slow")
    void whatIsSaidHoldsOnThousands() throws BadInput {
        check(400, 20_000);
        assertThat(questions).isGreaterThan(150_000);
    }

    @Test
    @Tag("slow")
    void whatIsSaidHoldsWhereSwitchesExcludeEachOtherOnThousands() throws BadInput {
        check(OddDesigns.WITH_SWITCH_GROUPS + 400, OddDesigns.WITH_SWITCH_GROUPS + 3_000);
    }

    @Test
    void whatIsSaidHoldsWhereSomeIsLockedOrUnusable() throws BadInput {
        check(OddDesigns.WITH_LOCKS, OddDesigns.WITH_LOCKS + 500);
        assertThat(kept).isGreaterThan(700);
        assertThat(blocked).isGreaterThan(150);
    }

    @Test
    void whatIsSaidHoldsWhereTwoNetsAreOnAPad() throws BadInput {
        check(OddDesigns.WITH_TWO_NETS_ON_PADS, OddDesigns.WITH_TWO_NETS_ON_PADS + 400);
        assertThat(kept).isGreaterThan(700);
        assertThat(blocked).isGreaterThan(150);
    }

    @Test
    @Tag("slow")
    void whatIsSaidHoldsWhereSomeIsLockedOrUnusableOnThousands() throws BadInput {
        check(OddDesigns.WITH_LOCKS + 500, OddDesigns.WITH_LOCKS + 5_000);
    }

    private void check(long from, long to) throws BadInput {
        for (long seed = from; seed < to; seed++) {
            Design design = OddDesigns.make(seed);
            Corner corner = seed % 2 == 0 ? Corner.SLOW : Corner.FAST;
            Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
            // Files are slow: every tenth design is written too.
            boolean written = seed % 10 == 0;
            if (written) {
                FabricWriter.write(design.fabric(), folder.resolve("f.json"));
                reread(design, "seed " + seed);
            }
            for (Net net : design.nets()) {
                Survey survey = Survey.of(design, net, corner, SearchEngineKind.OWN, Progress.NONE);
                Map<Integer, Answer> byPad = new HashMap<>();
                survey.answers().forEach(a -> byPad.put(a.question().pad(), a));
                assertThat(byPad).hasSameSizeAs(design.fabric().pads());
                for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
                    String what = "seed " + seed + " " + net.name() + " to P" + pad;
                    Question question = new Question(design, net, pad, corner);
                    questions++;
                    same(byPad.get(pad), asker.answer(question, Progress.NONE), what);
                    Answer answer = asker.explained(question, LIMITS, Progress.NONE);
                    agree(byPad.get(pad), answer, what);
                    checkKept(asker, answer, written, what);
                }
            }
        }
    }

    /** Two fast answers to one question. */
    private static void same(Answer surveyed, Answer alone, String what) {
        assertThat(surveyed.getClass()).as(what).isEqualTo(alone.getClass());
        assertThat(surveyed.findRoute().map(r -> r.total().at(corner(alone))))
                .as(what)
                .isEqualTo(alone.findRoute().map(r -> r.total().at(corner(alone))));
        if (surveyed instanceof Answer.Blocked one && alone instanceof Answer.Blocked other) {
            assertThat(one.obstacles()).as(what).isNotEmpty().hasSameSizeAs(other.obstacles());
        }
        if (surveyed instanceof Answer.NoRoute one && alone instanceof Answer.NoRoute other) {
            assertThat(one.reason()).as(what).isEqualTo(other.reason());
        }
    }

    private static Corner corner(Answer answer) {
        return answer.question().corner();
    }

    /** A fast answer and the explained one. */
    private static void agree(Answer fast, Answer explained, String what) {
        assertThat(fast.getClass()).as(what).isEqualTo(explained.getClass());
        if (fast instanceof Answer.Blocked one && explained instanceof Answer.Blocked other) {
            assertThat(one.obstacles().size())
                    .as(what)
                    .isGreaterThanOrEqualTo(other.obstacles().size());
        }
        if (fast instanceof Answer.FreeRoute) {
            assertThat(fast.findRoute().orElseThrow().total().at(corner(fast)))
                    .as(what)
                    .isEqualTo(explained.findRoute().orElseThrow().total().at(corner(fast)));
        }
    }

    private void checkKept(Asker asker, Answer answer, boolean written, String what)
            throws BadInput {
        if (answer instanceof Answer.FreeRoute open && !AnswerEdits.isThere(open)) {
            checkKept(asker, answer, AnswerEdits.of(open), open.route(), written, what);
            List<Edit> room = open.disconnected().map(d -> List.of(d.toEdit())).orElse(List.of());
            checkQuickest(asker, answer, room, open.route(), what);
        }
        if (answer instanceof Answer.Blocked used) {
            blocked++;
            for (WhyBlocked.Option option : used.why().orElseThrow().options()) {
                checkKept(
                        asker, answer, AnswerEdits.of(used, option), option.route(), written, what);
                List<Edit> room = option.option().removing(used.disconnected());
                checkQuickest(asker, answer, room, option.route(), what + room);
            }
        }
    }

    private void checkKept(
            Asker asker,
            Answer answer,
            List<Edit> edits,
            Route foretold,
            boolean written,
            String what)
            throws BadInput {
        String all = what + ": " + new ArrayList<>(edits);
        Outcome outcome = Outcome.of(answer.question().design(), edits);
        assertThat(outcome).as(all).isInstanceOf(Outcome.Applied.class);
        Design after = ((Outcome.Applied) outcome).design();
        Question question = answer.question();
        Net net = after.findNet(question.net().name()).orElseThrow();
        Answer then =
                asker.answer(
                        new Question(after, net, question.pad(), question.corner()), Progress.NONE);
        assertThat(then).as(all).isInstanceOf(Answer.Open.class);
        assertThat(then.findRoute().orElseThrow().total()).as(all).isEqualTo(foretold.total());
        kept++;
        if (written) {
            reread(after, all);
        }
    }

    /**
     * Once all obstacles are removed, and none moved, no route is faster than the one foretold;
     * unless a branch of the net itself went with a cell that it fed, which leaves its wires free.
     */
    private static void checkQuickest(
            Asker asker, Answer answer, List<Edit> room, Route foretold, String what) {
        Question question = answer.question();
        Design after = Outcome.apply(question.design(), room);
        Net net = after.findNet(question.net().name()).orElseThrow();
        Answer then =
                asker.answer(
                        new Question(after, net, question.pad(), question.corner()), Progress.NONE);
        assertThat(then).as(what).isInstanceOf(Answer.FreeRoute.class);
        int quickest = then.findRoute().orElseThrow().toPadVertex().at(question.corner());
        int told = foretold.toPadVertex().at(question.corner());
        if (net.route().equals(question.net().route())) {
            assertThat(quickest).as(what).isEqualTo(told);
        } else {
            assertThat(quickest).as(what).isLessThanOrEqualTo(told);
        }
    }

    private void reread(Design design, String what) throws BadInput {
        Path file = folder.resolve("d.json");
        DesignWriter.write(design, file, "f.json", "");
        try {
            Design read = DesignReader.read(file, Progress.NONE);
            assertThat(read.nets()).as(what).hasSameSizeAs(design.nets());
            Files.delete(file);
        } catch (BadInput | java.io.IOException fault) {
            throw new AssertionError(what, fault);
        }
    }
}
