package padward.format.compact;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.PlainFabric;
import padward.fabric.explicit.ExplicitFabric;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.source.Source;
import padward.format.source.SourceDigest;
import padward.format.source.UserFolder;
import padward.format.tables.TableImport;
import padward.synth.DesignMaker;

/** A fabric from its compact copy is the fabric; a copy that is not sound is none. */
class FabricCopiesTest {
    private static final int SMALL = 7;

    @TempDir private Path folder;
    private final AtomicInteger reads = new AtomicInteger();

    private static ExplicitFabric plain(long seed) {
        return new PlainFabric(seed).builder.build();
    }

    private FabricCopies copies() {
        return new FabricCopies(new CopyFolder(folder.resolve("copies")), 1 << 30);
    }

    private Source source(String text) throws IOException {
        return Source.of(Files.writeString(folder.resolve("source"), text));
    }

    /** Gets the fabric of a source which stands for a drawn one. */
    private ExplicitFabric get(FabricCopies copies, Source source, ExplicitFabric fabric)
            throws Exception {
        Optional<ExplicitFabric> copy = copies.find(source, Progress.NONE);
        return copy.isPresent()
                ? copy.get()
                : copies.read(
                        source,
                        () -> {
                            reads.incrementAndGet();
                            return fabric;
                        },
                        Progress.NONE);
    }

    private Path onlyCopy() {
        List<CopyFolder.Entry> all = new CopyFolder(folder.resolve("copies")).copies();
        assertThat(all).hasSize(1);
        return all.get(0).path();
    }

