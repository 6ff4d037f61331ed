package padward.format;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.pattern.PatternFabric;
import padward.format.bsdl.BsdlReader;
import padward.format.netlist.CellMapping;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.format.tables.TableImport;
import padward.synth.FabricMaker;

/** Damaged tables, netlists and package files end in a reported fault, or are read. */
class OwnDataFuzzProperties {
    private static final String EDIF =
            "(edif m (edifVersion 2 0 0) (library w (cell keep (view n (interface"
                    + " (port d (direction INPUT)) (port c (direction INPUT))"
                    + " (port q (direction OUTPUT))))) (cell m (view n (interface"
                    + " (port (array (rename x \"x[1:0]\") 2) (direction INPUT))"
                    + " (port clk (direction INPUT)) (port y (direction OUTPUT)))"
                    + " (contents (instance a (viewRef n (cellRef keep)))"
                    + " (net n1 (joined (portRef (member x 0)) (portRef d (instanceRef a))))"
                    + " (net n2 (joined (portRef clk) (portRef c (instanceRef a))))"
                    + " (net n3 (joined (portRef y) (portRef q (instanceRef a))))))))"
                    + " (design m (cellRef m (libraryRef w))))";

    private static final int ROUNDS = 100;

    @TempDir private Path folder;

    /** Deletes bytes, repeats some, or replaces them. */
    private static byte[] damaged(byte[] whole, Random random) {
        byte[] bytes = whole.clone();
        for (int i = 0; i <= random.nextInt(4); i++) {
            int at = random.nextInt(bytes.length);
            int length = Math.min(1 + random.nextInt(12), bytes.length - at);
            String marks = "(),;:\"'[]{}.\\\n-/*#x0|=~ ";
            switch (random.nextInt(3)) {
                case 0 -> {
                    byte[] shorter = new byte[bytes.length - length];
                    System.arraycopy(bytes, 0, shorter, 0, at);
                    System.arraycopy(bytes, at + length, shorter, at, bytes.length - at - length);
                    bytes = shorter.length == 0 ? bytes : shorter;
                }
                case 1 -> bytes[at] = (byte) marks.charAt(random.nextInt(marks.length()));
                default ->
                        System.arraycopy(
                                bytes,
                                at,
                                bytes,
                                random.nextInt(bytes.length - length + 1),
                                length);
            }
        }
        return bytes;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void tables(long seed) throws Exception {
        Random random = new Random(seed);
        List<Path> files;
        try (Stream<Path> all = Files.list(Path.of("fixtures/tables"))) {
            files = all.filter(f -> f.toString().endsWith(".csv")).sorted().toList();
        }
        for (Path file : files) {
            Files.copy(file, folder.resolve(file.getFileName()));
        }
        int sound = 0;
        int faulty = 0;
        for (int i = 0; i < ROUNDS; i++) {
            Path file = files.get(random.nextInt(files.size()));
            Path copy = folder.resolve(file.getFileName());
            Files.write(copy, damaged(Files.readAllBytes(file), random));
            TableImport.Result result = TableImport.read(folder, 5, Progress.NONE);
            if (result instanceof TableImport.Faulty found) {
                faulty++;
                assertThat(found.shown()).isNotEmpty();
            } else {
                sound++;
            }
            Files.copy(file, copy, StandardCopyOption.REPLACE_EXISTING);
        }
        assertThat(sound).isPositive();
        assertThat(faulty).isGreaterThan(ROUNDS / 2);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void netlistsAndPackages(long seed) throws Exception {
        Random random = new Random(seed);
        Fabric fabric = PatternFabric.compile(FabricMaker.make(5_000, 1));
        CellMapping mapping =
                CellMappingReader.read(
                        Path.of("fixtures/netlists/larch.mapping.json"), Progress.NONE);
        byte[] verilog = Files.readAllBytes(Path.of("fixtures/netlists/counter.v"));
        byte[] bsdl = Files.readAllBytes(Path.of("fixtures/package/larch-8.bsdl"));
        byte[] edif = EDIF.getBytes(StandardCharsets.US_ASCII);
        NetlistReader.read(
                Files.write(folder.resolve("whole.edf"), edif), "", mapping, fabric, Progress.NONE);
        int refused = 0;
        for (int i = 0; i < ROUNDS; i++) {
            Path v = Files.write(folder.resolve("t.v"), damaged(verilog, random));
            Path e = Files.write(folder.resolve("t.edf"), damaged(edif, random));
            Path b = Files.write(folder.resolve("t.bsdl"), damaged(bsdl, random));
            for (Path file : List.of(v, e)) {
                try {
                    NetlistReader.read(file, "", mapping, fabric, Progress.NONE);
                } catch (BadInput fault) {
                    refused++;
                }
            }
            try {
                BsdlReader.read(b, "", Progress.NONE);
            } catch (BadInput fault) {
                refused++;
            }
        }
        assertThat(refused).isGreaterThan(ROUNDS / 2);
    }
}
