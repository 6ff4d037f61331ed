package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.BitSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.cost.FreeOnlyCost;

/** What a sweep found, and until when it can be read. */
class OneToAllTest {
    private final Fabric fabric = TextbookGraphs.of(TextbookGraphs.CLRS_24_6);
    private final PathSearch search = new PathSearch(fabric);
    private final int source = fabric.findVertex("s");
    private final int goal = fabric.findVertex("x");

    /** One for each engine that can answer on this fabric. */
    static Stream<CostModel> models() {
        CustomCost custom = (from, to, delayPs) -> delayPs;
        return Stream.of(CostModel.EMPTY_FABRIC, custom);
    }

    private OneToAll sweep(CostModel model) {
        return search.sweep(SearchSources.at(source), Corner.SLOW, model, Progress.NONE);
    }

    @ParameterizedTest
    @MethodSource("models")
    void aSweepKnowsCostAndPathOfEachVertex(CostModel model) {
        OneToAll all = sweep(model);
        assertThat(all.cost(goal)).isEqualTo(9);
        assertThat(all.pathTo(goal).size()).isEqualTo(4);
        assertThat(all.pathTo(goal).last()).isEqualTo(goal);
    }

    @ParameterizedTest
    @MethodSource("models")
    void readingAfterAnotherSweepIsRefused(CostModel model) {
        OneToAll first = sweep(model);
        OneToAll second = sweep(CostModel.EMPTY_FABRIC);
        assertThatThrownBy(() -> first.cost(goal)).isInstanceOf(IllegalStateException.class);
        assertThatThrownBy(() -> first.pathTo(goal)).isInstanceOf(IllegalStateException.class);
        assertThat(second.cost(goal)).isEqualTo(9);
    }

    @ParameterizedTest
    @MethodSource("models")
    void readingAfterARunToOneGoalIsRefused(CostModel next) {
        OneToAll all = sweep(CostModel.EMPTY_FABRIC);
        search.run(
                SearchSources.at(goal), source, Corner.SLOW, next, LowerBound.NONE, Progress.NONE);
        assertThatThrownBy(() -> all.cost(goal)).isInstanceOf(IllegalStateException.class);
        assertThatThrownBy(() -> all.pathTo(goal)).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void whatCannotBeReachedIsClosedAndHasNoPath() {
        BitSet allButTheSource = new BitSet();
        allButTheSource.set(0, fabric.vertexCount());
        allButTheSource.clear(source);
        OneToAll all = sweep(new FreeOnlyCost(allButTheSource));
        assertThat(all.cost(goal)).isEqualTo(CostModel.CLOSED);
        assertThatThrownBy(() -> all.pathTo(goal)).isInstanceOf(IllegalArgumentException.class);
    }
}
