package padward.format.bsdl;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import padward.fabric.pad.PadDirections;

/**
 * The pins of a package as a BSDL file lists them.
 *
 * @param file name of the file in messages
 * @param entity the component's name
 * @param map name of the pin map, usually that of the package
 * @param pins one for each bit of each port, in the file's order
 */
public record PackagePins(String file, String entity, String map, List<Pin> pins) {
    /** Copies the list. */
    public PackagePins {
        pins = List.copyOf(pins);
    }

    /** What a port is for (IEEE 1149.1, the port list of the entity). */
    public enum Mode {
        /** Signals come in. */
        IN,
        /** Signals go out, and the driver can be switched off. */
        OUT,
        /** Signals go out, always driven. */
        BUFFER,
        /** Signals go in both directions. */
        INOUT,
        /** No signal: supply, analogue, not connected. */
        LINKAGE;

        /** The word of the standard. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** The directions of signals at such a pad; empty when there are none. */
        public Optional<PadDirections> directions() {
            return switch (this) {
                case IN -> Optional.of(PadDirections.IN);
                case OUT, BUFFER -> Optional.of(PadDirections.OUT);
                case INOUT -> Optional.of(PadDirections.BOTH);
                case LINKAGE -> Optional.empty();
            };
        }
    }

    /**
     * A port of one bit.
     *
     * @param port its name, {@code Y(1)} for a bit of a vector
     * @param mode what it is for
     * @param pin its pin of the package
     */
    public record Pin(String port, Mode mode, String pin) {}

    /** The pins by the names of their ports, in lower case; bits also as {@code y[1]}. */
    public Map<String, Pin> byPort() {
        Map<String, Pin> result = new LinkedHashMap<>();
        for (Pin pin : pins) {
            String name = pin.port().toLowerCase(Locale.ROOT);
            result.put(name, pin);
            result.put(name.replace('(', '[').replace(')', ']'), pin);
        }
        return result;
    }

    /** The pins by their names in the package. */
    public Map<String, Pin> byPin() {
        Map<String, Pin> result = new LinkedHashMap<>();
        pins.forEach(p -> result.put(p.pin(), p));
        return result;
    }
}