    static LongStream seeds() {
        return LongStream.range(0, 150);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theCopyOfADrawnFabricIsTheFabric(long seed) throws Exception {
        ExplicitFabric fabric = plain(seed);
        Source source = source("a source");
        assertThat(get(copies(), source, fabric)).isSameAs(fabric);
        ExplicitFabric copy = get(copies(), source, fabric);
        assertThat(reads).hasValue(1);
        assertThat(copy).isNotSameAs(fabric);
        assertThat(SameFabric.told(copy, true)).isEqualTo(SameFabric.told(fabric, true));
        assertThat(copy.graphBytes()).isEqualTo(fabric.graphBytes());
        assertThat(copy.nameBytes()).isEqualTo(fabric.nameBytes());
    }

    /** With parts, switch groups, sites over several tiles, settings, and what cannot be used. */
    @Test
    void theCopyOfAnIrregularDeviceIsTheDevice() throws Exception {
        Path file = folder.resolve("device.json");
        TableImport.Result tables =
                TableImport.read(Path.of("fixtures/irregular"), 1, Progress.NONE);
        FabricWriter.write(((TableImport.Sound) tables).fabric(), file);
        String text = Files.readString(file);
        Files.writeString(
                file, text.replaceFirst("(\"wires\":\\s*\\[\\s*\\{)", "$1\"unusable\":true,"));
        ExplicitFabric device = (ExplicitFabric) FabricReader.read(Source.of(file), Progress.NONE);
        assertThat(device.switchGroups().isEmpty()).isFalse();
        assertThat(device.unusable().isEmpty()).isFalse();
        assertThat(device.hasWideSites()).isTrue();
        get(copies(), Source.of(file), device);
        SameFabric.require(device, get(copies(), Source.of(file), device), folder);
        assertThat(reads).hasValue(1);
    }

    @Test
    void aFileThatChangedIsReadAgain() throws Exception {
        get(copies(), source("before"), plain(1));
        ExplicitFabric other = plain(2);
        assertThat(get(copies(), source("after"), other)).isSameAs(other);
        assertThat(get(copies(), source("before"), other).vertexCount())
                .isEqualTo(plain(1).vertexCount());
    }

    /** A file is first taken for that of its length that was read last. */
    @Test
    void filesOfEqualLengthHaveTheirOwnCopies() throws Exception {
        for (int i = 0; i < 3; i++) {
            get(copies(), source("source " + i), plain(i));
        }
        for (int i : new int[] {1, 0, 2, 2, 1}) {
            ExplicitFabric copy = get(copies(), source("source " + i), plain(9));
            assertThat(SameFabric.told(copy, true)).isEqualTo(SameFabric.told(plain(i), true));
        }
        assertThat(reads).hasValue(3);
    }

    @Test
    void whatChangesWhileItIsReadIsNotKept() throws Exception {
        Source source = source("before");
        ExplicitFabric fabric = plain(SMALL);
        copies().read(
                        source,
                        () -> {
                            assertThatCode(() -> source("after")).doesNotThrowAnyException();
                            return fabric;
                        },
                        Progress.NONE);
        assertThat(new CopyFolder(folder.resolve("copies")).copies()).isEmpty();
    }

    /** It was read; that its file is gone since then is no fault. */
    @Test
    void whatIsDeletedWhileItIsReadIsRead() throws Exception {
        Source source = source("a source");
        ExplicitFabric fabric = plain(SMALL);
        ExplicitFabric read =
                copies().read(
                                source,
                                () -> {
                                    assertThatCode(() -> Files.delete(folder.resolve("source")))
                                            .doesNotThrowAnyException();
                                    return fabric;
                                },
                                Progress.NONE);
        assertThat(read).isSameAs(fabric);
        assertThat(new CopyFolder(folder.resolve("copies")).copies()).isEmpty();
    }

    @Test
    void whatIsLargerThanAllCopiesTogetherLeavesNoTrace() throws Exception {
        ExplicitFabric fabric = plain(SMALL);
        FabricCopies few = new FabricCopies(new CopyFolder(folder.resolve("copies")), 10);
        assertThat(get(few, source("a source"), fabric)).isSameAs(fabric);
        assertThat(folder.resolve("copies")).doesNotExist();
    }

    @Test
    void aCopyWithAnyByteFlippedIsReplaced() throws Exception {
        Source source = source("a source");
        ExplicitFabric fabric = plain(SMALL);
        get(copies(), source, fabric);
        Path copy = onlyCopy();
        byte[] sound = Files.readAllBytes(copy);
        for (int at = 0; at < sound.length; at++) {
            byte[] damaged = sound.clone();
            damaged[at] ^= (byte) (1 << at % Byte.SIZE);
            Files.write(copy, damaged);
            assertIsNone(source, "byte " + at);
        }
        assertThat(get(copies(), source, fabric)).isSameAs(fabric);
        assertThat(onlyCopy()).hasBinaryContent(sound);
    }

    @Test
    void aCopyCutShortAnywhereOrLongerIsReplaced() throws Exception {
        Source source = source("a source");
        ExplicitFabric fabric = plain(SMALL);
        get(copies(), source, fabric);
        Path copy = onlyCopy();
        byte[] sound = Files.readAllBytes(copy);
        for (int length = 0; length < sound.length; length++) {
            Files.write(copy, Arrays.copyOf(sound, length));
            assertIsNone(source, "length " + length);
        }
        Files.write(copy, Arrays.copyOf(sound, sound.length + 1));
        assertThat(get(copies(), source, fabric)).isSameAs(fabric);
        assertThat(onlyCopy()).hasBinaryContent(sound);
    }

    private void assertIsNone(Source source, String what) throws Exception {
        assertThat(copies().find(source, Progress.NONE)).as(what).isEmpty();
    }

    /**
     * Somebody may write a digest that fits: what is read then is a fabric that answers every
     * question, or nothing.
     */
    @Test
    void aForgedCopyIsNoneOrAnswersAll() throws Exception {
        for (long seed : new long[] {SMALL, 11}) {
            Source source = source("source " + seed);
            get(copies(), source, plain(seed));
            Path copy = copyOf(source);
            byte[] sound = Files.readAllBytes(copy);
            int none = 0;
            for (int at = 0; at < sound.length - SourceDigest.BYTES; at++) {
                byte[] forged = sound.clone();
                forged[at] ^= (byte) (at % 3 == 0 ? 0xff : 1 << at % Byte.SIZE);
                MessageDigest sum = SourceDigest.start();
                sum.update(forged, 0, forged.length - SourceDigest.BYTES);
                byte[] end = sum.digest();
                System.arraycopy(end, 0, forged, forged.length - end.length, end.length);
                Files.write(copy, forged);
                Optional<ExplicitFabric> read = copies().find(source, Progress.NONE);
                none += read.isEmpty() ? 1 : 0;
                assertThatCode(() -> read.ifPresent(f -> SameFabric.told(f, false)))
                        .as("seed %d byte %d", seed, at)
                        .doesNotThrowAnyException();
            }
            assertThat(none).isGreaterThan(sound.length / 4);
        }
    }

    private Path copyOf(Source source) throws Exception {
        String digest = SourceDigest.of(source, Progress.NONE).toText();
        return new CopyFolder(folder.resolve("copies"))
                .copy(digest, source.size(), FabricCopies.SORT);
    }

    /**
     * Copies of earlier builds would be read wrongly when this changes: raise {@link
     * FabricCopies#SORT} then, and also when files are read differently.
     */
    @Test
    void theLayoutIsTheOneOfItsNumber() throws Exception {
        get(copies(), source("a source"), plain(SMALL));
        byte[] digest = SourceDigest.start().digest(Files.readAllBytes(onlyCopy()));
        assertThat(HexFormat.of().formatHex(digest, 0, 8) + " " + FabricCopies.SORT.layout())
                .isEqualTo("efa7e7f1178b1a9f 5");
    }

    @Test
    void severalProgramsAtOnceGetTheFabricEach() throws Exception {
        Source source = source("a source");
        ExplicitFabric fabric = plain(SMALL);
        List<Object> told = SameFabric.told(fabric, true);
        ExecutorService threads = Executors.newFixedThreadPool(4);
        List<Future<ExplicitFabric>> all = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            boolean clears = i % 5 == 0;
            all.add(
                    threads.submit(
                            () -> {
                                if (clears) {
                                    new CopyFolder(folder.resolve("copies")).clear();
                                }
                                return get(copies(), source, fabric);
                            }));
        }
        for (Future<ExplicitFabric> each : all) {
            assertThat(SameFabric.told(each.get(), true)).isEqualTo(told);
        }
        threads.shutdown();
    }

