package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CountDownLatch;
import java.util.function.Consumer;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.example.HandMade;

/** The answers of all pairs while they are being searched: net a reaches pad p and not pad r. */
class CompletedTableTest {
    private static RouteMatrix matrix() {
        Design design =
                new HandMade()
                        .wires("w x")
                        .site("sa", "", "q")
                        .site("sb", "", "q")
                        .pad("p")
                        .pad("r")
                        .chain("sa.q w p")
                        .chain("sb.q x r")
                        .cell("ca", "sa")
                        .cell("cb", "sb")
                        .net("a", "ca.q", "", "sa.q")
                        .net("b", "cb.q", "", "sb.q")
                        .design();
        List<Net> nets =
                List.of(design.findNet("a").orElseThrow(), design.findNet("b").orElseThrow());
        return RouteMatrix.unsearched(
                design, nets, List.of(0, 1), Bus.Aim.MOST, Bus.Ports.KEEP, WantedDriver.NONE);
    }

    /** Progress that hands on what is reported, and stops when the text is a survey's. */
    private record Seen(Consumer<String> reports, boolean[] stop) implements Progress {
        @Override
        public void report(double fraction, String message) {
            reports.accept(message);
            stop[0] |= message.equals("pad 1 of 2");
        }

        @Override
        public boolean cancelled() {
            return stop[0];
        }
    }

    @Test
    void theSurveyOfANetCanBeStopped() {
        RouteMatrix matrix = matrix();
        assertThatThrownBy(() -> matrix.complete(new Seen(m -> {}, new boolean[1])))
                .isInstanceOf(CancellationException.class);
        assertThat(matrix.known(0, 0).orElseThrow()).isInstanceOf(Answer.Open.class);
        assertThat(matrix.known(0, 1)).as("not half of it").isEmpty();
        matrix.complete(Progress.NONE);
        assertThat(matrix.known(0, 1)).isPresent();
        assertThat(matrix.isKnownRoutable(0, 1)).isFalse();
    }

    @Test
    void whatIsKnownIsReadWhileASearchRuns() throws Exception {
        RouteMatrix matrix = matrix();
        CountDownLatch searching = new CountDownLatch(1);
        CountDownLatch read = new CountDownLatch(1);
        Consumer<String> holding =
                message -> {
                    if (message.equals("searching routes of b")) {
                        searching.countDown();
                        Assertions.assertDoesNotThrow(() -> read.await());
                    }
                };
        Progress held =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {
                        holding.accept(message);
                    }

                    @Override
                    public boolean cancelled() {
                        return false;
                    }
                };
        Thread worker = new Thread(() -> matrix.complete(held));
        worker.start();
        searching.await();
        try {
            Assertions.assertTimeoutPreemptively(
                    Duration.ofSeconds(10),
                    () -> {
                        assertThat(matrix.isKnownRoutable(0, 0)).isTrue();
                        assertThat(matrix.known(1, 1)).isEqualTo(Optional.empty());
                        assertThat(matrix.isKnownRoutable(1, 1)).isFalse();
                    });
        } finally {
            read.countDown();
            worker.join();
        }
        assertThat(matrix.isKnownRoutable(1, 1)).isTrue();
    }
}
