package padward.route.bound;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Proxy;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
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

    /** As when a design's copy turns out not to count, and its fabric is read anew. */
    @Test
    void aSecondBeginStopsTheFirst() throws Exception {
        CountDownLatch secondBegan = new CountDownLatch(1);
        Fabric inner = fabric();
        Fabric slow =
                (Fabric)
                        Proxy.newProxyInstance(
                                Fabric.class.getClassLoader(),
                                new Class<?>[] {Fabric.class},
                                (proxy, method, arguments) -> {
                                    if (method.getName().equals("derived")) {
                                        secondBegan.await();
                                    }
                                    return method.invoke(inner, arguments);
                                });
        TableAhead ahead = new TableAhead(Corner.SLOW);
        ahead.begin(slow);
        ahead.begin(fabric());
        secondBegan.countDown();
        for (Thread thread : Thread.getAllStackTraces().keySet()) {
            if (thread.getName().equals("table of least delays")) {
                thread.join();
            }
        }
        List<String> calculated = new ArrayList<>();
        FabricIndex.of(inner)
                .table(
                        Corner.SLOW,
                        LowerBoundTable.Goals.PADS,
                        new Progress() {
                            @Override
                            public void report(double fraction, String message) {
                                calculated.add(message);
                            }

                            @Override
                            public boolean cancelled() {
                                return false;
                            }
                        });
        assertThat(calculated).isNotEmpty();
    }
}
