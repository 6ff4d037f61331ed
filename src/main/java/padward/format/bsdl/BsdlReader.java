package padward.format.bsdl;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.FileLimits;
import padward.format.source.IoFaults;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * Reads what a BSDL file (IEEE 1149.1, annex B) states of the package: the entity, its ports, and
 * one of its pin maps. Everything else, such as the boundary register, is skipped.
 */
public final class BsdlReader {
    private record PortBit(String name, PackagePins.Mode mode) {}

    private final Source source;
    private final BsdlWords words;
    private final Map<String, List<PortBit>> ports = new LinkedHashMap<>();
    private final Map<String, String> maps = new LinkedHashMap<>();
    private final Map<String, String> places = new LinkedHashMap<>();
    private long allBits;
    private String entity = "";
    private String usual = "";

    private BsdlReader(Source source, BsdlWords words) {
        this.source = source;
        this.words = words;
    }

    /**
     * Reads a file.
     *
     * @param map name of the map of pins, or {@code ""} for the file's default, or the only one
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static PackagePins read(Path file, String map, Progress progress) throws BadInput {
        Source source = Source.of(file);
        try (Reader text = TextSource.open(source, progress)) {
            return new BsdlReader(source, new BsdlWords(source, text)).run(map);
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private PackagePins run(String map) throws BadInput {
        words.next();
        while (!words.is("entity")) {
            if (words.isEnd()) {
                throw words.fault("\"entity\"");
            }
            words.next();
        }
        words.next();
        entity = words.identifier("the entity's name");
        words.expect("is");
        while (!words.is("end")) {
            if (words.is("generic")) {
                readGeneric();
            } else if (words.is("port")) {
                readPorts();
            } else if (words.is("constant")) {
                readConstant();
            } else if (words.isEnd()) {
                throw words.fault("\"end\"");
            } else {
                words.skipStatement();
            }
        }
        if (ports.isEmpty()) {
            throw words.fault("a port list before \"end\"");
        }
        String chosen = choose(map);
        return new PackagePins(source.label(), entity, chosen, pins(chosen));
    }

    /** {@code generic (PHYSICAL_PIN_MAP : string := "DW");}. */
    private void readGeneric() throws BadInput {
        while (!words.is(";")) {
            if (words.isEnd()) {
                throw words.fault("\";\"");
            }
            boolean named = words.is("PHYSICAL_PIN_MAP");
            words.next();
            while (named && !words.is(")") && !words.is(";") && !words.isEnd()) {
                if (words.isText()) {
                    usual = words.word();
                }
                words.next();
            }
        }
        words.next();
    }

    private void readPorts() throws BadInput {
        words.next();
        words.expect("(");
        while (true) {
            List<String> names = new ArrayList<>();
            String place = words.place();
            names.add(words.identifier("the name of a port"));
            while (words.is(",")) {
                words.next();
                names.add(words.identifier("the name of a port"));
            }
            words.expect(":");
            PackagePins.Mode mode = readMode();
            List<String> indices = readType();
            allBits += (long) names.size() * indices.size();
            if (allBits > FileLimits.PACKAGE_BITS) {
                String expected = "at most " + FileLimits.PACKAGE_BITS + " bits of all ports";
                throw words.fault(place, expected, "more");
            }
            for (String name : names) {
                List<PortBit> bits =
                        indices.stream().map(i -> new PortBit(name + i, mode)).toList();
                if (ports.put(name.toLowerCase(Locale.ROOT), bits) != null) {
                    throw words.fault(place, "each port once", "a second " + Text.quote(name));
                }
            }
            if (words.is(")")) {
                words.next();
                words.expect(";");
                return;
            }
            words.expect(";");
        }
    }

    private PackagePins.Mode readMode() throws BadInput {
        for (PackagePins.Mode mode : PackagePins.Mode.values()) {
            if (words.is(mode.label())) {
                words.next();
                return mode;
            }
        }
        throw words.fault("one of in, out, buffer, inout, linkage");
    }

