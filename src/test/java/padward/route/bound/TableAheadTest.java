package padward.route.bound;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.synth.FabricMaker;

class TableAheadTest {
    private static Fabric fabric() throws PatternFault {
        return PatternFabric.compile(FabricMaker.make(4_000, 3));
    }

    private static long[] bounds(Fabric fabric) {
        LowerBound bound =
                FabricIndex.of(fabric)
                        .table(Corner.SLOW, LowerBoundTable.Goals.PADS, Progress.NONE)
                        .orElseThrow()
                        .towards(fabric, fabric.pads().get(0).vertex());
        long[] result = new long[fabric.vertexCount()];
        for (int vertex = 0; vertex < result.length; vertex++) {
            result[vertex] = bound.at(vertex);
        }
        return result;
    }

    @Test
    void whoAsksMeanwhileGetsTheSameTable() throws PatternFault {
        Fabric ahead = fabric();
        new TableAhead(Corner.SLOW).begin(ahead);
        assertThat(bounds(ahead)).isEqualTo(bounds(fabric()));
    }

    @Test
    void afterAStopWhoAsksCalculatesIt() throws PatternFault {
        Fabric stopped = fabric();
        TableAhead ahead = new TableAhead(Corner.SLOW);
        ahead.begin(stopped);
        ahead.stop();
        assertThat(bounds(stopped)).isEqualTo(bounds(fabric()));
    }
}
