package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.design.Design;
import padward.design.RouteTree;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.Levels;
import padward.design.board.PadWiring;
import padward.example.HandMade;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDriverOutput;

/** A line from the net's driver to the instrument, link by link, and what loads it: by hand. */
class ChainTest {
    /**
     * A board of dielectric constant 4, a connector of 40 ps, half a metre of lead, a probe of 8
     * pF.
     */
    private static final ExternalLineDelay EXTERNAL = new ExternalLineDelay(4, 40, 0.5, 0.66, 8);

    /** Pad 0 by way of site IO, pad 1 without. */
    private static HandMade made() {
        return new HandMade()
                .wires("w")
                .site("S", "", "o")
                .site("IO", "d", "q")
                .pad("P")
                .pad("Q")
                .dataSite("P", "IO")
                .chain("S.o w IO.d", 5, 7)
                .through("IO", "d", "q")
                .chain("IO.q P", 3, 4)
                .chain("w Q", 10, 20)
                .cell("s", "S")
                .net("n", "s.o", "", "S.o w IO.d", "w Q");
    }

    private static RouteTree onPads(Fabric fabric) {
        RouteTree.Builder tree = new RouteTree.Builder(fabric.findVertex("S.o"));
        String[][] steps = {
            {"S.o", "w"}, {"w", "IO.d"}, {"IO.d", "IO.q"}, {"IO.q", "P"}, {"w", "Q"}
        };
        for (String[] step : steps) {
            tree.add(fabric.findVertex(step[0]), fabric.findVertex(step[1]));
        }
        return tree.build();
    }

    private static DriverSetting setting(Optional<PadDriverOutput> output) {
        return new DriverSetting("lv33", "", 3300, 8, "slow", new Delay(1000, 1500), output, false);
    }

    private static Board board(PadWiring wiring) {
        return new Board("bench", "invented", List.of(wiring));
    }

    /** 100 mm between planes: 85 ps an inch times 2 is 669.3 ps, 10 per cent either way. */
    @Test
    void eachLinkIsTakenOnce() {
        PadWiring wiring = new PadWiring(0, "TP1", 100, PadWiring.Layer.INNER, 0, List.of());
        Design design = made().board(board(wiring)).design();
        Chain chain =
                Chain.of(
                        design,
                        onPads(design.fabric()),
                        0,
                        Optional.of(setting(Optional.empty())),
                        EXTERNAL);
        assertThat(chain.links())
                .extracting(
                        l -> l.part().label() + " " + l.delay().fastPs() + " " + l.delay().slowPs())
                .containsExactly(
                        "fabric 10 14",
                        // 1 to 2 ps through the site, 3 to 4 ps to the pad.
                        "IO register site 4 6",
                        "driver 1000 1500",
                        "package 0 0",
                        "trace 602 736",
                        "connector 32 48",
                        // 5054 ps a metre, 5 per cent either way.
                        "lead 2401 2653");
        assertThat(chain.delay(Chain.Part.TRACE)).isEqualTo(new Delay(602, 736));
        assertThat(chain.toPad()).isEqualTo(new Delay(14, 20));
        assertThat(chain.atPin()).isEqualTo(new Delay(1014, 1520));
        assertThat(chain.atInstrument()).isEqualTo(new Delay(4049, 4957));
        // The middles of trace, connector and lead; half of what each spreads, by squares.
        Arrival arrival = chain.arrival();
        assertThat(arrival.chip()).isEqualTo(new Delay(1014, 1520));
        assertThat(arrival.outsidePs()).isEqualTo(669 + 40 + 2527);
        assertThat(arrival.outsideTolerancePs()).isEqualTo(143);
        assertThat(arrival.nominal()).isEqualTo(new Delay(4250, 4756));
    }

    @Test
    void aPadWithoutASiteOfItsOwnHasNoLinkThere() {
        Design design = made().design();
        Chain chain =
                Chain.of(
                        design,
                        onPads(design.fabric()),
                        1,
                        Optional.empty(),
                        ExternalLineDelay.USUAL);
        assertThat(chain.delay(Chain.Part.FABRIC)).isEqualTo(new Delay(15, 27));
        assertThat(chain.delay(Chain.Part.IO_REGISTER_SITE)).isEqualTo(Delay.ZERO);
        assertThat(chain.atInstrument()).isEqualTo(new Delay(15, 27));
    }

    @Test
    void aNetThatIsNotOnThePadHasNoChain() {
        Design design = made().design();
        RouteTree without = design.findNet("n").orElseThrow().route();
        assertThatThrownBy(
                        () ->
                                Chain.of(
                                        design,
                                        without,
                                        0,
                                        Optional.empty(),
                                        ExternalLineDelay.USUAL))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the net is not on pad P");
    }

    /** What the instrument sees takes the load that the chain takes. */
    @Test
    void theInstrumentSeesTheLoadedPad() {
        PadDriverOutput output =
                new PadDriverOutput(5, new Delay(1000, 2000), new AtCorners(20, 30), 0);
        Design design =
                made().board(
                                board(
                                        new PadWiring(
                                                0, "TP1", 0, PadWiring.Layer.OUTER, 12, List.of())))
                        .design();
        RouteTree tree = onPads(design.fabric());
        LineTiming timing =
                LineTiming.of(
                        design,
                        tree,
                        0,
                        Optional.of(setting(Optional.of(output))),
                        EXTERNAL,
                        Instrument.UNKNOWN,
                        false);
        assertThat(timing.chain().output().load()).isEqualTo(new PadLoad(20, true, true));
        assertThat(timing.seen().rise()).isEqualTo(output.riseAt(20));
        LineTiming unknown =
                LineTiming.of(
                        design,
                        tree,
                        0,
                        Optional.empty(),
                        EXTERNAL,
                        new Instrument(100, 0, 10),
                        true);
        assertThat(unknown.seen().rise()).isEqualTo(Delay.ZERO);
        assertThat(unknown.seen().seenRise()).isEqualTo(Delay.ZERO);
        assertThat(unknown.seen().levelPs()).isEqualTo(50_000);
        assertThat(unknown.chain().output().load()).isEqualTo(new PadLoad(0, false, false));
    }

