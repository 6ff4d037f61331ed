package padward.hostile;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.zip.CRC32C;

/**
 * A kind of input.
 *
 * @param name its name, which is that of its folder in the corpus
 * @param file where an input is written to be read
 * @param words words of its language
 * @param seeds sound inputs, and those of the corpus
 * @param check reads an input
 */
record Target(String name, Path file, List<String> words, List<byte[]> seeds, Targets.Check check) {
    /**
     * Fabrics of millions of wires are sound; one that is as large takes more than an input may.
     */
    private static final Pattern LARGE = Pattern.compile("\"(?:columns|rows)\"\\s*:\\s*\"?\\d{4,}");

    /** The next input: a changed one of those that were found so far. */
    byte[] vary(List<byte[]> pool, Random random) {
        byte[] from = pool.get(random.nextInt(pool.size()));
        byte[] other = pool.get(random.nextInt(pool.size()));
        byte[] varied = new Mutations(random, words).of(from, other, isJson());
        if (name.equals("journal") && random.nextInt(4) > 0) {
            varied = withSums(varied);
        }
        return name.equals("fabric") && LARGE.matcher(latin(varied)).find() ? from : varied;
    }

    private boolean isJson() {
        return file.toString().endsWith(".json");
    }

    private static String latin(byte[] bytes) {
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    /** Makes the checksum of each line right again. */
    private static byte[] withSums(byte[] journal) {
        StringBuilder result = new StringBuilder();
        for (String line : latin(journal).split("(?<=\n)")) {
            int brace = line.indexOf('{');
            if (brace >= 0) {
                CRC32C crc = new CRC32C();
                crc.update(
                        line.substring(brace)
                                .stripTrailing()
                                .getBytes(StandardCharsets.ISO_8859_1));
                result.append(String.format("%08x ", (int) crc.getValue()))
                        .append(line.substring(brace).stripTrailing())
                        .append('\n');
            } else {
                result.append(line);
            }
        }
        return result.toString().getBytes(StandardCharsets.ISO_8859_1);
    }

    /** Reads an input, and leaves the sound one in its place where others need it. */
    Judge.Verdict read(byte[] input) throws Exception {
        Files.write(file, input);
        Judge.Verdict verdict = Judge.judge(() -> check.of(file));
        if (name.startsWith("tables-")) {
            Files.write(file, seeds.get(0));
        }
        return verdict;
    }
}
