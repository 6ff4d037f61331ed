package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.example.CountingFabric;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;

/** A survey works out once, and not for each pad, what does not depend on the pad. */
class SurveyWorkTest {
    private static final Design MADE = DesignMaker.make(12000, 5, 0.8, Progress.NONE).design();

    @Test
    void aPadOfANetWithManySinksTakesLessThanItsTree() {
        Net clock =
                MADE.nets().stream()
                        .max(Comparator.comparingInt(n -> n.route().size()))
                        .orElseThrow();
        int pads = MADE.fabric().pads().size();
        int few = pads / 4;
        long more = verticesLookedAt(clock, pads) - verticesLookedAt(clock, few);
        assertThat(clock.route().size()).isGreaterThan(400);
        assertThat(more / (pads - few)).isLessThan(clock.route().size() / 2);
    }

    /** How many vertices' edges a survey of a net's first pads looks at. */
    private static long verticesLookedAt(Net net, int pads) {
        CountingFabric counting = new CountingFabric(MADE.fabric());
        Design design =
                new Design(
                        MADE.name(),
                        MADE.note(),
                        counting.fabric(),
                        MADE.board(),
                        MADE.cells().stream().toList(),
                        MADE.nets().stream().toList(),
                        MADE.ports().stream().toList());
        List<Integer> first = IntStream.range(0, pads).boxed().toList();
        long before = counting.count();
        Survey.of(design, net, first, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
        return counting.count() - before;
    }
}
