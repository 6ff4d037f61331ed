package padward.watch.condition;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.base.BadInput;

/**
 * Reads conditions: {@code pump/count[7:0] == 8h3F && !alarm/beep}. By recursive descent; each
 * fault names the character, counted from 1, at which it stands.
 *
 * <pre>
 * condition  = both { "||" both }
 * both       = single { "&amp;&amp;" single }
 * single     = "!" single | "(" condition ")"
 *            | ( "rising" | "falling" ) "(" condition ")" | compared
 * compared   = side [ sign side | "in" number ".." number ]
 * side       = net | net "[" high ":" low "]" | number
 * </pre>
 */
public final class ConditionParser {
    /** Deepest nesting of brackets and signs. */
    private static final int DEEPEST = 100;

    private static final int LONGEST = 10_000;
    private static final String EXPECTED_SIDE = "a net, a number or “(”";

    private final String source;
    private final String text;
    private final ConditionNetNames names;
    private int at;
    private int depth;

    private ConditionParser(String source, String text, ConditionNetNames names) {
        this.source = source;
        this.text = text;
        this.names = names;
    }

    /**
     * Reads a condition.
     *
     * @param source the option or field that it stands in
     * @param names the nets it may name
     * @throws BadInput when it is no condition, or names what is not there
     */
    public static Condition parse(String source, String text, ConditionNetNames names)
            throws BadInput {
        if (text.length() > LONGEST) {
            throw new BadInput(
                    source,
                    "",
                    "at most " + LONGEST + " characters",
                    text.length() + " characters");
        }
        return new ConditionParser(source, text, names).whole();
    }

    /**
     * The nets that a text names, without any condition: a net, all bits of a vector, or some of
     * them ({@code count[7:4]}), the lowest first as in conditions.
     *
     * @param source the option or field that it stands in
     * @throws BadInput when it names none, or several
     */
    public static List<String> nets(String source, String text, ConditionNetNames names)
            throws BadInput {
        int bracket = text.endsWith("]") ? text.lastIndexOf('[') : 0;
        try {
            return new ConditionParser(source, text, names)
                    .vector(0, new Name(text, bracket))
                    .nets();
        } catch (BadInput fault) {
            // There is but one name, so that its place says nothing.
            throw new BadInput(source, "", fault.expected(), fault.found());
        }
    }

    private Condition whole() throws BadInput {
        Condition condition = condition();
        skipBlanks();
        if (at < text.length()) {
            throw fault(at, "&&, || or the end of the condition", rest());
        }
        return condition;
    }

    private Condition condition() throws BadInput {
        if (++depth > DEEPEST) {
            throw fault(at, "at most " + DEEPEST + " brackets in brackets", "more");
        }
        List<Condition> all = new ArrayList<>(List.of(both()));
        while (take("||")) {
            all.add(both());
        }
        depth--;
        return all.size() == 1 ? all.get(0) : new Condition.Any(all);
    }

    private Condition both() throws BadInput {
        List<Condition> all = new ArrayList<>(List.of(single()));
        while (take("&&")) {
            all.add(single());
        }
        return all.size() == 1 ? all.get(0) : new Condition.All(all);
    }

    private Condition single() throws BadInput {
        skipBlanks();
        if (isAt("!") && !isAt("!=")) {
            at++;
            if (++depth > DEEPEST) {
                throw fault(at, "at most " + DEEPEST + " signs before each other", "more");
            }
            Condition inner = single();
            depth--;
            return new Condition.Not(inner);
        }
        if (isAt("(")) {
            return inBrackets();
        }
        if (takeCall("rising")) {
            return new Condition.Rising(inBrackets());
        }
        if (takeCall("falling")) {
            return new Condition.Falling(inBrackets());
        }
        return compared();
    }

    private Condition inBrackets() throws BadInput {
        int open = at++;
        Condition inner = condition();
        if (!take(")")) {
            throw fault(at, "“)” for the “(” at character " + (open + 1), rest());
        }
        return inner;
    }

    /** A word with a bracket after it; the bracket is left to be read. */
    private boolean takeCall(String word) {
        if (!isAt(word)) {
            return false;
        }
        int end = at + word.length();
        while (end < text.length() && text.charAt(end) == ' ') {
            end++;
        }
        if (end < text.length() && text.charAt(end) == '(') {
            at = end;
            return true;
        }
        return false;
    }

    /** One side of a comparison: a vector or a number, with the place where it begins. */
    private record Side(int at, Optional<NetVector> vector, Optional<Number> number) {}

