package padward.format.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.compact.CompactDesign;
import padward.example.EveryField;
import padward.example.RandomDesigns;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.compact.CompactOut;
import padward.fabric.pattern.PatternFabric;
import padward.format.compact.Copies;
import padward.format.compact.CopyFolder;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.fabric.PatternWriter;
import padward.format.source.Source;
import padward.format.source.SourceDigest;
import padward.format.tables.TableImport;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;

/** A design from its compact copy is the design; a copy that is not sound is none. */
class DesignCopiesTest {
    private static final String FABRIC = "fabric.json";
    private static final String BOARD = "board.json";

    @TempDir private Path folder;

    private DesignCopies copies(Path design, Progress progress) {
        CopyFolder copies = new CopyFolder(folder.resolve("copies"));
        return new DesignCopies(
                new Copies(copies, 1 << 30, DesignCopies.SORT),
                Source.of(design),
                FabricReader::read,
                progress);
    }

    private Optional<Design> find(Path design) throws BadInput {
        return copies(design, Progress.NONE).find();
    }

    private Path onlyCopy() {
        List<CopyFolder.Entry> all = new CopyFolder(folder.resolve("copies")).copies();
        assertThat(all).hasSize(1);
        return all.get(0).path();
    }

    private Path written(Design design) throws BadInput {
        Path fabric = folder.resolve(FABRIC);
        if (design.fabric() instanceof PatternFabric pattern) {
            PatternWriter.write(pattern.spec(), fabric);
        } else {
            FabricWriter.write(design.fabric(), fabric);
        }
        Path file = folder.resolve("design.json");
        boolean onBoard = design.board().isKnown();
        if (onBoard) {
            BoardWriter.write(design.board(), design.fabric(), folder.resolve(BOARD));
        }
        DesignWriter.write(design, file, FABRIC, onBoard ? BOARD : "");
        return file;
    }

