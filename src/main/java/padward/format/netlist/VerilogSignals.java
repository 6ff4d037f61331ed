package padward.format.netlist;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import padward.base.BadInput;
import padward.format.source.Nearest;
import padward.format.source.Text;

/**
 * Signals in connections (IEEE 1364-2005, clause 5): nets, selected bits and parts, constants,
 * concatenations and replications. All are lists of bits, the leftmost first.
 */
final class VerilogSignals {
    private static final int DEFAULT_WIDTH = 32;
    private static final int DEEPEST = 100;

    private final VerilogLexer lexer;
    private final NetlistModule module;
    private final BitCount count;
    private int depth;

    VerilogSignals(VerilogLexer lexer, NetlistModule module, BitCount count) {
        this.lexer = lexer;
        this.module = module;
        this.count = count;
    }

    /** All bits of a net, or of a part of it. */
    List<Bit> whole(String net, Range range) throws BadInput {
        countMade(range.width());
        return range.bits(net);
    }

    /** Counts bits that are about to be made, each once: concatenations only put them together. */
    private void countMade(int bits) throws BadInput {
        if (count.isTooMuchWith(bits)) {
            throw lexer.fault(BitCount.EXPECTED);
        }
    }

    /** The signal that comes next. */
    List<Bit> read() throws BadInput {
        if (lexer.isMark('{')) {
            return readConcatenation();
        }
        if (lexer.sort() == VerilogLexer.Sort.NUMBER) {
            List<Bit> bits = constant(lexer.word());
            lexer.next();
            return bits;
        }
        return readNet();
    }

    private List<Bit> readConcatenation() throws BadInput {
        if (++depth > DEEPEST) {
            throw lexer.fault("at most " + DEEPEST + " brackets inside each other");
        }
        lexer.next();
        List<Bit> bits = new ArrayList<>();
        if (lexer.sort() == VerilogLexer.Sort.NUMBER && !lexer.word().contains("'")) {
            int times = integer();
            if (!lexer.isMark('{')) {
                throw lexer.fault("\"{\" after the number of repetitions");
            }
            List<Bit> once = readConcatenation();
            if ((long) times * once.size() > Range.MOST_BITS) {
                throw lexer.fault("at most " + Range.MOST_BITS + " bits");
            }
            countMade(Math.max(0, times - 1) * once.size());
            for (int i = 0; i < times; i++) {
                bits.addAll(once);
            }
        } else {
            bits.addAll(read());
            while (lexer.isMark(',')) {
                lexer.next();
                bits.addAll(read());
            }
        }
        if (!lexer.isMark('}')) {
            throw lexer.fault("\",\" or \"}\"");
        }
        lexer.next();
        depth--;
        return bits;
    }

    private List<Bit> readNet() throws BadInput {
        boolean escaped = lexer.sort() == VerilogLexer.Sort.ESCAPED;
        if (lexer.sort() != VerilogLexer.Sort.WORD && !escaped) {
            throw lexer.fault("a net, a constant or \"{\"");
        }
        String net = lexer.word();
        String place = lexer.place();
        lexer.next();
        Range range = module.nets.get(net);
        if (range == null) {
            if (lexer.isMark('[')) {
                throw lexer.fault(
                        place,
                        "a vector that is declared",
                        Nearest.describe(net, module.nets.keySet().stream()));
            }
            // an identifier that is not declared is a net of one bit (clause 4.5)
            module.nets.put(net, Range.ONE);
            range = Range.ONE;
        }
        return lexer.isMark('[') ? readSelected(net, range, place) : whole(net, range);
    }

