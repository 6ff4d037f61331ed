package padward.format.netlist;

import java.util.AbstractList;
import java.util.List;
import java.util.Objects;
import java.util.RandomAccess;

/**
 * The indices of a vector, {@code [msb:lsb]}; either end can be the larger.
 *
 * @param msb index of the leftmost bit
 * @param lsb index of the rightmost bit
 * @param vector false for a net of one bit that has no index
 */
record Range(int msb, int lsb, boolean vector) {
    /** Index of a net that is no vector. */
    static final int SCALAR = Integer.MIN_VALUE;

    /** Most bits of a vector. */
    static final int MOST_BITS = 65_536;

    static final Range ONE = new Range(0, 0, false);

    static Range of(int msb, int lsb) {
        return new Range(msb, lsb, true);
    }

    int width() {
        return Math.abs(msb - lsb) + 1;
    }

    boolean has(int index) {
        return vector
                ? index >= Math.min(msb, lsb) && index <= Math.max(msb, lsb)
                : index == SCALAR;
    }

    /** Place of an index, counted from the rightmost bit. */
    int place(int index) {
        return vector ? Math.abs(index - lsb) : 0;
    }

    /** The index at a place, counted from the rightmost bit. */
    int index(int place) {
        return !vector ? SCALAR : msb >= lsb ? lsb + place : lsb - place;
    }

    /** All bits of a net of this range, leftmost first: made when they are asked for. */
    List<Bit> bits(String net) {
        return new Bits(this, net);
    }

    private static final class Bits extends AbstractList<Bit> implements RandomAccess {
        private final Range range;
        private final String net;

        private Bits(Range range, String net) {
            this.range = range;
            this.net = net;
        }

        @Override
        public Bit get(int index) {
            Objects.checkIndex(index, size());
            return new Bit.OfNet(net, range.index(size() - 1 - index));
        }

        @Override
        public int size() {
            return range.width();
        }
    }
}
