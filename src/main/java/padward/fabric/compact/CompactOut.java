package padward.fabric.compact;

import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.BitSet;
import java.util.Collection;
import java.util.Optional;
import padward.base.Progress;

/**
 * Writes numbers, arrays and texts as bytes, in the order in which {@link CompactIn} reads them:
 * numbers of 4 and 8 bytes, the lowest first, arrays behind their length, a text that was written
 * before as its number; small numbers and names as short as they are. Belongs to one thread; {@link
 * #finish} ends it.
 */
public final class CompactOut {
    /** Writes one thing. */
    @FunctionalInterface
    public interface Part<T> {
        /** Writes it. */
        void write(T thing) throws IOException;
    }

    private static final int ROOM = 1 << 16;

    /** A small number has 7 bits in a byte, the lowest first; another byte follows one below 0. */
    static final int SMALL_BITS = 7;

    static final int SMALL_BASE = 1 << SMALL_BITS;

    /** Most bytes of a small number. */
    static final int MOST_SMALL = 5;

    /** Most bytes of a name. */
    static final int NAME_BYTES = 1 << 13;

    private final OutputStream out;
    private final Progress progress;
    private final ByteBuffer room = ByteBuffer.allocate(ROOM).order(ByteOrder.LITTLE_ENDIAN);
    private final Object2IntOpenHashMap<String> texts = new Object2IntOpenHashMap<>();

    /**
     * @param out where the bytes go
     * @param progress asked for each block whether to stop; a stop is a {@link
     *     java.util.concurrent.CancellationException}
     */
    public CompactOut(OutputStream out, Progress progress) {
        this.out = out;
        this.progress = progress;
    }

    private void need(int bytes) throws IOException {
        if (room.remaining() < bytes) {
            finish();
        }
    }

    /** Hands on all that was written. */
    public void finish() throws IOException {
        progress.check();
        out.write(room.array(), 0, room.position());
        room.clear();
    }

    /** Writes a whole number. */
    public void number(int number) throws IOException {
        need(Integer.BYTES);
        room.putInt(number);
    }

    /**
     * Writes a whole number from 0 on, in the fewer bytes the smaller it is.
     *
     * @throws IOException also when it is below 0
     */
    public void smallNumber(int number) throws IOException {
        if (number < 0) {
            throw new IOException("a number below 0 where none can be");
        }
        need(MOST_SMALL);
        int rest = number;
        while (rest >= SMALL_BASE) {
            room.put((byte) (rest | SMALL_BASE));
            rest >>>= SMALL_BITS;
        }
        room.put((byte) rest);
    }

    /** Writes a whole number of 64 bits. */
    public void longNumber(long number) throws IOException {
        need(Long.BYTES);
        room.putLong(number);
    }

    /** Writes a number with a fraction, exactly. */
    public void fraction(double number) throws IOException {
        longNumber(Double.doubleToRawLongBits(number));
    }

    /** Writes yes or no. */
    public void flag(boolean flag) throws IOException {
        need(1);
        room.put((byte) (flag ? 1 : 0));
    }

    /** Writes an array. */
    public void numbers(int[] numbers) throws IOException {
        number(numbers.length);
        int at = 0;
        while (at < numbers.length) {
            need(Integer.BYTES);
            int some = Math.min(numbers.length - at, room.remaining() / Integer.BYTES);
            room.asIntBuffer().put(numbers, at, some);
            room.position(room.position() + some * Integer.BYTES);
            at += some;
        }
    }

    /** Writes an array of numbers from 0 to 65,535. */
    public void narrowNumbers(char[] numbers) throws IOException {
        number(numbers.length);
        for (char number : numbers) {
            need(Character.BYTES);
            room.putChar(number);
        }
    }

    /** Writes an array. */
    public void longNumbers(long[] numbers) throws IOException {
        number(numbers.length);
        for (long number : numbers) {
            longNumber(number);
        }
    }

    /** Writes an array. */
    public void bytes(byte[] bytes) throws IOException {
        number(bytes.length);
        finish();
        for (int at = 0; at < bytes.length; at += ROOM) {
            progress.check();
            out.write(bytes, at, Math.min(ROOM, bytes.length - at));
        }
    }

    /** Writes a set of numbers. */
    public void bits(BitSet bits) throws IOException {
        longNumbers(bits.toLongArray());
    }

    /** Writes a text. */
    public void text(String text) throws IOException {
        int number = texts.getOrDefault(text, texts.size());
        number(number);
        if (number == texts.size()) {
            texts.put(text, number);
            // char by char: an encoding would lose halves of pairs
            number(text.length());
            for (int i = 0; i < text.length(); i++) {
                need(Character.BYTES);
                room.putChar(text.charAt(i));
            }
        }
    }

    /**
     * Writes a name, as UTF-8. Names are hardly ever the same, so none is looked for.
     *
     * @throws IOException when it is too long, or cannot be written so: it has a half of a pair
     */
    public void name(String name) throws IOException {
        byte[] bytes = name.getBytes(StandardCharsets.UTF_8);
        boolean same = new String(bytes, StandardCharsets.UTF_8).equals(name);
        if (!same || bytes.length > NAME_BYTES) {
            throw new IOException("not a name that can be kept");
        }
        smallNumber(bytes.length);
        need(bytes.length);
        room.put(bytes);
    }

    /** Writes a constant by its name, which stays when others are added. */
    public void constant(Enum<?> constant) throws IOException {
        text(constant.name());
    }

    /** Writes the parts of a list one by one. */
    public <T> void list(Collection<T> list, Part<? super T> part) throws IOException {
        number(list.size());
        for (T each : list) {
            part.write(each);
        }
    }

    /** Writes what may be missing. */
    public <T> void optional(Optional<T> thing, Part<? super T> part) throws IOException {
        flag(thing.isPresent());
        if (thing.isPresent()) {
            part.write(thing.get());
        }
    }
}