    @Test
    void theCopiesUsedLeastRecentlyGoFirst() throws Exception {
        ExplicitFabric fabric = plain(SMALL);
        get(copies(), source("0"), fabric);
        long size = Files.size(onlyCopy());
        FabricCopies three =
                new FabricCopies(new CopyFolder(folder.resolve("copies")), 3 * size + size / 2);
        for (int i = 1; i < 3; i++) {
            get(three, source("" + i), fabric);
        }
        Instant now = Instant.now();
        for (int i = 0; i < 3; i++) {
            Files.setLastModifiedTime(
                    copyOf(source("" + i)), FileTime.from(now.minusSeconds(100 - i)));
        }
        get(three, source("0"), fabric); // used again
        get(three, source("3"), fabric);
        assertThat(three.find(source("1"), Progress.NONE)).isEmpty();
        assertThat(three.find(source("0"), Progress.NONE)).isPresent();
        assertThat(new CopyFolder(folder.resolve("copies")).copies()).hasSize(3);
    }

    @Test
    void whereNothingCanBeWrittenTheFabricIsRead() throws Exception {
        Files.writeString(folder.resolve("copies"), "a file where the folder would be");
        ExplicitFabric fabric = plain(SMALL);
        assertThat(get(copies(), source("a source"), fabric)).isSameAs(fabric);
        assertThat(folder.resolve("copies")).hasContent("a file where the folder would be");
    }

