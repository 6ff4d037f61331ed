package padward.design.compact;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.example.EveryField;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.PlainFabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;
import padward.format.design.SameDesign;
import padward.synth.DesignMaker;

/** What is between the digests of a design's copy: whatever it says, it is a design or nothing. */
class CompactDesignTest {
    /** The latest required time that a file can state. */
    private static final int LATEST_PS = 1_000_000_000;

    private static byte[] written(Design design) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        CompactOut out = new CompactOut(bytes, Progress.NONE);
        CompactDesign.write(out, design);
        out.finish();
        return bytes.toByteArray();
    }

    private static Design read(byte[] bytes, Design like) throws IOException {
        CompactIn in = in(bytes);
        Design read = CompactDesign.read(in, like.fabric(), Board.UNKNOWN, LATEST_PS);
        in.end();
        return read;
    }

    private static Optional<Design> find(byte[] bytes, Design like) {
        try {
            return Optional.of(read(bytes, like));
        } catch (IOException damaged) {
            return Optional.empty();
        }
    }

    private static List<Design> designs() {
        return List.of(
                EveryField.design(1),
                DesignMaker.make(400, 3, 0.5, Progress.NONE).design(),
                DesignMaker.makeIrregular(400, 2, 0.5, Progress.NONE).design());
    }

    /** Whether something was read, which then answers everything. */
    private static int ask(byte[] bytes, Design like, String what) {
        Optional<Design> read = find(bytes, like);
        assertThatCode(
                        () -> {
                            if (read.isPresent()) {
                                SameDesign.told(read.get());
                                SameDesign.written(read.get());
                            }
                        })
                .as(what)
                .doesNotThrowAnyException();
        return read.isPresent() ? 1 : 0;
    }

    @Test
    void whereAnyByteIsAnotherItIsNoneOrAnswersAll() throws Exception {
        for (Design design : designs()) {
            byte[] sound = written(design);
            int some = 0;
            for (int at = 0; at < sound.length; at++) {
                byte[] forged = sound.clone();
                forged[at] ^= (byte) (at % 3 == 0 ? 0xff : 1 << at % Byte.SIZE);
                some += ask(forged, design, "byte " + at);
            }
            // most bytes are of names, which may be any
            assertThat(some).isBetween(sound.length / 10, sound.length - sound.length / 10);
        }
    }

    @Test
    void whereSeveralBytesAreOthersItIsNoneOrAnswersAll() throws Exception {
        Random random = new Random(1);
        for (Design design : designs()) {
            byte[] sound = written(design);
            for (int i = 0; i < 1000; i++) {
                byte[] forged = sound.clone();
                for (int k = random.nextInt(3); k >= 0; k--) {
                    // small numbers are likely to be ones that there are
                    forged[random.nextInt(forged.length)] = (byte) random.nextInt(1 << i % 8);
                }
                ask(forged, design, "draw " + i);
            }
        }
    }

    @Test
    void whereItIsCutItIsNone() throws Exception {
        Design design = EveryField.design(1);
        byte[] sound = written(design);
        for (int length = 0; length < sound.length; length++) {
            assertThat(find(Arrays.copyOf(sound, length), design)).isEmpty();
        }
        assertThat(find(Arrays.copyOf(sound, sound.length + 1), design)).isEmpty();
        SameDesign.require(read(sound, design), design);
    }

    /** Blocks of bytes end inside of names and numbers of several bytes. */
    @Test
    void whatIsLongerThanABlockIsReadWhole() throws Exception {
        Design design = DesignMaker.make(80_000, 5, 0.9, Progress.NONE).design();
        byte[] bytes = written(design);
        assertThat(bytes.length).isGreaterThan(2 << 16);
        SameDesign.require(read(bytes, design), onNoBoard(design));
    }

    private static Design onNoBoard(Design design) {
        return new Design(
                design.name(),
                design.note(),
                design.fabric(),
                Board.UNKNOWN,
                List.copyOf(design.cells()),
                List.copyOf(design.nets()),
                List.copyOf(design.ports()));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 127, 128, 16_383, 16_384, 1 << 28, Integer.MAX_VALUE})
    void aSmallNumberIsReadAsItWasWritten(int number) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        CompactOut out = new CompactOut(bytes, Progress.NONE);
        out.smallNumber(number);
        out.finish();
        byte[] all = bytes.toByteArray();
        assertThat(in(all).smallNumber(number)).isEqualTo(number);
        if (number > 0) {
            assertThatThrownBy(() -> in(all).smallNumber(number - 1)).isInstanceOf(Damaged.class);
        }
    }

    private static CompactIn in(byte[] bytes) {
        return new CompactIn(new ByteArrayInputStream(bytes), bytes.length, Progress.NONE);
    }

    @Test
    void aNumberOfTooManyBytesIsNone() {
        byte[] long5 = {-1, -1, -1, -1, 127};
        byte[] long6 = {-128, -128, -128, -128, -128, 0};
        assertThatThrownBy(() -> in(long5).smallNumber(Integer.MAX_VALUE))
                .isInstanceOf(Damaged.class);
        assertThatThrownBy(() -> in(long6).smallNumber(Integer.MAX_VALUE))
                .isInstanceOf(Damaged.class);
    }

    /** Such a design can be made in the program, but no file states it. */
    @Test
    void aNameWithHalfAPairIsNotKept() {
        Design made = EveryField.design(1);
        Cell odd = new Cell(0, "half \ud83d", "register", made.cells().get(0).site(), Map.of());
        Design design =
                new Design(
                        "d", "", made.fabric(), Board.UNKNOWN, List.of(odd), List.of(), List.of());
        assertThatThrownBy(() -> written(design)).isInstanceOf(IOException.class);
    }

    @Test
    void aKindThatItsSiteDoesNotAcceptIsNotKept() {
        Design made = EveryField.design(1);
        Cell odd = new Cell(0, "odd", "no such kind", made.cells().get(0).site(), Map.of());
        Design design =
                new Design(
                        "d", "", made.fabric(), Board.UNKNOWN, List.of(odd), List.of(), List.of());
        assertThatThrownBy(() -> written(design)).isInstanceOf(IOException.class);
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, Integer.MIN_VALUE})
    void aNumberBelowZeroIsNoSmallOne(int number) {
        CompactOut out = new CompactOut(new ByteArrayOutputStream(), Progress.NONE);
        assertThatThrownBy(() -> out.smallNumber(number)).isInstanceOf(IOException.class);
    }

    /** A design of one net that starts at the pad of a port in both directions. */
    private static Design fromPad(Fabric fabric, int pad, RouteTree route) {
        Port port = new Port(0, "p", PortDirection.BOTH, pad, "");
        Net net = new Net(0, "n", new Terminal.PortEnd(0), List.of(), route, false);
        // as the constructor would refuse it
        return Design.ofChecked(
                "d", "", fabric, Board.UNKNOWN, List.of(), List.of(net), List.of(port));
    }

    /** The shortest way from a vertex back to it, which it begins and ends with; empty if none. */
    private static IntList wayBack(Fabric fabric, int start) {
        Map<Integer, Integer> before = new HashMap<>();
        Deque<Integer> waiting = new ArrayDeque<>(List.of(start));
        while (!waiting.isEmpty()) {
            int from = waiting.remove();
            EdgeCursor edges = fabric.edgesOut();
            edges.reset(from);
            while (edges.next()) {
                if (before.putIfAbsent(edges.other(), from) == null) {
                    waiting.add(edges.other());
                }
            }
        }
        IntArrayList way = new IntArrayList();
        if (before.containsKey(start)) {
            way.add(start);
            for (int at = before.get(start); at != start; at = before.get(at)) {
                way.add(at);
            }
            way.add(start);
            Collections.reverse(way);
        }
        return way;
    }

    private static RouteTree along(IntList way) {
        int[] parents = IntStream.range(-1, way.size() - 1).toArray();
        return RouteTree.ofPlaces(way.toIntArray(), parents);
    }

    /** Another net may come to such a pad, but not the one that starts there. */
    @Test
    void aRouteThatComesBackToItsPadIsNone() throws Exception {
        int waysBack = 0;
        for (long seed = 0; seed < 60; seed++) {
            Fabric fabric = new PlainFabric(seed).builder.build();
            for (int pad = 0; pad < fabric.pads().size(); pad++) {
                IntList way = wayBack(fabric, fabric.pads().get(pad).vertex());
                if (!way.isEmpty()) {
                    waysBack++;
                    Design forged = fromPad(fabric, pad, along(way));
                    assertThat(find(written(forged), forged)).as("seed %d", seed).isEmpty();
                    Design sound = fromPad(fabric, pad, along(way.subList(0, way.size() - 1)));
                    SameDesign.require(read(written(sound), sound), sound);
                }
            }
        }
        assertThat(waysBack).isPositive();
    }

    /** What a copy is said to be as long as does not make room for what cannot be there. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2})
    void aCountOfMoreThanTheFabricHasIsNone(int fromEnd) throws Exception {
        Fabric fabric = EveryField.design(1).fabric();
        Design design = fromPad(fabric, 0, RouteTree.of(fabric.pads().get(0).vertex()));
        byte[] sound = written(design); // ends with the counts of sinks and of edges, both 0
        ByteArrayOutputStream forged = new ByteArrayOutputStream();
        forged.write(sound, 0, sound.length - fromEnd);
        CompactOut out = new CompactOut(forged, Progress.NONE);
        out.smallNumber(Integer.MAX_VALUE);
        out.finish();
        CompactIn in =
                new CompactIn(
                        new ByteArrayInputStream(forged.toByteArray()),
                        Long.MAX_VALUE / 2,
                        Progress.NONE);
        assertThatThrownBy(() -> CompactDesign.read(in, fabric, Board.UNKNOWN, LATEST_PS))
                .isInstanceOf(Damaged.class);
    }

    @Test
    void aRequiredTimeThatNoFileCanStateIsNone() throws Exception {
        Design made = EveryField.design(1);
        Net first = made.nets().get(0);
        for (int late = 0; late < 2; late++) {
            OptionalInt ofAll = OptionalInt.of(LATEST_PS + late);
            Map<Terminal, Integer> ofOne = Map.of(first.sinks().get(0), LATEST_PS + late);
            for (boolean own : new boolean[] {false, true}) {
                Design design =
                        with(
                                made,
                                new Net(
                                        0,
                                        first.name(),
                                        first.driver(),
                                        first.sinks(),
                                        first.route(),
                                        false,
                                        own ? OptionalInt.empty() : ofAll,
                                        own ? ofOne : Map.of()));
                assertThat(find(written(design), design).isPresent()).isEqualTo(late == 0);
            }
        }
    }

    private static Design with(Design design, Net first) {
        List<Net> nets = new ArrayList<>(List.copyOf(design.nets()));
        nets.set(0, first);
        return new Design(
                design.name(),
                design.note(),
                design.fabric(),
                Board.UNKNOWN,
                List.copyOf(design.cells()),
                nets,
                List.copyOf(design.ports()));
    }

    @Test
    void aNetThatEndsAtATiedEnableIsNone() throws Exception {
        Design made = EveryField.design(1);
        List<Port> tied = made.ports().stream().map(Port::withEnableTied).toList();
        Design forged =
                new Design(
                        made.name(),
                        made.note(),
                        made.fabric(),
                        Board.UNKNOWN,
                        List.copyOf(made.cells()),
                        List.copyOf(made.nets()),
                        tied);
        assertThat(find(written(forged), forged)).isEmpty();
    }

    @Test
    void aNetThatEndsAtTheEnableOfASiteWithACellIsNone() throws Exception {
        Design made = EveryField.design(1);
        Port port = made.findPort("f").orElseThrow();
        int site = made.fabric().pads().get(port.pad()).enableSite();
        List<Cell> cells = new ArrayList<>(List.copyOf(made.cells()));
        String kind = made.fabric().acceptedBy(site).get(0);
        cells.add(new Cell(cells.size(), "at the enable", kind, site, Map.of()));
        Design forged =
                Design.ofChecked(
                        made.name(),
                        made.note(),
                        made.fabric(),
                        Board.UNKNOWN,
                        cells,
                        List.copyOf(made.nets()),
                        List.copyOf(made.ports()));
        assertThat(find(written(forged), forged)).isEmpty();
    }
}
