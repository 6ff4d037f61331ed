package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.FabricLimits;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;

/** Delays at the limit of what the fast searches calculate with: long, but never "no route". */
class LongDelayTest {
    private static final int WIRES = 1200;

    private static Design chain(int delayPs) {
        String wires =
                IntStream.range(0, WIRES).mapToObj(i -> "w" + i).collect(Collectors.joining(" "));
        return new HandMade()
                .site("c", "", "o")
                .wires(wires)
                .pad("P")
                .chain("c.o " + wires + " P", delayPs, delayPs)
                .cell("a", "c")
                .net("n", "a.o", "")
                .design();
    }

    /** Each bound is exact: from the far end it is beyond what the fast search holds. */
    @Test
    void aRouteWhoseLowerBoundIsLongIsFound() {
        Design design = chain(FabricLimits.EDGE_DELAY_PS);
        Fabric fabric = design.fabric();
        int goal = fabric.pads().get(0).vertex();
        int start = design.nets().get(0).route().root();
        long all = (WIRES + 1L) * FabricLimits.EDGE_DELAY_PS;
        LowerBound exact =
                vertex -> {
                    if (vertex == goal) {
                        return 0;
                    }
                    if (vertex == start) {
                        return all;
                    }
                    String name = fabric.vertexName(vertex);
                    int place = Integer.parseInt(name.substring(name.lastIndexOf('w') + 1));
                    return all - (place + 1L) * FabricLimits.EDGE_DELAY_PS;
                };
        SearchOutcome outcome =
                new PathSearch(fabric)
                        .run(
                                SearchSources.along(
                                        fabric, design.nets().get(0).route(), Corner.SLOW),
                                goal,
                                Corner.SLOW,
                                CostModel.EMPTY_FABRIC,
                                exact,
                                Progress.NONE);
        assertThat(outcome).isInstanceOf(SearchOutcome.Found.class);
        assertThat(((SearchOutcome.Found) outcome).cost()).isEqualTo(all);
    }

    /** The searches mark a closed step by the greatest number, so that no edge may have it. */
    @Test
    void aFabricWithALongerEdgeIsRefused() {
        assertThatThrownBy(() -> chain(Integer.MAX_VALUE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("at most 2000000 ps")
                .hasMessageContaining("2147483647");
    }
}