    /**
     * The edge takes 1200 ps: a trace of up to 200 ps is one point, of 4 pF for 200 ps at 50 ohms.
     * The formula gives 6.693 ps a millimetre, so 29.88 mm are 199.97 ps, and 30 mm are 200.8 ps.
     */
    @ParameterizedTest
    @CsvSource({
        // The board states the load: with the trace while that is a point, without it as a line.
        "29.88, 20, '', 28.0, true, true",
        "30, 20, '', 23.984, true, false",
        "149.4, 10, '', 8.0, true, false",
        // Each part states its own, and a place for a lead has none.
        "29.88, 0, 'load 3 header 0', 15.0, true, true",
        "30, 0, 'load 3 header 0', 11.0, true, false",
        "0, 0, 'load 3 load 4', 15.0, true, true",
        // One does not: what is known, or the rated load if that is more.
        "0, 0, 'load 3 load 0', 15.0, false, false",
        "0, 0, 'load 9 load 0', 17.0, false, false",
        "0, 0, 'header 0', 15.0, false, false",
        "0, 0, '', 15.0, false, false"
    })
    void whatThePadDrives(
            double millimetres,
            double stated,
            String parts,
            double picofarads,
            boolean known,
            boolean traceIncluded) {
        PadDriverOutput output =
                new PadDriverOutput(15, new Delay(1200, 1500), new AtCorners(20, 30), 0);
        String[] words = parts.isEmpty() ? new String[0] : parts.split(" ");
        List<Attachment> attached = new ArrayList<>();
        for (int i = 0; i < words.length; i += 2) {
            attached.add(
                    new Attachment(
                            words[i].equals("load") ? AttachmentKind.LOAD : AttachmentKind.HEADER,
                            "U" + i,
                            "",
                            Levels.UNKNOWN,
                            Double.parseDouble(words[i + 1])));
        }
        PadWiring wiring =
                new PadWiring(0, "TP1", millimetres, PadWiring.Layer.INNER, stated, attached);
        PadLoad load =
                PadLoad.of(
                        made().board(board(wiring)).design(),
                        0,
                        Optional.of(setting(Optional.of(output))),
                        EXTERNAL);
        assertThat(load.picofarads()).isCloseTo(picofarads, within(1e-2));
        assertThat(load.known()).isEqualTo(known);
        assertThat(load.traceIncluded()).isEqualTo(traceIncluded);
    }

    /** A trace that is part of the load takes no time of its own. */
    @Test
    void aTraceCountsOnce() {
        PadDriverOutput output =
                new PadDriverOutput(15, new Delay(1200, 1500), new AtCorners(0, 0), 0);
        for (double millimetres : new double[] {20, 100}) {
            PadWiring wiring =
                    new PadWiring(0, "TP1", millimetres, PadWiring.Layer.INNER, 20, List.of());
            OutputPath path =
                    OutputPath.of(
                            made().board(board(wiring)).design(),
                            0,
                            Optional.of(setting(Optional.of(output))),
                            EXTERNAL);
            assertThat(path.trace().equals(Delay.ZERO)).isEqualTo(millimetres == 20);
        }
    }

    @Test
    void tracesOnTheSurfaceAreFaster() {
        // By the handbook, 140.0 and 176.3 ps an inch at 4.3.
        ExternalLineDelay usual = ExternalLineDelay.USUAL;
        assertThat(usual.tracePsPerMm(PadWiring.Layer.OUTER) * 25.4).isCloseTo(140.0, within(0.06));
        assertThat(usual.tracePsPerMm(PadWiring.Layer.INNER) * 25.4).isCloseTo(176.3, within(0.06));
        assertThat(usual.withMetres(2).lead()).isEqualTo(new Delay(9603, 10613));
        assertThat(usual.lead()).isEqualTo(Delay.ZERO);
    }

    @Test
    void anEdgeIsFoundWithItsKind() {
        Fabric fabric = made().fabric();
        EdgeFinder finder = new EdgeFinder(fabric);
        int in = fabric.findVertex("IO.d");
        int out = fabric.findVertex("IO.q");
        int wire = fabric.findVertex("w");
        assertThat(finder.get(in, out))
                .isEqualTo(new EdgeFinder.EdgeValue(EdgeKind.PASS_THROUGH, new Delay(1, 2)));
        assertThat(finder.isThrough(in, out)).isTrue();
        assertThat(finder.isThrough(wire, in)).isFalse();
        assertThat(finder.isThrough(fabric.findVertex("S.o"), wire)).isFalse();
        assertThat(finder.find(out, in)).isEmpty();
        assertThatThrownBy(() -> finder.get(out, in)).isInstanceOf(IllegalArgumentException.class);
    }

    /** By a switch from one pin of a site to another, nothing goes through the site. */
    @Test
    void aSwitchBetweenPinsIsNoPassThrough() {
        Fabric fabric = new HandMade().site("X", "a", "b").chain("X.b X.a").fabric();
        assertThat(
                        new EdgeFinder(fabric)
                                .isThrough(fabric.findVertex("X.b"), fabric.findVertex("X.a")))
                .isFalse();
    }
}
