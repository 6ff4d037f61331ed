package padward.fabric;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.fabric.delay.Delay;

/** What a kind of cell does with the levels at its pins, as far as a fabric states it. */
public sealed interface CellFunction {
    /** Most inputs of a lookup table. */
    int MOST_INPUTS = 8;

    /** The pins it uses, each named once in a sound function. */
    List<String> pins();

    /** Whether a site has the pins, in the right directions. */
    default boolean fits(SiteView site) {
        return inPins().stream().allMatch(p -> has(site, p, PinDirection.IN))
                && has(site, output(), PinDirection.OUT);
    }

    private static boolean has(SiteView site, String name, PinDirection direction) {
        return site.pins().stream()
                .anyMatch(p -> p.name().equals(name) && p.direction() == direction);
    }

    /** The pins that it reads, a clock among them. */
    List<String> inPins();

    /** The pin that it drives. */
    String output();

    /** How the contents of a lookup table are spelled. */
    enum Digits {
        /** One digit for each row. */
        BINARY,
        /** One digit for every four rows; small letters. */
        HEXADECIMAL
    }

    /**
     * A lookup table: its output has the value of the row that its inputs select.
     *
     * @param inputs names of its in pins; the i-th is bit i of the number of a row
     * @param output name of its out pin
     * @param setting name of the cell's setting that states its contents
     * @param digits how the setting spells them; row 0 is on the right
     * @param prefix what stands before the digits
     */
    record LookupTable(
            List<String> inputs, String output, String setting, Digits digits, String prefix)
            implements CellFunction {
        /** Copies the list. */
        public LookupTable {
            inputs = List.copyOf(inputs);
        }

        @Override
        public List<String> inPins() {
            return inputs;
        }

        /**
         * What contents become when the signals of two inputs are swapped; empty when the text does
         * not state contents of this kind.
         *
         * @param contents the setting's value
         */
        public Optional<String> swapped(String contents, String input, String other) {
            String stated = contents.startsWith(prefix) ? contents.substring(prefix.length()) : "";
            int radix = digits == Digits.BINARY ? 2 : 16;
            int rows = 1 << inputs.size();
            boolean sound =
                    !stated.isEmpty()
                            && stated.chars().allMatch(c -> Character.digit(c, radix) >= 0);
            BigInteger before = sound ? new BigInteger(stated, radix) : BigInteger.ZERO;
            if (!sound || before.bitLength() > rows) {
                return Optional.empty();
            }
            int one = inputs.indexOf(input);
            int two = inputs.indexOf(other);
            BigInteger after = BigInteger.ZERO;
            for (int row = 0; row < rows; row++) {
                boolean differ = (row >> one & 1) != (row >> two & 1);
                int old = differ ? row ^ 1 << one ^ 1 << two : row;
                after = before.testBit(old) ? after.setBit(row) : after;
            }
            int each = digits == Digits.BINARY ? 1 : 4;
            int length = Math.max(stated.length(), Math.max(1, rows / each));
            String now = after.toString(radix);
            return Optional.of(
                    after.equals(before)
                            ? contents
                            : prefix + "0".repeat(length - now.length()) + now);
        }

        @Override
        public List<String> pins() {
            List<String> pins = new ArrayList<>(inputs);
            pins.add(output);
            return pins;
        }
    }

    /** The value of a register when the device starts. */
    enum Initial {
        UNKNOWN,
        LOW,
        HIGH
    }

    /**
     * A register: it takes the level at its data pin at each rising edge of its clock.
     *
     * @param data name of its data pin
     * @param clock name of its clock pin
     * @param output name of its out pin
     * @param enable name of the pin that must be high for it to take its data; it does so, too,
     *     while nothing is connected there
     * @param reset name of the pin that makes it low at the clock's edge while it is high, whatever
     *     its enable is; without effect while nothing is connected there
     * @param initial its value at the start
     * @param initialSetting name of the cell's setting, 0 or 1, that gives it another value at the
     *     start
     * @param clockToOutput delay from its clock to its output
     * @param setup how long before the clock's edge its data must be stable
     * @param hold how long after the clock's edge its data must be stable
     */
    record Register(
            String data,
            String clock,
            String output,
            Optional<String> enable,
            Optional<String> reset,
            Initial initial,
            Optional<String> initialSetting,
            Optional<Delay> clockToOutput,
            Optional<Delay> setup,
            Optional<Delay> hold)
            implements CellFunction {
        /** One of which only the pins are known. */
        public static Register of(String data, String clock, String output) {
            return new Register(
                    data,
                    clock,
                    output,
                    Optional.empty(),
                    Optional.empty(),
                    Initial.UNKNOWN,
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty());
        }

        /** Whether its value at the start is known or can be set. */
        public boolean startsKnown() {
            return initial != Initial.UNKNOWN || initialSetting.isPresent();
        }

        @Override
        public List<String> inPins() {
            List<String> pins = new ArrayList<>(List.of(data, clock));
            enable.ifPresent(pins::add);
            reset.ifPresent(pins::add);
            return pins;
        }

        @Override
        public List<String> pins() {
            List<String> pins = inPins();
            pins.add(output);
            return pins;
        }
    }
}