    private Condition compared() throws BadInput {
        Side left = side();
        skipBlanks();
        Optional<Comparison> sign = takeSign();
        if (sign.isPresent()) {
            return comparison(left, sign.get(), side());
        }
        if (left.vector.isEmpty()) {
            throw fault(left.at, "a comparison with a net", "a number alone");
        }
        if (takeIn()) {
            return range(left.vector.get());
        }
        if (left.vector.get().width() > 1) {
            throw fault(
                    at,
                    "a comparison, as “"
                            + left.vector.get().text()
                            + "” has "
                            + left.vector.get().width()
                            + " bits",
                    rest());
        }
        return new Condition.High(left.vector.get().nets().get(0));
    }

    private boolean takeIn() {
        boolean word =
                isAt("in")
                        && at > 0
                        && (at + 2 == text.length() || !isNameCharacter(text.charAt(at + 2)));
        at += word ? 2 : 0;
        return word;
    }

    private Optional<Comparison> takeSign() {
        for (Comparison sign :
                List.of(
                        Comparison.EQUAL,
                        Comparison.DIFFERENT,
                        Comparison.AT_MOST,
                        Comparison.AT_LEAST,
                        Comparison.LESS,
                        Comparison.GREATER)) {
            if (take(sign.sign())) {
                return Optional.of(sign);
            }
        }
        return Optional.empty();
    }

    private Condition comparison(Side left, Comparison sign, Side right) throws BadInput {
        if (left.vector.isPresent() && right.vector.isPresent()) {
            NetVector one = left.vector.get();
            NetVector other = right.vector.get();
            if (one.width() != other.width()) {
                throw fault(
                        right.at,
                        "a vector of " + bits(one.width()) + ", as “" + one.text() + "” has",
                        "“" + other.text() + "” of " + bits(other.width()));
            }
            return new Condition.WithVector(one, sign, other);
        }
        if (left.vector.isPresent()) {
            return withNumber(left.vector.get(), sign, right);
        }
        if (right.vector.isPresent()) {
            return withNumber(right.vector.get(), sign.exchanged(), left);
        }
        throw fault(right.at, "a net, as two numbers are always the same", "a number");
    }

    private Condition withNumber(NetVector vector, Comparison sign, Side side) throws BadInput {
        Number number = side.number.orElseThrow();
        requireFit(vector, side);
        boolean equality = sign == Comparison.EQUAL || sign == Comparison.DIFFERENT;
        if (number.masked() && !equality) {
            throw fault(
                    side.at,
                    "a number without x or ? after " + sign.sign(),
                    "one with bits that do not matter");
        }
        BigInteger care = Number.ones(vector.width()).andNot(number.ignored());
        return new Condition.WithValue(vector, sign, number.value(), care);
    }

    private void requireFit(NetVector vector, Side side) throws BadInput {
        Number number = side.number.orElseThrow();
        OptionalInt width = number.width();
        if (width.isPresent() && width.getAsInt() != vector.width()) {
            throw fault(
                    side.at,
                    "a number of " + bits(vector.width()) + ", as “" + vector.text() + "” has",
                    "one of " + bits(width.getAsInt()));
        }
        if (number.value().bitLength() > vector.width()) {
            throw fault(
                    side.at,
                    "a number of at most "
                            + bits(vector.width())
                            + ", as “"
                            + vector.text()
                            + "” has",
                    number.value().toString());
        }
    }

    private Condition range(NetVector vector) throws BadInput {
        Side least = plainNumber(vector);
        if (!take("..")) {
            throw fault(at, "“..” and the greatest number", rest());
        }
        Side greatest = plainNumber(vector);
        BigInteger from = least.number.orElseThrow().value();
        BigInteger to = greatest.number.orElseThrow().value();
        if (from.compareTo(to) > 0) {
            throw fault(greatest.at, "a number of at least " + from, to.toString());
        }
        return new Condition.InRange(vector, from, to);
    }

    private Side plainNumber(NetVector vector) throws BadInput {
        skipBlanks();
        if (at == text.length() || !Character.isDigit(text.charAt(at))) {
            throw fault(at, "a number", rest());
        }
        Side side = side();
        if (side.number.orElseThrow().masked()) {
            throw fault(side.at, "a number without x or ?", "one with bits that do not matter");
        }
        requireFit(vector, side);
        return side;
    }

    private Side side() throws BadInput {
        skipBlanks();
        int start = at;
        if (at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9') {
            return new Side(start, Optional.empty(), Optional.of(number()));
        }
        return new Side(start, Optional.of(vector()), Optional.empty());
    }

    private Number number() throws BadInput {
        int start = at;
        while (at < text.length()
                && (Character.isLetterOrDigit(text.charAt(at))
                        || "_'?".indexOf(text.charAt(at)) >= 0)) {
            at++;
        }
        String written = text.substring(start, at);
        try {
            return Number.of(written);
        } catch (Number.Malformed malformed) {
            throw fault(
                    start,
                    malformed.getMessage()
                            + " (a net whose name begins with a digit is written with \\ before it)",
                    "“" + written + "”");
        }
    }

