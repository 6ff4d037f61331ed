package padward.format.fabric;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.Stream;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.format.form.IntKind;
import padward.format.form.Kinds;
import padward.format.json.Names;

/** Finds a fabric's pads by name and by package pin. */
public final class PadLookup {
    private final List<Pad> pads;
    private final Map<String, Integer> byName = new HashMap<>();
    private final Map<String, Integer> byPackagePin = new HashMap<>();

    /** A look-up over the pads of a fabric. */
    public PadLookup(Fabric fabric) {
        this.pads = fabric.pads();
        for (int i = 0; i < pads.size(); i++) {
            byName.put(pads.get(i).name(), i);
            if (!pads.get(i).packagePin().isEmpty()) {
                byPackagePin.put(pads.get(i).packagePin(), i);
            }
        }
    }

    /** The index of the pad of that full name. */
    public OptionalInt findName(String name) {
        return index(byName.get(name));
    }

    /** The index of the pad on that pin of the package. */
    public OptionalInt findPackagePin(String pin) {
        return index(byPackagePin.get(pin));
    }

    private static OptionalInt index(Integer found) {
        return found == null ? OptionalInt.empty() : OptionalInt.of(found);
    }

    /** Full names of all pads. */
    public Stream<String> names() {
        return pads.stream().map(Pad::name);
    }

    /** Pins of the package that have pads. */
    public Stream<String> packagePins() {
        return byPackagePin.keySet().stream();
    }

    /** Pads by their full names. */
    public IntKind byName() {
        return Kinds.named(
                in -> {
                    String name = in.name();
                    return findName(name)
                            .orElseThrow(() -> Names.unknown(in, "pad", name, this::names));
                },
                pad -> pads.get(pad).name());
    }

    /** Pads by their pins of the package. */
    public IntKind byPackagePin() {
        return Kinds.named(
                in -> {
                    String pin = in.name();
                    return findPackagePin(pin)
                            .orElseThrow(
                                    () ->
                                            Names.unknown(
                                                    in,
                                                    "package pin with a pad",
                                                    pin,
                                                    this::packagePins));
                },
                pad -> pads.get(pad).packagePin());
    }
}
