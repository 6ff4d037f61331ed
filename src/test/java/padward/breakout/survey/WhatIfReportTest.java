package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.design.Design;
import padward.design.PadNames;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.example.HandMade;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadUse;
import padward.unblock.release.LostEndpoint;
import padward.unblock.why.SearchLimits;

/** What a what-if gains and costs, on a chip of a few wires. */
class WhatIfReportTest {
    /**
     * Net n is driven by s, and nothing reads it. Net m from t reads over a, and could over b.
     * Nothing connects pad Z to the package.
     *
     * <pre>
     *  S.o - a - P, Z     T.o - a - U.i     U.o - c - R
     *      \ b - Q            \ b - U.i
     * </pre>
     */
    private static HandMade made() {
        return new HandMade()
                .wires("a b c")
                .site("S", "", "o")
                .site("T", "", "o")
                .site("U", "i", "o")
                .pad("P")
                .pad("Q")
                .pad("R")
                .usedPad("Z", PadUse.Bonding.UNBONDED, PadUse.Role.GENERAL)
                .chain("S.o a P")
                .chain("S.o b Q")
                .chain("a Z")
                .chain("T.o a U.i")
                .chain("T.o b U.i")
                .chain("U.o c R")
                .cell("s", "S")
                .cell("t", "T")
                .cell("u", "U")
                .port("led", PortDirection.OUT, "R")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "u.i", "T.o a U.i")
                .net("l", "u.o", "led", "U.o c R");
    }

    private static WhatIfReport report(Design design, String net, String pad, Edit... edits) {
        Question question =
                new Question(
                        design,
                        design.findNet(net).orElseThrow(),
                        PadNames.findExact(design.fabric(), pad).orElseThrow(),
                        Corner.SLOW);
        return WhatIfReport.of(question, List.of(edits), SearchLimits.USUAL, Progress.NONE);
    }

    private static Edit route(Design design, String net, String vertices) {
        int[] path =
                Arrays.stream(vertices.split(" ")).mapToInt(design.fabric()::findVertex).toArray();
        RouteTree.Builder tree = new RouteTree.Builder(path[0]);
        for (int i = 1; i < path.length; i++) {
            tree.add(path[i - 1], path[i]);
        }
        return new Edit.RouteNet(net, tree.build());
    }

    private static List<String> names(List<Pad> pads) {
        return pads.stream().map(Pad::name).toList();
    }

    private static List<String> obstacles(WhatIfReport report) {
        return report.price().obstacles().stream()
                .map(o -> o.occupant().name() + " " + o.fate().label())
                .toList();
    }

    private static List<String> lost(WhatIfReport report) {
        return report.price().lost().stream().map(LostEndpoint::toText).toList();
    }

    @Test
    void padsThatOpenAndThatCloseAreTold() {
        Design design = made().design();
        WhatIfReport report = report(design, "n", "P", route(design, "m", "T.o b U.i"));
        assertThat(report.before()).isInstanceOf(Answer.Blocked.class);
        assertThat(report.after()).isInstanceOf(Answer.Open.class);
        assertThat(names(report.newlyOpen())).containsExactly("P");
        assertThat(names(report.noLongerOpen())).containsExactly("Q");
        assertThat(report.price()).isEqualTo(Price.NOTHING);
    }

    @Test
    void aRemovedNetCostsWhatItFed() {
        WhatIfReport report = report(made().design(), "n", "P", new Edit.RemoveNet("m"));
        assertThat(names(report.newlyOpen())).containsExactly("P");
        assertThat(report.noLongerOpen()).isEmpty();
        assertThat(obstacles(report)).containsExactly("m loses-function");
        assertThat(lost(report)).containsExactly("u.i");
        assertThat(report.price().ports()).isEmpty();
    }

    @Test
    void aRemovedCellCostsWhatItFed() {
        WhatIfReport report = report(made().design(), "n", "P", new Edit.RemoveCell("t"));
        assertThat(obstacles(report)).containsExactly("t loses-function");
        assertThat(lost(report)).containsExactly("u.i");
    }

    @Test
    void aDisconnectedPortIsNamedWithItsNet() {
        WhatIfReport report = report(made().design(), "n", "Q", new Edit.DisconnectPort("led"));
        assertThat(report.price().ports())
                .containsExactly(
                        new Price.LosingPort(
                                "led", PortDirection.OUT, Optional.of("l"), Optional.empty()));
        assertThat(lost(report)).containsExactly("port led");
        assertThat(report.price().obstacles()).isEmpty();
    }

    /** What only served the port that the question disconnects anyway serves nobody. */
    @Test
    void whatOnlyServedTheDisconnectedPortIsRemovable() {
        Design design = made().chain("b R").design();
        WhatIfReport alone = report(design, "n", "R", new Edit.RemoveNet("l"));
        assertThat(obstacles(alone)).containsExactly("l loses-function");
        WhatIfReport report =
                report(design, "n", "R", new Edit.DisconnectPort("led"), new Edit.RemoveNet("l"));
        assertThat(obstacles(report)).containsExactly("l removable");
    }

    @Test
    void aPortThatDrivesANetTakesItAlong() {
        Design design =
                made().site("V", "i", "")
                        .pad("IN")
                        .chain("IN V.i")
                        .cell("v", "V")
                        .port("in", PortDirection.IN, "IN")
                        .net("k", "in", "v.i", "IN V.i")
                        .design();
        WhatIfReport report = report(design, "n", "Q", new Edit.DisconnectPort("in"));
        assertThat(lost(report)).containsExactly("port in", "v.i");
    }

    @Test
    void theNetThatIsAskedForCannotBeRemoved() {
        Design design = made().design();
        assertThatThrownBy(() -> report(design, "n", "P", new Edit.RemoveNet("n")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the what-if removes net n itself");
    }
}