    /** The name that stands here, without its backslashes, and where its last bracket begins. */
    private record Name(String plain, int bracket) {}

    private NetVector vector() throws BadInput {
        int start = at;
        Name name = name();
        if (name.plain.isEmpty()) {
            throw fault(start, EXPECTED_SIDE, rest());
        }
        return vector(start, name);
    }

    /** A name that ends in bit numbers means these bits, unless a net has exactly that name. */
    private NetVector vector(int start, Name name) throws BadInput {
        boolean range = name.bracket > 0 && name.plain.indexOf(':', name.bracket) > 0;
        if (range && !names.isNet(name.plain)) {
            return bits(start, name);
        }
        ConditionNetNames.Meaning meaning = names.meaning(name.plain);
        if (meaning instanceof ConditionNetNames.Meaning.OneNet net) {
            return new NetVector(name.plain, List.of(net.name()));
        }
        if (meaning instanceof ConditionNetNames.Meaning.OneVector vector) {
            List<String> bits = names.bits(vector.name());
            if (!bits.isEmpty()) {
                return new NetVector(name.plain, bits);
            }
            throw fault(
                    start,
                    "a vector that has all bits from its lowest to its highest",
                    "“" + vector.name() + "”, which lacks some: name the bits, such as [7:4]");
        }
        throw fault(
                start,
                "the name of a net or vector",
                names.notOne(name.plain, (ConditionNetNames.Meaning.NotOne) meaning));
    }

    private NetVector bits(int start, Name name) throws BadInput {
        String base = name.plain.substring(0, name.bracket);
        String inside = name.plain.substring(name.bracket + 1, name.plain.length() - 1);
        String[] ends = inside.split(":", -1);
        if (ends.length != 2 || !isShortNumber(ends[0]) || !isShortNumber(ends[1])) {
            throw fault(start, "two bit numbers, such as [7:0]", "“[" + inside + "]”");
        }
        int high = Integer.parseInt(ends[0]);
        int low = Integer.parseInt(ends[1]);
        int step = high >= low ? 1 : -1;
        List<String> nets = new ArrayList<>();
        if (Math.abs(high - low) >= 256) {
            throw fault(start, "at most 256 bits", "“[" + inside + "]”");
        }
        // All bits are of one vector, even where another has those that it lacks.
        Optional<String> vector = names.findVector(base);
        for (int i = low; i != high + step; i += step) {
            int number = i;
            Optional<String> net = vector.flatMap(v -> names.findBit(v, number));
            if (net.isEmpty()) {
                String bit = base + "[" + i + "]";
                throw fault(start, "the name of a net or vector", names.unknownVector(base, bit));
            }
            nets.add(net.get());
        }
        return new NetVector(name.plain, nets);
    }

    private static boolean isShortNumber(String text) {
        return !text.isEmpty()
                && text.length() < 6
                && text.chars().allMatch(c -> c >= '0' && c <= '9');
    }

    private Name name() throws BadInput {
        StringBuilder plain = new StringBuilder();
        int bracket = 0;
        while (at < text.length()) {
            char c = text.charAt(at);
            if (c == '\\' && at + 1 < text.length()) {
                plain.append(text.charAt(at + 1));
                at += 2;
            } else if (c == '[' && plain.length() > 0) {
                int close = text.indexOf(']', at);
                if (close < 0) {
                    throw fault(at, "“]” for this “[”", "none");
                }
                bracket = plain.length();
                plain.append(text, at, close + 1);
                at = close + 1;
            } else if (isNameCharacter(c) && !(c == '.' && isAt(".."))) {
                plain.append(c);
                at++;
            } else {
                break;
            }
        }
        return new Name(plain.toString(), plain.toString().endsWith("]") ? bracket : 0);
    }

    private static boolean isNameCharacter(char c) {
        return Character.isLetterOrDigit(c) || "_/.:$-#@".indexOf(c) >= 0;
    }

    private boolean take(String sign) {
        skipBlanks();
        boolean there = isAt(sign);
        at += there ? sign.length() : 0;
        return there;
    }

    private boolean isAt(String sign) {
        return text.startsWith(sign, at);
    }

    private void skipBlanks() {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
    }

    private static String bits(int count) {
        return count == 1 ? "1 bit" : count + " bits";
    }

    private String rest() {
        skipBlanks();
        if (at >= text.length()) {
            return "the end";
        }
        String all = text.substring(at);
        return "“" + (all.length() > 20 ? all.substring(0, 20) + "…" : all) + "”";
    }

    private BadInput fault(int where, String expected, String found) {
        return new BadInput(source, "character " + (where + 1), expected, found);
    }
}