    /** The suffix of each bit's name, in the order of the pins: empty for one bit. */
    private List<String> readType() throws BadInput {
        if (words.is("bit")) {
            words.next();
            return List.of("");
        }
        if (!words.is("bit_vector")) {
            throw words.fault("bit or bit_vector");
        }
        words.next();
        words.expect("(");
        int first = words.integer();
        boolean up = words.is("to");
        if (!up && !words.is("downto")) {
            throw words.fault("to or downto");
        }
        words.next();
        String place = words.place();
        int last = words.integer();
        words.expect(")");
        int count = up ? last - first + 1 : first - last + 1;
        if (count < 1 || count > FileLimits.PACKAGE_BITS) {
            throw words.fault(place, "1 to " + FileLimits.PACKAGE_BITS + " bits", "" + count);
        }
        List<String> indices = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            indices.add("(" + (up ? first + i : first - i) + ")");
        }
        return indices;
    }

    /** {@code constant DW : PIN_MAP_STRING := "OE_NEG1:1, Y1:(2,3,4,5)," & "GND:6";}. */
    private void readConstant() throws BadInput {
        words.next();
        String name = words.identifier("the name of a constant");
        words.expect(":");
        if (!words.is("PIN_MAP_STRING")) {
            words.skipStatement();
            return;
        }
        words.next();
        words.expect(":");
        words.expect("=");
        places.put(name, words.place());
        maps.put(name, words.joinedText());
        words.expect(";");
    }

    private String choose(String wanted) throws BadInput {
        String name = wanted.isEmpty() ? usual : wanted;
        if (maps.isEmpty()) {
            throw new BadInput(source.label(), "", "a constant of type PIN_MAP_STRING", "none");
        }
        for (String known : maps.keySet()) {
            if (known.equalsIgnoreCase(name)) {
                return known;
            }
        }
        if (name.isEmpty() && maps.size() == 1) {
            return maps.keySet().iterator().next();
        }
        throw new BadInput(
                source.label(),
                "",
                "one of the maps of pins " + String.join(", ", maps.keySet()),
                name.isEmpty() ? "no choice" : Nearest.describe(name, maps.keySet().stream()));
    }

    private List<PackagePins.Pin> pins(String map) throws BadInput {
        BsdlPinMap text = new BsdlPinMap(source.label(), places.get(map), maps.get(map));
        List<PackagePins.Pin> pins = new ArrayList<>();
        Set<String> mapped = new HashSet<>();
        Set<String> taken = new HashSet<>();
        while (text.next()) {
            List<PortBit> bits = bits(text);
            if (bits.size() != text.pins().size()) {
                throw text.fault(
                        bits.size() + " pins of port " + text.port(), "" + text.pins().size());
            }
            for (int i = 0; i < bits.size(); i++) {
                String pin = text.pins().get(i);
                if (!mapped.add(bits.get(i).name())) {
                    throw text.fault("each port once", Text.quote(text.port()) + " again");
                }
                if (!taken.add(pin)) {
                    throw text.fault("each pin once", Text.quote(pin) + " again");
                }
                pins.add(new PackagePins.Pin(bits.get(i).name(), bits.get(i).mode(), pin));
            }
        }
        return pins;
    }

    private List<PortBit> bits(BsdlPinMap text) throws BadInput {
        String name = text.port().toLowerCase(Locale.ROOT);
        int bracket = name.indexOf('(');
        List<PortBit> all = ports.get(bracket < 0 ? name : name.substring(0, bracket));
        if (all == null) {
            throw text.fault(
                    "a port of entity " + entity, Nearest.describe(name, ports.keySet().stream()));
        }
        if (bracket < 0) {
            return all;
        }
        List<PortBit> one =
                all.stream().filter(b -> b.name().equalsIgnoreCase(text.port())).toList();
        if (one.isEmpty()) {
            throw text.fault("a bit of the port", Text.quote(text.port()));
        }
        return one;
    }
}