    private List<Bit> readSelected(String net, Range range, String place) throws BadInput {
        lexer.next();
        int first = integer();
        int last = first;
        if (lexer.isMark(':')) {
            lexer.next();
            last = integer();
        }
        if (!lexer.isMark(']')) {
            throw lexer.fault("\":\" or \"]\"");
        }
        lexer.next();
        if (!range.vector() || !range.has(first) || !range.has(last)) {
            throw lexer.fault(
                    place,
                    range.vector()
                            ? "indices of " + net + " from " + range.msb() + " to " + range.lsb()
                            : "a vector",
                    Text.quote(net + "[" + first + (last == first ? "" : ":" + last) + "]"));
        }
        if (range.place(first) < range.place(last)) {
            throw lexer.fault(place, "a part in the direction of the vector", first + ":" + last);
        }
        return whole(net, Range.of(first, last));
    }

    /** A plain whole number, with its sign if it has one. */
    int integer() throws BadInput {
        boolean minus = lexer.isMark('-');
        if (minus) {
            lexer.next();
        }
        String word = lexer.word().replace("_", "");
        boolean plain = lexer.sort() == VerilogLexer.Sort.NUMBER && word.matches("[0-9]{1,9}");
        if (!plain) {
            throw lexer.fault("a whole number");
        }
        lexer.next();
        return minus ? -Integer.parseInt(word) : Integer.parseInt(word);
    }

    /** The bits of a constant, leftmost first (clause 3.5.1). */
    private List<Bit> constant(String text) throws BadInput {
        int mark = text.indexOf('\'');
        String digits = text.substring(mark + 1).replace("_", "").toLowerCase(Locale.ROOT);
        char base = 'd';
        int width = DEFAULT_WIDTH;
        if (mark >= 0) {
            base = digits.isEmpty() ? ' ' : digits.charAt(0);
            digits = digits.isEmpty() ? "" : digits.substring(1);
            String size = text.substring(0, mark).replace("_", "");
            width = size.isEmpty() ? DEFAULT_WIDTH : size.length() > 6 ? 0 : Integer.parseInt(size);
        }
        int each = "bohd".indexOf(base) < 0 ? 0 : base == 'o' ? 3 : base == 'h' ? 4 : 1;
        if (each == 0 || digits.isEmpty() || width < 1 || width > Range.MOST_BITS) {
            throw lexer.fault("a constant");
        }
        countMade(width);
        List<Bit> bits = new ArrayList<>();
        if (base == 'd') {
            decimal(digits, bits);
        } else {
            for (int i = 0; i < digits.length(); i++) {
                digit(digits.charAt(i), each, bits);
            }
        }
        return bits.size() >= width
                ? bits.subList(bits.size() - width, bits.size())
                : extended(bits, width);
    }

    private void decimal(String digits, List<Bit> bits) throws BadInput {
        if (digits.matches("[xz?]")) {
            bits.add(new Bit.Constant(digits.charAt(0) == 'x' ? 'x' : 'z'));
            return;
        }
        if (!digits.matches("[0-9]{1,5000}")) {
            throw lexer.fault("a constant");
        }
        for (char c : new BigInteger(digits).toString(2).toCharArray()) {
            bits.add(new Bit.Constant(c));
        }
    }

    private void digit(char c, int each, List<Bit> bits) throws BadInput {
        if (c == 'x' || c == 'z' || c == '?') {
            char value = c == 'x' ? 'x' : 'z';
            bits.addAll(Collections.nCopies(each, new Bit.Constant(value)));
            return;
        }
        int value = Character.digit(c, 1 << each);
        if (value < 0) {
            throw lexer.fault("a constant");
        }
        for (int b = each - 1; b >= 0; b--) {
            bits.add(new Bit.Constant((value >> b & 1) == 1 ? '1' : '0'));
        }
    }

    /** Fills on the left: with x or z where the leftmost bit is one of these, else with 0. */
    static List<Bit> extended(List<Bit> bits, int width) {
        char fill = '0';
        if (!bits.isEmpty() && bits.get(0) instanceof Bit.Constant c && c.value() > '1') {
            fill = c.value();
        }
        List<Bit> all = new ArrayList<>();
        while (all.size() + bits.size() < width) {
            all.add(new Bit.Constant(fill));
        }
        all.addAll(bits);
        return all;
    }
}
