package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import padward.design.Design;
import padward.design.NetLock;
import padward.design.PortDirection;
import padward.example.HandMade;

/** One cell drives net x towards pad P over wire w1, which another net can use. */
class PadReachabilityTest {
    private static HandMade one() {
        return new HandMade()
                .wires("w0 w1 w2")
                .site("S0", "", "o")
                .site("S1", "", "o")
                .pad("P")
                .pad("Q")
                .chain("S0.o w0 w1 P")
                .chain("S1.o w1")
                .chain("S1.o w2 Q")
                .cell("a", "S0")
                .cell("b", "S1")
                .net("x", "a.o", "", "S0.o w0");
    }

    private static HandMade two(String branch) {
        return one().port("q", PortDirection.OUT, branch.endsWith("P") ? "P" : "Q")
                .net("y", "b.o", "q", branch);
    }

    private static boolean leadsOut(HandMade made, String net) {
        Design design = made.design();
        return PadReachability.of(design).leadOutOf(design.findNet(net).orElseThrow());
    }

    @Test
    void aNetLeadsOutOverWhatOthersUse() {
        assertThat(leadsOut(one(), "x")).isTrue();
        assertThat(leadsOut(two("S1.o w1 P"), "x")).isTrue();
    }

    @Test
    void notOverAnUnusableWire() {
        assertThat(leadsOut(one().unusable("w1"), "x")).isFalse();
    }

    @Test
    void notOverWhatALockedNetUses() {
        assertThat(leadsOut(two("S1.o w1 P").lockNet("y", NetLock.WIRES), "x")).isFalse();
        assertThat(leadsOut(two("S1.o w2 Q").lockNet("y", NetLock.WIRES), "x")).isTrue();
    }

    @Test
    void aLockedNetThatIsOnAPadIsOut() {
        assertThat(leadsOut(two("S1.o w1 P").lockNet("y", NetLock.WIRES), "y")).isTrue();
    }
}
