package padward.format;

import static org.assertj.core.api.Assertions.fail;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.lesson.file.FileChecker;

/**
 * Damages the examples' files at random places: whatever the bytes, the answer is success or one
 * {@link BadInput}. The seed and the damaged file's bytes are in the failure.
 */
class FuzzProperties {
    private static final int ROUNDS = 400;

    /** Words that are likely to hurt: borders of ranges, brackets, other types. */
    private static final List<String> HURTFUL =
            List.of(
                    "0",
                    "-1",
                    "1e9",
                    "2147483647",
                    "2147483648",
                    "0.5",
                    "null",
                    "true",
                    "\"\"",
                    "[",
                    "]",
                    "{",
                    "}",
                    ",",
                    ":",
                    "\\",
                    "\"",
                    "\u0000",
                    "\"\\ud800\"",
                    "[]",
                    "{}",
                    "4096",
                    "10000");

    @TempDir private Path folder;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "only.fabric.json",
                "around.fabric.json",
                "only.design.json",
                "around.design.json",
                "board.json"
            })
    void anyDamageIsABadInputOrHarmless(String name) throws Exception {
        copyExamples();
        long seed = Long.getLong("padward.seed", 20_261_125L) + name.hashCode();
        Random random = new Random(seed);
        byte[] sound = Files.readAllBytes(folder.resolve(name));
        for (int round = 0; round < ROUNDS; round++) {
            byte[] damaged = damage(sound, random);
            Path file = folder.resolve(name);
            Files.write(file, damaged);
            check(file, "seed " + seed + ", round " + round, damaged);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3})
    void anyDamageToGzipIsABadInputOrHarmless(int part) throws Exception {
        copyExamples();
        long seed = Long.getLong("padward.seed", 20_261_125L) + part;
        Random random = new Random(seed);
        Path file = folder.resolve("explicit.json.gz");
        FabricWriter.write(
                FabricReader.read(folder.resolve("only.fabric.json"), Progress.NONE), file);
        byte[] sound = Files.readAllBytes(file);
        for (int round = 0; round < 40; round++) {
            byte[] damaged =
                    random.nextBoolean()
                            ? Arrays.copyOf(sound, random.nextInt(sound.length))
                            : flip(sound, random);
            Files.write(file, damaged);
            check(file, "seed " + seed + ", round " + round, new byte[0]);
        }
    }

    private void copyExamples() throws Exception {
        try (Stream<Path> files = Files.list(Path.of("fixtures/small"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".json")).toList()) {
                try (InputStream in = Files.newInputStream(file)) {
                    Files.copy(in, folder.resolve(file.getFileName().toString()));
                }
            }
        }
    }

    private static void check(Path file, String when, byte[] bytes) {
        try {
            FileChecker.check(file, Progress.NONE);
        } catch (BadInput expected) {
            if (expected.expected().isBlank() || expected.found().isBlank()) {
                fail(when + ": says nothing: " + expected.getMessage());
            }
        } catch (RuntimeException | Error e) {
            String text = new String(bytes, StandardCharsets.UTF_8);
            throw new AssertionError(when + ":\n" + text, e);
        }
    }

    private static byte[] flip(byte[] sound, Random random) {
        byte[] damaged = sound.clone();
        for (int i = random.nextInt(3); i >= 0; i--) {
            damaged[random.nextInt(damaged.length)] ^= (byte) (1 << random.nextInt(8));
        }
        return damaged;
    }

    private static byte[] damage(byte[] sound, Random random) {
        return switch (random.nextInt(6)) {
            case 0 -> Arrays.copyOf(sound, random.nextInt(sound.length));
            case 1 -> flip(sound, random);
            case 2 -> splice(sound, random, HURTFUL.get(random.nextInt(HURTFUL.size())));
            case 3 -> splice(sound, random, piece(sound, random));
            default -> replaceToken(sound, random);
        };
    }

    /** Puts a text in place of up to 40 bytes. */
    private static byte[] splice(byte[] sound, Random random, String text) {
        String all = new String(sound, StandardCharsets.ISO_8859_1);
        int from = random.nextInt(all.length());
        int to = Math.min(all.length(), from + random.nextInt(40));
        return (all.substring(0, from) + text + all.substring(to))
                .getBytes(StandardCharsets.ISO_8859_1);
    }

    private static String piece(byte[] sound, Random random) {
        int from = random.nextInt(sound.length);
        int to = Math.min(sound.length, from + random.nextInt(200));
        return new String(sound, from, to - from, StandardCharsets.ISO_8859_1);
    }

    /** Keeps the JSON sound: a whole number or a text becomes another value. */
    private static byte[] replaceToken(byte[] sound, Random random) {
        String all = new String(sound, StandardCharsets.ISO_8859_1);
        var tokens =
                Pattern.compile("-?\\d+(?=[,\\]}\\s])|\"[^\"]*\"(?!:)")
                        .matcher(all)
                        .results()
                        .toList();
        var at = tokens.get(random.nextInt(tokens.size()));
        var other = tokens.get(random.nextInt(tokens.size()));
        String text = random.nextBoolean() ? other.group() : HURTFUL.get(random.nextInt(9));
        return (all.substring(0, at.start()) + text + all.substring(at.end()))
                .getBytes(StandardCharsets.ISO_8859_1);
    }
}