    /** The runtime's own image can only be read; the other file is gone. */
    @Test
    void aCopyWhoseTimeCannotBeSetIsUsedAllTheSame() {
        Path image = Path.of(URI.create("jrt:/java.base/java/lang/Object.class"));
        assertThat(image).isRegularFile();
        assertThatCode(() -> CopyFolder.setUsed(image)).doesNotThrowAnyException();
        Path gone = folder.resolve("gone");
        assertThatCode(() -> CopyFolder.setUsed(gone)).doesNotThrowAnyException();
    }

    @Test
    void itStopsWhenItIsCancelled() throws Exception {
        Source source = source("a source");
        assertThatThrownBy(
                        () ->
                                copies().read(
                                                source,
                                                () -> plain(SMALL),
                                                new padward.base.Progress() {
                                                    @Override
                                                    public void report(double done, String m) {}

                                                    @Override
                                                    public boolean cancelled() {
                                                        return true;
                                                    }
                                                }))
                .isInstanceOf(CancellationException.class);
    }

    /** Counts how often it is asked whether to stop, and says yes from some time on. */
    private static final class Counting implements Progress {
        private final int stop;
        private final AtomicInteger asked = new AtomicInteger(); // by several threads

        private Counting(int stop) {
            this.stop = stop;
        }

        @Override
        public void report(double done, String message) {}

        @Override
        public boolean cancelled() {
            return asked.incrementAndGet() >= stop;
        }
    }

    /**
     * The digest alone asks once a block; a copy that is kept or read asks in each of its blocks.
     */
    @Test
    void aStopIsHeardInEachBlockOfACopy() throws Exception {
        Path file = folder.resolve("device.json");
        FabricWriter.write(
                DesignMaker.makeIrregular(1500, 4, 0, Progress.NONE).design().fabric(), file);
        ExplicitFabric device = (ExplicitFabric) FabricReader.read(Source.of(file), Progress.NONE);
        Source source = Source.of(file);
        SourceDigest digest = SourceDigest.of(source, Progress.NONE);
        Counting kept = new Counting(Integer.MAX_VALUE);
        copies().keep(digest, source.size(), device, kept);
        long size = Files.size(onlyCopy());
        int blocks = (int) (size >> 16);
        assertThat(blocks).isGreaterThan(1);
        assertThat(kept.asked.get()).isGreaterThanOrEqualTo(blocks);
        Counting found = new Counting(Integer.MAX_VALUE);
        assertThat(copies().find(source, found)).isPresent();
        assertThat(found.asked.get()).isGreaterThanOrEqualTo(2 * blocks);
        for (int stop = 1; stop <= found.asked.get(); stop++) {
            Counting progress = new Counting(stop);
            assertThatThrownBy(() -> copies().find(source, progress))
                    .isInstanceOf(CancellationException.class);
        }
        new CopyFolder(folder.resolve("copies")).clear();
        for (int stop = 1; stop <= kept.asked.get(); stop++) {
            Counting progress = new Counting(stop);
            assertThatThrownBy(() -> copies().keep(digest, source.size(), device, progress))
                    .isInstanceOf(CancellationException.class);
            assertThat(folder.resolve("copies")).isEmptyDirectory();
        }
    }

    /** Through the reader, as every command does it; the tests' settings have their own folder. */
    @Test
    void theReaderUsesCopiesOfLargeFiles() throws Exception {
        CopyFolder used = CopyFolder.find().orElseThrow();
        assertThat(used.path()).startsWithRaw(UserFolder.path());
        used.clear();
        Path file = folder.resolve("device.json");
        FabricWriter.write(
                DesignMaker.makeIrregular(1500, 4, 0, Progress.NONE).design().fabric(), file);
        FabricCopies.of(Source.of(file)).orElseThrow();
        var first = FabricReader.read(file, Progress.NONE);
        assertThat(used.copies()).hasSize(1);
        SameFabric.require(first, FabricReader.read(file, Progress.NONE), folder);
        assertThat(used.clear()).isEqualTo(1);
        assertThat(FabricCopies.of(source("short"))).isEmpty();
    }
}