    /** Requires that a file's copy is found once it was read, and is the design. */
    private void requireSame(Path file) throws Exception {
        assertThat(find(file)).isEmpty();
        Design read = copies(file, Progress.NONE).read();
        Design copy = find(file).orElseThrow();
        assertThat(copy).isNotSameAs(read);
        SameDesign.require(read, copy);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "small/only.design.json",
                "small/around.design.json",
                "lessons/gated.design.json",
                "lessons/narrows.design.json",
                "workbench/design.json.gz"
            })
    void theCopyOfAnExampleIsTheExample(String name) throws Exception {
        requireSame(Path.of("fixtures").resolve(name));
    }

    @ParameterizedTest
    @ValueSource(strings = {"tables", "irregular"})
    void theCopyOfWhatTablesListIsThat(String name) throws Exception {
        TableImport.Result tables =
                TableImport.read(Path.of("fixtures").resolve(name), 1, Progress.NONE);
        requireSame(written(((TableImport.Sound) tables).design().orElseThrow()));
    }

    static LongStream seeds() {
        return LongStream.range(0, 4);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theCopyOfAMadeDesignIsTheDesign(long seed) throws Exception {
        for (MadeDesign made :
                List.of(
                        DesignMaker.make(4000, seed, 0.7, Progress.NONE),
                        DesignMaker.makeWithLongLines(4000, seed, 0.7, Progress.NONE),
                        DesignMaker.makeIrregular(2000, seed, 0.6, Progress.NONE))) {
            requireSame(written(made.design()));
            new CopyFolder(folder.resolve("copies")).clear();
        }
    }

    static LongStream draws() {
        return LongStream.range(0, 60);
    }

    @ParameterizedTest
    @MethodSource("draws")
    void theCopyOfADrawnDesignIsTheDesign(long seed) throws Exception {
        Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
        requireSame(written(RandomDesigns.on(fabric, 12, new Random(seed))));
    }

    @Test
    void theCopyHasAllThatAFileCanState() throws Exception {
        Path file = written(EveryField.design(240));
        String text = Files.readString(file);
        for (String key :
                List.of("required_ps", "unrouted", "locked", "clock", "enable", "setting")) {
            assertThat(text).contains("\"" + key + "\"");
        }
        requireSame(file);
    }

    @Test
    void aDesignOnAnotherFabricIsReadAgain() throws Exception {
        Path file = written(EveryField.design(1));
        copies(file, Progress.NONE).read();
        assertThat(find(file)).isPresent();
        byte[] before = Files.readAllBytes(folder.resolve(FABRIC));
        String text = Files.readString(folder.resolve(FABRIC));
        Files.writeString(folder.resolve(FABRIC), text.replace("\"invented\"", "\"changed\""));
        assertThat(find(file)).isEmpty();
        Design read = copies(file, Progress.NONE).read();
        assertThat(read.fabric().info().note()).isEqualTo("changed");
        SameDesign.require(read, find(file).orElseThrow());
        Files.write(folder.resolve(FABRIC), before);
        assertThat(find(file)).isEmpty();
        Files.delete(folder.resolve(FABRIC));
        assertThat(find(file)).isEmpty();
        assertThatThrownBy(() -> copies(file, Progress.NONE).read()).isInstanceOf(BadInput.class);
    }

    /** The board is read each time: no part of a design depends on it. */
    @Test
    void theBoardIsThatOfItsFile() throws Exception {
        Path file = written(DesignMaker.make(2000, 1, 0.5, Progress.NONE).design());
        copies(file, Progress.NONE).read();
        Path board = folder.resolve(BOARD);
        String text = Files.readString(board);
        String name = find(file).orElseThrow().board().name();
        Files.writeString(board, text.replace("\"" + name + "\"", "\"another\""));
        assertThat(find(file).orElseThrow().board().name()).isEqualTo("another");
        Files.writeString(board, "{}");
        assertThat(find(file)).isEmpty();
        assertThatThrownBy(() -> copies(file, Progress.NONE).read())
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(BOARD);
    }

    @Test
    void aDesignThatChangedIsReadAgain() throws Exception {
        Path file = written(EveryField.design(1));
        copies(file, Progress.NONE).read();
        String text = Files.readString(file);
        // of equal length, so that its copy is tried first
        Files.writeString(file, text.replace("two", "six"));
        assertThat(find(file)).isEmpty();
        assertThat(copies(file, Progress.NONE).read().note()).startsWith("six");
        Files.writeString(file, text);
        assertThat(find(file).orElseThrow().note()).startsWith("two");
        Files.writeString(file, text.replace("two", "six"));
        assertThat(find(file).orElseThrow().note()).startsWith("six");
    }

    /** What the file names may be gone by then, or be another file elsewhere. */
    @Test
    void aCopyDoesNotCountWhereNothingIsBeside() throws Exception {
        Path file = written(EveryField.design(1));
        copies(file, Progress.NONE).read();
        Path moved = Files.createDirectory(folder.resolve("moved")).resolve("d.json");
        Files.copy(file, moved);
        assertThat(find(moved)).isEmpty();
        Files.copy(folder.resolve(FABRIC), moved.resolveSibling(FABRIC));
        SameDesign.require(find(file).orElseThrow(), find(moved).orElseThrow());
    }

    /** Changes the fabric's file when it is asked for the so manieth time whether to stop. */
    private final class Changing implements Progress {
        private final int when;
        private final AtomicInteger asked = new AtomicInteger(); // by several threads

        private Changing(int when) {
            this.when = when;
        }

        @Override
        public void report(double done, String message) {}

        @Override
        public boolean cancelled() {
            if (asked.incrementAndGet() == when) {
                assertThatCode(DesignCopiesTest.this::changeFabric).doesNotThrowAnyException();
            }
            return false;
        }
    }

    private void changeFabric() throws IOException {
        Path fabric = folder.resolve(FABRIC);
        String text = Files.readString(fabric).replace("\"invented\"", "\"changed\"");
        Files.writeString(fabric, text);
    }

    /** Whenever it is written, the fabric of a copy is the one that was read for it. */
    @Test
    void aFabricThatIsWrittenMeanwhileIsNotTakenForTheOther() throws Exception {
        Path file = written(EveryField.design(1));
        Path fabric = folder.resolve(FABRIC);
        byte[] before = Files.readAllBytes(fabric);
        int notKept = 0;
        int asked = Integer.MAX_VALUE;
        for (int when = 1; when <= asked; when++) {
            new CopyFolder(folder.resolve("copies")).clear();
            Files.write(fabric, before);
            Changing progress = new Changing(when);
            Design read = copies(file, progress).read();
            asked = progress.asked.get();
            if (find(file).isEmpty()) {
                notKept++;
            } else {
                assertThat(read.fabric().info().note()).isEqualTo("changed");
            }
        }
        assertThat(notKept).isBetween(1, asked - 1);
        Files.write(fabric, before);
        copies(file, Progress.NONE).read();
        int notFound = 0;
        asked = Integer.MAX_VALUE;
        for (int when = 1; when <= asked; when++) {
            Files.write(fabric, before);
            Changing progress = new Changing(when);
            Optional<Design> found = copies(file, progress).find();
            asked = progress.asked.get();
            notFound += found.isEmpty() ? 1 : 0;
            found.ifPresent(d -> assertThat(d.fabric().info().note()).isEqualTo("invented"));
        }
        assertThat(notFound).isPositive();
    }

    /** A device has no end at which its digest would be known. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void aFabricThatIsADeviceIsAFault() throws Exception {
        Path zeros = folder.toRealPath().relativize(Path.of("/dev/zero"));
        Path file = folder.toRealPath().resolve("design.json");
        DesignWriter.write(EveryField.design(1), file, zeros.toString(), "");
        AtomicInteger asked = new AtomicInteger();
        Progress impatient =
                new Progress() {
                    @Override
                    public void report(double done, String message) {}

                    @Override
                    public boolean cancelled() {
                        return asked.incrementAndGet() > 10_000;
                    }
                };
        assertThatThrownBy(() -> copies(file, impatient).read()).isInstanceOf(BadInput.class);
    }

    @Test
    void aCopyWithAnyByteFlippedIsReplaced() throws Exception {
        Path file = written(EveryField.design(1));
        Design design = copies(file, Progress.NONE).read();
        Path copy = onlyCopy();
        byte[] sound = Files.readAllBytes(copy);
        for (int at = 0; at < sound.length; at++) {
            byte[] damaged = sound.clone();
            damaged[at] ^= (byte) (1 << at % Byte.SIZE);
            Files.write(copy, damaged);
            assertThat(find(file)).as("byte %d", at).isEmpty();
        }
        SameDesign.require(design, copies(file, Progress.NONE).read());
        assertThat(onlyCopy()).hasBinaryContent(sound);
    }

    @Test
    void aCopyCutShortAnywhereOrLongerIsReplaced() throws Exception {
        Path file = written(EveryField.design(1));
        copies(file, Progress.NONE).read();
        Path copy = onlyCopy();
        byte[] sound = Files.readAllBytes(copy);
        for (int length = 0; length < sound.length; length++) {
            Files.write(copy, Arrays.copyOf(sound, length));
            assertThat(find(file)).as("length %d", length).isEmpty();
            Files.write(copy, fitted(Arrays.copyOf(sound, length)));
            assertThat(find(file)).as("length %d, fitted", length).isEmpty();
        }
        Files.write(copy, Arrays.copyOf(sound, sound.length + 1));
        assertThat(find(file)).isEmpty();
        copies(file, Progress.NONE).read();
        assertThat(onlyCopy()).hasBinaryContent(sound);
    }

    /** With the digest at the end that belongs to the bytes before it. */
    private static byte[] fitted(byte[] copy) {
        int length = copy.length - SourceDigest.BYTES;
        if (length > 0) {
            MessageDigest sum = SourceDigest.start();
            sum.update(copy, 0, length);
            System.arraycopy(sum.digest(), 0, copy, length, SourceDigest.BYTES);
        }
        return copy;
    }

    /**
     * Somebody may write a digest that fits: what is read then is a design that answers every
     * question, or nothing. Here what is before the design, {@code CompactDesignTest} has the rest.
     */
    @Test
    void aForgedHeadIsNoneOrThatOfTheDesign() throws Exception {
        Path file = written(EveryField.design(1));
        Design design = copies(file, Progress.NONE).read();
        Path copy = onlyCopy();
        byte[] sound = Files.readAllBytes(copy);
        ByteArrayOutputStream contents = new ByteArrayOutputStream();
        CompactOut out = new CompactOut(contents, Progress.NONE);
        CompactDesign.write(out, design);
        out.finish();
        int head = sound.length - contents.size() - SourceDigest.BYTES;
        assertThat(head).isBetween(100, 200);
        for (int at = 0; at < head; at++) {
            byte[] forged = sound.clone();
            forged[at] ^= (byte) (1 << at % Byte.SIZE);
            Files.write(copy, fitted(forged));
            assertThat(find(file)).as("byte %d", at).isEmpty();
        }
        Files.write(copy, fitted(sound.clone()));
        assertThat(find(file)).isPresent();
    }

    /**
     * Copies of earlier builds would be read wrongly when this changes: raise the number in {@link
     * DesignCopies#SORT} then, and also when files are read differently. The first is on a fabric
     * that lists every wire, the second on one made from a pattern.
     */
    @Test
    void theLayoutIsTheOneOfItsNumber() throws Exception {
        StringBuilder digests = new StringBuilder();
        for (String name : List.of("lessons/narrows.design.json", "workbench/design.json.gz")) {
            copies(Path.of("fixtures").resolve(name), Progress.NONE).read();
            byte[] digest = SourceDigest.start().digest(Files.readAllBytes(onlyCopy()));
            digests.append(HexFormat.of().formatHex(digest, 0, 8)).append(' ');
            new CopyFolder(folder.resolve("copies")).clear();
        }
        assertThat(digests + "" + DesignCopies.SORT.layout())
                .isEqualTo("83618f5157b5bfdb f85df10a8aa1d96b 1");
    }

    @Test
    void itStopsWhenItIsCancelled() throws Exception {
        Path file = written(EveryField.design(1));
        Progress stopped =
                new Progress() {
                    @Override
                    public void report(double done, String message) {}

                    @Override
                    public boolean cancelled() {
                        return true;
                    }
                };
        assertThatThrownBy(() -> copies(file, stopped).read())
                .isInstanceOf(CancellationException.class);
        copies(file, Progress.NONE).read();
        assertThatThrownBy(() -> copies(file, stopped).find())
                .isInstanceOf(CancellationException.class);
    }

    /** Notes which threads report to it. */
    private static final class Watching implements Progress {
        private final Set<Thread> reporting = ConcurrentHashMap.newKeySet();

        @Override
        public void report(double done, String message) {
            reporting.add(Thread.currentThread());
        }

        @Override
        public boolean cancelled() {
            return false;
        }
    }

    /** Digests are calculated on other threads, which tell the caller nothing. */
    @Test
    void onlyTheCallersThreadReports() throws Exception {
        Path file = written(DesignMaker.makeIrregular(2000, 3, 0.6, Progress.NONE).design());
        copies(file, Progress.NONE).read();
        Watching progress = new Watching();
        for (int i = 0; i < 20; i++) {
            assertThat(copies(file, progress).find()).isPresent();
        }
        assertThat(progress.reporting).containsExactly(Thread.currentThread());
    }

    /** Through the reader, as every command does it; the tests' settings have their own folder. */
    @Test
    void theReaderUsesCopiesOfLargeFiles() throws Exception {
        CopyFolder used = CopyFolder.find().orElseThrow();
        used.clear();
        Path file = written(DesignMaker.make(40_000, 4, 0.9, Progress.NONE).design());
        assertThat(Files.size(file)).isGreaterThan(1 << 18);
        Design first = DesignReader.read(file, Progress.NONE);
        assertThat(used.copies())
                .filteredOn(c -> c.path().toString().endsWith(".design"))
                .hasSize(1);
        SameDesign.require(first, DesignReader.read(file, Progress.NONE));
        used.clear();
        DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        assertThat(used.copies()).isEmpty();
    }

    @Test
    void itsFabricIsTheOneThatTheReaderReads() throws Exception {
        Path file = written(EveryField.design(1));
        copies(file, Progress.NONE).read();
        Fabric fabric = FabricReader.read(folder.resolve(FABRIC), Progress.NONE);
        Fabric copied = find(file).orElseThrow().fabric();
        assertThat(copied.vertexCount()).isEqualTo(fabric.vertexCount());
        assertThat(copied.info()).isEqualTo(fabric.info());
    }
}
