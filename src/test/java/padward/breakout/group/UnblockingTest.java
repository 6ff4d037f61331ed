package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.synth.DesignMaker;

/** A search for what to remove that was stopped is told apart from one that has nothing to do. */
class UnblockingTest {
    private final Design design = DesignMaker.make(1_500, 2, 0.2, Progress.NONE).design();
    private final List<Net> nets = design.nets().stream().filter(n -> !n.clock()).limit(3).toList();

    private Unblocking of(boolean couldBeUnblocked, Progress progress) {
        Bus.Left left = new Bus.Left(nets.get(0), "all routes are used", couldBeUnblocked);
        Bus group = new Bus(List.of(), List.of(left), List.of(), 0, Optional.empty());
        return Unblocking.of(
                design,
                group,
                nets,
                IntStream.range(0, design.fabric().pads().size()).boxed().toList(),
                Bus.Aim.SUM,
                Bus.Ports.MAY_DISCONNECT,
                WantedDriver.NONE,
                progress);
    }

    @Test
    void whatTheTimeDidNotSufficeForIsToldApart() {
        Progress over = Progress.NONE.within(0);
        assertThat(of(true, over)).isEqualTo(new Unblocking(Optional.empty(), true));
        // Where there is nothing to remove, no time is needed.
        assertThat(of(false, over)).isEqualTo(Unblocking.NONE);
        Unblocking whole = of(true, Progress.NONE);
        assertThat(whole.stopped()).isFalse();
        assertThat(whole.found()).isPresent();
    }
}
