package padward.format.netlist;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.format.source.Source;

/** An instance of an EDIF file while its nets are read. */
final class EdifInstance {
    final String type;
    private final String name;
    private final Bracket at;
    private final Map<String, Bit[]> pins = new LinkedHashMap<>();

    EdifInstance(String name, String type, Bracket at) {
        this.name = name;
        this.type = type;
        this.at = at;
    }

    /** Joins a bit of one of its ports, counted from the rightmost, to a net of the module. */
    void join(NetlistModule module, String port, Range range, int place, Bit bit, BitCount count)
            throws BadInput {
        if (!pins.containsKey(port) && count.isTooMuchWith(range.width())) {
            throw new BadInput(at.file(), "line " + at.line(), BitCount.EXPECTED, "more");
        }
        Bit[] bits = pins.computeIfAbsent(port, p -> new Bit[range.width()]);
        int index = bits.length - 1 - place;
        if (bits[index] == null) {
            bits[index] = bit;
        } else {
            module.joined.add(new NetlistModule.Joined(List.of(bits[index]), List.of(bit)));
        }
    }

    /** The instance with all pins that nets have joined; others are open. */
    NetlistModule.Instance finished(String typeName, Source source) throws BadInput {
        Map<String, List<Bit>> joined = new LinkedHashMap<>();
        for (Map.Entry<String, Bit[]> pin : pins.entrySet()) {
            Bit[] bits = pin.getValue();
            for (int i = 0; i < bits.length; i++) {
                bits[i] = bits[i] == null ? new Bit.Constant('z') : bits[i];
            }
            joined.put(pin.getKey(), List.of(bits));
        }
        Map<String, String> parameters = new LinkedHashMap<>();
        for (Bracket property : at.parts()) {
            if (property.is("property") && property.item(1) instanceof Bracket value) {
                Object key = property.item(0);
                String word = key instanceof Bracket renamed ? renamed.text(1) : (String) key;
                parameters.put(word, value.items().isEmpty() ? value.word() : value.text(0));
            }
        }
        return new NetlistModule.Instance(name, typeName, joined, parameters, "line " + at.line());
    }
}
