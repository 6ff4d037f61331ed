package padward.watch.library;

import java.math.BigInteger;
import java.util.List;

/** What circuits of the library must show, from the past levels of nets alone. */
public final class Specification {
    private Specification() {}

    /** Level of the output in a cycle; cycles before the first are unknown and not asked. */
    public interface Rule {
        boolean at(List<boolean[]> past, int cycle);
    }

    /** The nets' levels so many cycles ago, put together somehow. */
    public interface OfNets {
        boolean of(boolean[] nets);
    }

    static Rule now(OfNets function) {
        return (past, t) -> function.of(past.get(t));
    }

    static Rule later(int cycles, OfNets function) {
        return (past, t) -> function.of(past.get(t - cycles));
    }

    /** High when the condition was true in one of the last cycles. */
    static Rule stretched(int cycles, OfNets function) {
        return (past, t) -> {
            for (int c = t - cycles; c < t; c++) {
                if (function.of(past.get(c))) {
                    return true;
                }
            }
            return false;
        };
    }

    /** High when an event came after the last reset. */
    static Rule remembered(OfNets event, OfNets reset) {
        return (past, t) -> {
            for (int c = t - 1; c >= 0 && !reset.of(past.get(c)); c--) {
                if (event.of(past.get(c))) {
                    return true;
                }
            }
            return false;
        };
    }

    /** How often the nets had a rising edge, up to a cycle. */
    static int edges(List<boolean[]> past, int until, OfNets function) {
        int edges = 0;
        for (int c = 1; c < until; c++) {
            edges += function.of(past.get(c)) && !function.of(past.get(c - 1)) ? 1 : 0;
        }
        return edges;
    }

    /** x^16 + x^12 + x^5 + 1. */
    private static final BigInteger GENERATOR = BigInteger.valueOf(0x11021);

    /** The check as the remainder of a division of polynomials, begun at each reset. */
    static int check(List<boolean[]> past, int until, int nets, OfNets reset) {
        BigInteger check = BigInteger.ZERO;
        for (int c = 0; c < until; c++) {
            if (reset.of(past.get(c))) {
                check = BigInteger.valueOf(0xffff);
                continue;
            }
            BigInteger sum = check.shiftLeft(1);
            for (int i = 0; i < nets; i++) {
                if (past.get(c)[i]) {
                    sum = sum.xor(BigInteger.ONE.shiftLeft(i == 0 ? 16 : i % 16));
                }
            }
            check = sum.testBit(16) ? sum.xor(GENERATOR) : sum;
        }
        return check.intValueExact();
    }
}
