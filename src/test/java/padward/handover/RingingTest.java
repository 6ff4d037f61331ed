package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.breakout.ask.Caution;
import padward.design.board.PadWiring;
import padward.fabric.delay.Delay;
import padward.timing.ExternalLineDelay;

/**
 * A line longer than a sixth of its edge rings (Johnson and Graham, 1993, chapter 1, from memory).
 * On FR-4 of 4.3, an outer layer takes 5.5 ps/mm: an edge of 0.9 ns is 165 mm long, a sixth is 27.
 */
class RingingTest {
    private static final Delay EDGE = new Delay(900, 1500);

    private static Optional<Caution> of(Delay rise, double traceMm, double leadMetres) {
        PadWiring wiring = new PadWiring(0, "N", traceMm, List.of());
        return Ringing.of(
                rise, Optional.of(wiring), ExternalLineDelay.USUAL.withMetres(leadMetres));
    }

    @Test
    void aLeadThatIsLongAgainstTheEdgeRings() {
        Caution caution = of(EDGE, 44, 0.3).orElseThrow();
        assertThat(caution.kind()).isEqualTo(Caution.Kind.RINGING);
        assertThat(caution.text())
                .matches(
                        "The edge of 0\\.90 ns is 16\\d mm long, trace and lead are 344 mm: expect"
                                + " ringing\\. Use a resistor at the pin, the weakest drive, or a"
                                + " lead with an isolating resistor\\.");
    }

    @Test
    void theLimitIsASixthOfTheEdge() {
        assertThat(of(EDGE, 26, 0)).isEmpty();
        assertThat(of(EDGE, 29, 0)).isPresent();
    }

    /** Slower between planes: the same edge is shorter there. */
    @Test
    void anInnerLayerRingsEarlier() {
        PadWiring inner = new PadWiring(0, "N", 24, PadWiring.Layer.INNER, 0, List.of());
        assertThat(of(EDGE, 24, 0)).isEmpty();
        assertThat(Ringing.of(EDGE, Optional.of(inner), ExternalLineDelay.USUAL.withMetres(0)))
                .isPresent();
    }

    @Test
    void nothingIsSaidOfAnEdgeThatIsNotKnown() {
        assertThat(of(Delay.ZERO, 44, 0.3)).isEmpty();
    }
}
