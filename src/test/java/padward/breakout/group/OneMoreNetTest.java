package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.route.flow.OneMoreSearch;

/**
 * What must go so that a group has one net more. Invented: nets a and b share the wire w to the
 * pads p and r; another way for b leads over the wires x and y, which others use.
 */
class OneMoreNetTest {
    private static HandMade made() {
        return new HandMade()
                .wires("w x y")
                .site("sa", "", "q")
                .site("sb", "", "q")
                .site("sx", "", "q")
                .site("sy", "", "q")
                .pad("p")
                .pad("r")
                .chain("sa.q w p")
                .chain("sb.q w r")
                .chain("sb.q x y r")
                .chain("sx.q x")
                .chain("sy.q y")
                .cell("ca", "sa")
                .cell("cb", "sb")
                .cell("cx", "sx")
                .cell("cy", "sy")
                .net("a", "ca.q", "", "sa.q")
                .net("b", "cb.q", "", "sb.q");
    }

    private static Bus bus(Design design) {
        List<Net> nets =
                List.of(design.findNet("a").orElseThrow(), design.findNet("b").orElseThrow());
        return Bus.of(design, nets, List.of(0, 1), Bus.Aim.MOST, Bus.Ports.KEEP, Progress.NONE);
    }

    @Test
    void bothUsersOfTheOtherRouteMustGo() {
        Design design =
                made().net("nx", "cx.q", "", "sx.q x").net("ny", "cy.q", "", "sy.q y").design();
        Bus bus = bus(design);
        assertThat(bus.lines()).hasSize(1);
        Bus.OneMore more = bus.proof().flatMap(Bus.Proof::oneMore).orElseThrow();
        assertThat(more.toText())
                .isEqualTo(
                        "one more can be brought out once net nx and net ny are removed, and"
                                + " fewer are not enough");
        Design after =
                Outcome.apply(design, List.of(new Edit.RemoveNet("nx"), new Edit.RemoveNet("ny")));
        assertThat(bus(after).lines()).hasSize(2);
    }

    /** The limited nets get to x with one switch more, not to y. */
    @Test
    void theBottleneckSaysWhereItLiesAndWhoUsesTheOtherWiresThere() {
        Design design =
                made().net("nx", "cx.q", "", "sx.q x").net("ny", "cy.q", "", "sy.q y").design();
        Bus.Bottleneck cut = bus(design).proof().flatMap(Bus.Proof::bottleneck).orElseThrow();
        assertThat(cut.users()).extracting(Net::name).containsExactly("nx");
        String tile = design.fabric().tileName(design.fabric().tile(cut.vertices().get(0)));
        assertThat(cut.tiles()).contains("tile " + tile);
        assertThat(cut.toText(design.fabric()))
                .endsWith(
                        "passes w; it lies in tile "
                                + tile
                                + ", where other wires that these nets could enter are used by nx");
        Bus.Bottleneck alone =
                bus(made().net("ny", "cy.q", "", "sy.q y").design())
                        .proof()
                        .flatMap(Bus.Proof::bottleneck)
                        .orElseThrow();
        assertThat(alone.users()).extracting(Net::name).containsExactly("ny");
    }

    @Test
    void oneUserOfBothIsEnough() {
        Design design = made().chain("sx.q y").net("nx", "cx.q", "", "sx.q x", "sx.q y").design();
        Bus.OneMore more = bus(design).proof().flatMap(Bus.Proof::oneMore).orElseThrow();
        assertThat(more.remove()).extracting(o -> o.name()).containsExactly("nx");
        assertThat(more.atLeast()).isEqualTo(1);
    }

    @Test
    void whereNothingHelpsThatIsSaid() {
        Design design =
                new HandMade()
                        .wires("w")
                        .site("sa", "", "q")
                        .site("sb", "", "q")
                        .pad("p")
                        .pad("r")
                        .chain("sa.q w p")
                        .chain("sb.q w r")
                        .cell("ca", "sa")
                        .cell("cb", "sb")
                        .net("a", "ca.q", "", "sa.q")
                        .net("b", "cb.q", "", "sb.q")
                        .design();
        Bus.OneMore more = bus(design).proof().flatMap(Bus.Proof::oneMore).orElseThrow();
        assertThat(more.isNever()).isTrue();
        assertThat(more.toText()).isEqualTo("no removal lets one more be served");
    }

    /** What does not help while ports keep their pads may help when they need not. */
    @Test
    void portsThatKeepTheirPadsAreNamedAsTheReason() {
        Bus.OneMore more = new Bus.OneMore(List.of(), OneMoreSearch.Fewest.NEVER, true);
        assertThat(more.toText())
                .isEqualTo("no removal lets one more be served while all ports keep their pads");
    }

    /** The free pad p is taken; what comes in at r must go, not only its port. */
    @Test
    void whatComesInAtAPadMustGoBeforeANetCanComeThere() {
        Design design =
                new HandMade()
                        .wires("v w z")
                        .site("sa", "", "q")
                        .site("sb", "", "q")
                        .pad("p")
                        .pad("r")
                        .chain("sa.q w p")
                        .chain("sb.q v r")
                        .chain("r z")
                        .cell("ca", "sa")
                        .cell("cb", "sb")
                        .port("i", PortDirection.IN, "r")
                        .net("a", "ca.q", "", "sa.q")
                        .net("b", "cb.q", "", "sb.q")
                        .net("n", "i", "", "r z")
                        .design();
        List<Net> nets =
                List.of(design.findNet("a").orElseThrow(), design.findNet("b").orElseThrow());
        Bus bus =
                Bus.of(
                        design,
                        nets,
                        List.of(0, 1),
                        Bus.Aim.MOST,
                        Bus.Ports.MAY_DISCONNECT,
                        Progress.NONE);
        assertThat(bus.lines()).hasSize(1);
        assertThat(bus.proof().flatMap(Bus.Proof::oneMore).orElseThrow().toText())
                .isEqualTo(
                        "one more can be brought out once net n is removed, and fewer are not"
                                + " enough");
    }

    @Test
    void aGroupThatIsServedNeedsNothing() {
        assertThat(bus(made().design()).proof().flatMap(Bus.Proof::oneMore)).isEmpty();
    }
}
