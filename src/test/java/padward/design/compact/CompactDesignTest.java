package padward.design.compact;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.board.Board;
import padward.example.EveryField;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;
import padward.format.design.SameDesign;
import padward.synth.DesignMaker;

/** What is between the digests of a design's copy: whatever it says, it is a design or nothing. */
class CompactDesignTest {
    private static byte[] written(Design design) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        CompactOut out = new CompactOut(bytes, Progress.NONE);
        CompactDesign.write(out, design);
        out.finish();
        return bytes.toByteArray();
    }

    private static Design read(byte[] bytes, Design like) throws IOException {
        CompactIn in = in(bytes);
        Design read = CompactDesign.read(in, like.fabric(), Board.UNKNOWN);
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
}
