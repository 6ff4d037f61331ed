package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.survey.Survey;
import padward.design.Design;
import padward.design.Net;
import padward.example.AllocationChecked;
import padward.example.CountingFabric;
import padward.fabric.delay.Corner;
import padward.fabric.review.FabricReview;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.format.fabric.PatternWriter;
import padward.format.netlist.CellMapping;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.format.tables.TableExport;
import padward.place.PlaceAndRoute;
import padward.place.PlaceRouteOptions;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchEngineKind;
import padward.route.search.SearchSources;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;
import padward.unblock.release.OwnNet;
import padward.unblock.why.SearchLimits;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.library.Count;
import padward.watch.library.Divide;
import padward.watch.library.Recipe;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;

/**
 * Whatever takes long asks often whether to stop. Counted, not timed: at how many vertices edges
 * are looked at between two checks; some ten thousand take some ten milliseconds.
 */
class StopsSoonTest {
    private static final int MOST = 10_000;

    private static final long MOST_BYTES = 20_000_000;

    private static final Path NETLISTS = Path.of("fixtures/netlists");

    private static final Design MADE = DesignMaker.make(40000, 5, 0.7, Progress.NONE).design();

    /** Something that takes long on a large design. */
    private record Operation(String name, Run run) {
        @Override
        public String toString() {
            return name;
        }
    }

    private interface Run {
        void on(Design design, Progress progress) throws Exception;
    }

    static Stream<Operation> operations() {
        return Stream.of(
                new Operation(
                        "survey",
                        (d, p) -> Survey.of(d, widest(d), Corner.SLOW, SearchEngineKind.OWN, p)),
                new Operation("explain", StopsSoonTest::explainSome),
                new Operation("delays", (d, p) -> DelayField.of(d, widest(d), Corner.SLOW, p)),
                new Operation("group", StopsSoonTest::group),
                new Operation("no route", StopsSoonTest::findNoRoute),
                new Operation("check", (d, p) -> FabricReview.of(d.fabric(), p)),
                new Operation("export", StopsSoonTest::export),
                new Operation("place-route", StopsSoonTest::placeAndRoute),
                new Operation("watch", StopsSoonTest::watch));
    }

    @ParameterizedTest
    @MethodSource("operations")
    void asksOftenWhetherToStop(Operation operation) throws Exception {
        CountingFabric counting = new CountingFabric(MADE.fabric());
        Design design =
                new Design(
                        MADE.name(),
                        MADE.note(),
                        counting.fabric(),
                        MADE.board(),
                        MADE.cells().stream().toList(),
                        MADE.nets().stream().toList(),
                        MADE.ports().stream().toList());
        CountingFabric.Checked progress = counting.checked();
        operation.run().on(design, progress);
        assertThat(counting.count()).isGreaterThan(2 * MOST);
        assertThat(progress.most()).isLessThanOrEqualTo(MOST);
    }

    private static void explainSome(Design design, Progress progress) {
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        Random random = new Random(1);
        for (int i = 0; i < 40; i++) {
            Net net = design.nets().get(random.nextInt(design.nets().size()));
            int pad = random.nextInt(design.fabric().pads().size());
            Question question = new Question(design, net, pad, Corner.SLOW);
            asker.explained(question, SearchLimits.USUAL, progress);
        }
    }

    private static void group(Design design, Progress progress) {
        List<Integer> pads = IntStream.range(0, 12).boxed().toList();
        List<Net> nets = design.nets().stream().limit(6).toList();
        Bus.of(design, nets, pads, Bus.Aim.values()[0], Bus.Ports.values()[0], progress);
    }

    /** Everything is looked at to say where a signal gets instead. */
    private static void findNoRoute(Design design, Progress progress) {
        Question question = new Question(design, widest(design), 0, Corner.SLOW);
        SearchSources starts = OwnNet.of(design, question.net()).starts(Corner.SLOW);
        BitSet pad = new BitSet();
        pad.set(question.padValue().vertex());
        NoRouteDiagnosis.byReach(question, starts, BlockedVertices.of(pad), progress);
    }

    private static void export(Design design, Progress progress) throws Exception {
        Path folder = Files.createTempDirectory("export");
        try {
            TableExport.write(design, folder.resolve("tables"), false, progress);
        } finally {
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(each);
                }
            }
        }
    }

    private static void placeAndRoute(Design design, Progress progress) throws Exception {
        CellMapping mapping =
                CellMappingReader.read(NETLISTS.resolve("larch.mapping.json"), Progress.NONE);
        NetlistReader.Mapped mapped =
                NetlistReader.read(
                        NETLISTS.resolve("receiver.v"),
                        "",
                        mapping,
                        design.fabric(),
                        Progress.NONE);
        PlaceAndRoute.placeAndRoute(
                design.fabric(), mapped.netlist(), PlaceRouteOptions.usual(1), progress);
    }

    /** A circuit of many cells and one of few: their layouts are searched differently. */
    private static void watch(Design design, Progress progress) throws Exception {
        String clock = design.nets().stream().filter(Net::clock).findFirst().orElseThrow().name();
        List<String> nets =
                design.nets().stream().filter(n -> !n.clock()).limit(4).map(Net::name).toList();
        List<Recipe> recipes =
                List.of(new Divide(clock, 65_536, Optional.empty()), new Count(nets, clock, 1));
        for (Recipe recipe : recipes) {
            Circuit circuit = recipe.circuit(CircuitKinds.of(design.fabric().info()));
            List<Integer> pads =
                    IntStream.range(0, design.fabric().pads().size())
                            .filter(p -> design.findPortOn(p).isEmpty())
                            .filter(p -> design.fabric().pads().get(p).directions().canDrive())
                            .limit(circuit.outputs().size())
                            .boxed()
                            .toList();
            WatchPlacer.place(new WatchQuestion(design, circuit, pads), progress);
        }
    }

    /**
     * Most of the work is in no fabric that could count it, so it is counted by what the thread
     * allocates: some ten megabytes take some ten milliseconds.
     */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void openingAsksOftenWhetherToStop(boolean listed, @TempDir Path folder) throws Exception {
        MadeDesign made = DesignMaker.make(listed ? 100_000 : 300_000, 5, 0.7, Progress.NONE);
        if (listed) {
            FabricWriter.write(made.design().fabric(), folder.resolve("fabric.json.gz"));
        } else {
            PatternWriter.write(made.spec().orElseThrow(), folder.resolve("fabric.json.gz"));
        }
        BoardWriter.write(
                made.design().board(), made.design().fabric(), folder.resolve("board.json"));
        Path file = folder.resolve("design.json.gz");
        DesignWriter.write(made.design(), file, "fabric.json.gz", "board.json");
        DesignReader.read(file, Progress.NONE);
        AllocationChecked progress = new AllocationChecked();
        DesignReader.read(file, progress);
        assertThat(progress.sum()).isGreaterThan(MOST_BYTES);
        assertThat(progress.most()).isLessThanOrEqualTo(MOST_BYTES);
    }

    private static Net widest(Design design) {
        return design.nets().stream()
                .max(Comparator.comparingInt(n -> n.route().size()))
                .orElseThrow();
    }
}
