package padward.format.netlist;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;

/**
 * The pins that all sites which accept a kind of cell have, so that a cell can be on any of them.
 */
final class KindPins {
    private final Map<String, Map<String, PinDirection>> pinsByKind = new LinkedHashMap<>();

    /** Compares all sites. O(sites). */
    KindPins(Fabric fabric) {
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (String kind : site.accepts()) {
                Map<String, PinDirection> known = pinsByKind.get(kind);
                if (known == null) {
                    pinsByKind.put(kind, pins(site));
                } else if (known.size() != site.pins().size() || !known.equals(pins(site))) {
                    known.entrySet().retainAll(pins(site).entrySet());
                }
            }
        }
    }

    private static Map<String, PinDirection> pins(SiteView site) {
        Map<String, PinDirection> pins = new HashMap<>();
        for (SitePin pin : site.pins()) {
            pins.put(pin.name(), pin.direction());
        }
        return pins;
    }

    boolean has(String kind) {
        return pinsByKind.containsKey(kind);
    }

    Stream<String> kinds() {
        return pinsByKind.keySet().stream();
    }

    Stream<String> pins(String kind) {
        return pinsByKind.get(kind).keySet().stream().sorted();
    }

    Optional<PinDirection> find(String kind, String pin) {
        return Optional.ofNullable(pinsByKind.get(kind).get(pin));
    }
}
