package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.text.AnswerText;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;

/** The survey's sweeps tell the same as a question for each pad, asked of JGraphT's search. */
class SurveyTest {
    @ParameterizedTest
    @CsvSource({"only, SLOW", "only, FAST", "around, SLOW", "around, FAST"})
    void smallExample(String name, Corner corner) throws Exception {
        Path file = Path.of("fixtures/small/" + name + ".design.json");
        Design design = DesignReader.read(file, Progress.NONE);
        design.nets().forEach(n -> compare(design, n, corner));
    }

    @ParameterizedTest
    @CsvSource({"1", "2", "3"})
    void madeDesigns(long seed) {
        Design design = DesignMaker.make(8000, seed, 0.8, Progress.NONE).design();
        Random random = new Random(seed);
        for (int i = 0; i < 4; i++) {
            Net net = design.nets().get(random.nextInt(design.nets().size()));
            compare(design, net, Corner.values()[random.nextInt(2)]);
        }
    }

    private static void compare(Design design, Net net, Corner corner) {
        List<Answer> swept =
                Survey.of(design, net, corner, SearchEngineKind.OWN, Progress.NONE).answers();
        List<Answer> asked =
                Survey.of(design, net, corner, SearchEngineKind.REFERENCE, Progress.NONE).answers();
        assertThat(swept).hasSameSizeAs(asked);
        for (Answer one : swept) {
            Answer other =
                    asked.stream()
                            .filter(a -> a.question().pad() == one.question().pad())
                            .findFirst()
                            .orElseThrow();
            assertThat(AnswerText.word(one)).isEqualTo(AnswerText.word(other));
            assertThat(route(one)).isEqualTo(route(other));
            assertThat(stretches(one)).isEqualTo(stretches(other));
        }
    }

    private static int route(Answer answer) {
        if (answer instanceof Answer.FreeRoute open) {
            return open.route().total().at(answer.question().corner());
        }
        return answer instanceof Answer.Blocked blocked
                ? blocked.route().total().at(answer.question().corner())
                : -1;
    }

    /** How many times the way comes to another occupant. */
    private static int stretches(Answer answer) {
        int count = 0;
        if (answer instanceof Answer.Blocked blocked) {
            List<Hop> hops = blocked.route().hops();
            for (int i = 1; i < hops.size(); i++) {
                boolean used = hops.get(i).obstacle().isPresent();
                boolean another = !hops.get(i).obstacle().equals(hops.get(i - 1).obstacle());
                count += used && another ? 1 : 0;
            }
        }
        return count;
    }
}
