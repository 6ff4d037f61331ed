package padward.route.cost;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What steps cost in each model, and the same in the small numbers of the fast searches. */
class CostModelTest {
    private static BitSet bits(int... members) {
        BitSet result = new BitSet();
        IntStream.of(members).forEach(result::set);
        return result;
    }

    @Test
    void delayAloneClosesNothing() {
        assertThat(CostModel.EMPTY_FABRIC.cost(1, 2, 30)).isEqualTo(30);
        SmallCost small = new DelayOnlyCost().small();
        assertThat(small.step(1, 2, 30)).isEqualTo(30);
        assertThat(small.isDelayOnly()).isTrue();
        assertThat(small.countsStretches()).isFalse();
        assertThat(small.historyPs()).isEmpty();
        assertThat(small.presentFactor()).isEmpty();
        assertThat(small.isUsed(2)).isFalse();
    }

    @Test
    void freeRoutesEnterNothingClosed() {
        FreeOnlyCost model = new FreeOnlyCost(bits(2));
        assertThat(model.cost(1, 2, 30)).isEqualTo(CostModel.CLOSED);
        // Where a step comes from does not matter.
        assertThat(model.cost(2, 1, 30)).isEqualTo(30);
        SmallCost small = model.small();
        assertThat(small.step(1, 2, 30)).isEqualTo(SmallCost.CLOSED);
        assertThat(small.step(2, 1, 30)).isEqualTo(30);
        assertThat(small.openStep(2, 1, 30)).isEqualTo(30);
        assertThat(small.closed().get(2)).isTrue();
        assertThat(small.isDelayOnly()).isTrue();
    }

    /** Occupant 7 uses vertices 1 and 2, occupant 8 vertex 3 and 4, of which 4 is closed. */
    private static ObstacleCost obstacles() {
        return new ObstacleCost(bits(4), bits(1, 2, 3, 4), vertex -> vertex < 3 ? 7 : 8);
    }

    @Test
    void aStretchIsPaidForWhereItBegins() {
        ObstacleCost model = obstacles();
        SmallCost small = model.small();
        // Into it from what is free, along it, to the next one, and out.
        assertThat(model.cost(0, 1, 30)).isEqualTo(ObstacleCost.PRICE + 30);
        assertThat(model.cost(1, 2, 30)).isEqualTo(30);
        assertThat(model.cost(2, 3, 30)).isEqualTo(ObstacleCost.PRICE + 30);
        assertThat(model.cost(3, 0, 30)).isEqualTo(30);
        assertThat(model.cost(3, 4, 30)).isEqualTo(CostModel.CLOSED);
        // What is closed counts as free: another stretch begins behind it.
        assertThat(model.cost(4, 3, 30)).isEqualTo(ObstacleCost.PRICE + 30);
        assertThat(small.step(0, 1, 30)).isEqualTo(SmallCost.STRETCH + 30);
        assertThat(small.step(1, 2, 30)).isEqualTo(30);
        assertThat(small.step(2, 3, 30)).isEqualTo(SmallCost.STRETCH + 30);
        assertThat(small.step(3, 0, 30)).isEqualTo(30);
        assertThat(small.step(3, 4, 30)).isEqualTo(SmallCost.CLOSED);
        assertThat(small.step(4, 3, 30)).isEqualTo(SmallCost.STRETCH + 30);
        assertThat(small.countsStretches()).isTrue();
        assertThat(small.isDelayOnly()).isFalse();
        assertThat(small.isUsed(3)).isTrue();
        assertThat(small.isUsed(0)).isFalse();
    }

    @Test
    void stretchesInSmallNumbersAreThoseInLargeOnes() {
        SmallCost small = obstacles().small();
        assertThat(small.wide(3 * SmallCost.STRETCH + 45)).isEqualTo(3 * ObstacleCost.PRICE + 45);
        assertThat(new DelayOnlyCost().small().wide(3 * SmallCost.STRETCH + 45))
                .isEqualTo(3L * SmallCost.STRETCH + 45);
        // A delay to begin with must not look like a stretch, nor reach the end of the numbers.
        assertThat(small.fits(SmallCost.STRETCH - 1)).isTrue();
        assertThat(small.fits(SmallCost.STRETCH)).isFalse();
        assertThat(new DelayOnlyCost().small().fits(SmallCost.STRETCH)).isTrue();
        assertThat(new DelayOnlyCost().small().fits(SmallCost.LARGEST - 1)).isTrue();
        assertThat(new DelayOnlyCost().small().fits(SmallCost.LARGEST)).isFalse();
        assertThat(SmallCost.MOST_STRETCHES).isEqualTo(256);
    }

    /** (b + h) · p of McMurchie and Ebeling, with b the delay. */
    @Test
    void congestionCostsHistoryAndPresentUse() {
        int[] history = {0, 100, 2_000_000_000};
        int[] present = {1, 3, 5};
        CongestionCost model = new CongestionCost(BlockedVertices.of(bits(0)), history, present);
        assertThat(model.cost(0, 1, 30)).isEqualTo(390);
        assertThat(model.cost(1, 0, 30)).isEqualTo(CostModel.CLOSED);
        assertThat(model.cost(1, 2, 30)).isEqualTo(10_000_000_150L);
        SmallCost small = model.small();
        assertThat(small.step(0, 1, 30)).isEqualTo(390);
        assertThat(small.step(1, 0, 30)).isEqualTo(SmallCost.CLOSED);
        assertThat(small.step(1, 2, 30)).isEqualTo(SmallCost.LARGEST);
        assertThat(small.isDelayOnly()).isFalse();
        assertThat(small.countsStretches()).isFalse();
        assertThat(small.historyPs()).isSameAs(history);
        assertThat(small.presentFactor()).isSameAs(present);
        assertThat(small.isUsed(1)).isFalse();
        // Prices may change between searches.
        history[1] = 0;
        assertThat(small.step(0, 1, 30)).isEqualTo(90);
    }

    /** Switches to vertex 1 cost 5 more, and those to vertex 3 are excluded. */
    @Test
    void aRuleOfSwitchesIsAddedToAModel() {
        FreeOnlyCost base = new FreeOnlyCost(bits(2));
        SwitchRule rule = (from, to) -> to == 3 ? CostModel.CLOSED : to == 1 ? 5 : 0;
        SwitchRuleCost model = new SwitchRuleCost(base, rule);
        assertThat(model.cost(0, 1, 30)).isEqualTo(35);
        assertThat(model.cost(0, 2, 30)).isEqualTo(CostModel.CLOSED);
        assertThat(model.cost(0, 3, 30)).isEqualTo(CostModel.CLOSED);
        assertThat(model.cost(0, 4, 30)).isEqualTo(30);
        assertThat(SwitchRuleCost.withoutRule(model)).isSameAs(base);
        assertThat(SwitchRuleCost.withoutRule(base)).isSameAs(base);
        assertThat(SwitchRuleCost.ruleOf(model)).isSameAs(rule);
        assertThat(SwitchRuleCost.ruleOf(base)).isSameAs(SwitchRule.NONE);
        assertThat(SwitchRule.NONE.price(0, 1)).isZero();
    }
}
