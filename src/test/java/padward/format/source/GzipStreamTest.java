package padward.format.source;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;

/** Gzip data is read whole or reported, also when it is several members one after the other. */
class GzipStreamTest {
    private static byte[] packed(byte[]... members) throws IOException {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] member : members) {
            try (GZIPOutputStream out = new GZIPOutputStream(all)) {
                out.write(member);
            }
        }
        return all.toByteArray();
    }

    private static byte[] unpacked(byte[] data, int buffer) throws IOException {
        try (GzipStream in = new GzipStream(new ByteArrayInputStream(data), buffer)) {
            return in.readAllBytes();
        }
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    /** Against the library, on sound data of several members, with any buffer. */
    @Test
    void soundDataIsReadAsTheLibraryReadsIt() throws Exception {
        Random random = new Random(5);
        for (int round = 0; round < 200; round++) {
            byte[][] members = new byte[1 + random.nextInt(3)][];
            for (int i = 0; i < members.length; i++) {
                members[i] = new byte[random.nextInt(5000)];
                random.nextBytes(members[i]);
                Arrays.fill(members[i], 0, random.nextInt(members[i].length + 1), (byte) 'x');
            }
            byte[] data = packed(members);
            byte[] expected = new GZIPInputStream(new ByteArrayInputStream(data)).readAllBytes();
            assertThat(unpacked(data, 1 + random.nextInt(700))).isEqualTo(expected);
        }
    }

    @Test
    void aWrongBitIsReportedOrMakesNoDifference() throws Exception {
        byte[] first = packed(bytes("wire,tile\n"));
        byte[] data = packed(bytes("wire,tile\n"), bytes("a,x0y0\nb,x0y1\n"));
        byte[] sound = unpacked(data, 64);
        int refused = 0;
        for (int at = 0; at < data.length; at++) {
            for (int bit = 0; bit < 8; bit++) {
                byte[] damaged = data.clone();
                damaged[at] ^= (byte) (1 << bit);
                byte[] read;
                try {
                    read = unpacked(damaged, 64);
                } catch (ZipException | EOFException reported) {
                    refused++;
                    continue;
                }
                // A time, for instance, says nothing about the data.
                assertThat(read).as("byte %d, bit %d", at, bit).isEqualTo(sound);
            }
        }
        assertThat(refused).isGreaterThan(2 * data.length);
        for (int length = 0; length < data.length; length++) {
            byte[] cut = Arrays.copyOf(data, length);
            if (length != first.length) {
                assertThatThrownBy(() -> unpacked(cut, 64)).isInstanceOf(EOFException.class);
            }
        }
    }

    @Test
    void headersWithAllTheirPartsAreRead() throws Exception {
        byte[] plain = packed(bytes("text"));
        ByteArrayOutputStream data = new ByteArrayOutputStream();
        data.write(new byte[] {0x1F, (byte) 0x8B, 8, 4 + 8 + 16, 0, 0, 0, 0, 0, 3});
        data.write(new byte[] {2, 0, 'e', 'x'});
        data.write(bytes("name\0comment\0"));
        data.write(plain, 10, plain.length - 10);
        assertThat(unpacked(data.toByteArray(), 16)).isEqualTo(bytes("text"));
    }

    /** A table of two members whose second one is damaged was read as its first half. */
    @Test
    void aFileWithADamagedSecondMemberIsReported(@TempDir Path folder) throws Exception {
        byte[] data = packed(bytes("wire\n"), bytes("a\nb\n"));
        data[packed(bytes("wire\n")).length + 2] = 9;
        Path file = Files.write(folder.resolve("wires.csv.gz"), data);
        Source source = Source.of(file);
        try (Reader text = TextSource.open(source, Progress.NONE)) {
            assertThatThrownBy(() -> read(source, text))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("other or damaged data");
        }
    }

    private static void read(Source source, Reader text) throws BadInput {
        try {
            while (text.read() >= 0) {
                // to the end
            }
        } catch (IOException fault) {
            throw IoFaults.describe(source, fault);
        }
    }
}
