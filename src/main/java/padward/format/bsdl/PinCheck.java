package padward.format.bsdl;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.pad.PadDirections;
import padward.format.json.EnumWords;

/** Compares the pads of a fabric with the pins of a package. */
public final class PinCheck {
    private PinCheck() {}

    /**
     * The differences, in words; empty when all pads with package pins have ports of their
     * directions. Pins without a pad are no difference: supplies and test pins have none.
     */
    public static List<String> differences(Fabric fabric, PackagePins pins) {
        Map<String, PackagePins.Pin> byPin = pins.byPin();
        List<String> found = new ArrayList<>();
        int named = 0;
        for (Pad pad : fabric.pads()) {
            if (pad.packagePin().isEmpty()) {
                continue;
            }
            named++;
            PackagePins.Pin pin = byPin.get(pad.packagePin());
            String text = "pad " + pad.name() + " on pin " + pad.packagePin();
            if (pin == null) {
                found.add(text + ": the package has no such pin");
                continue;
            }
            Optional<PadDirections> own = pin.mode().directions();
            boolean fits =
                    own.isPresent()
                            && (own.get() == PadDirections.BOTH || own.get() == pad.directions());
            if (!fits) {
                found.add(
                        text
                                + ": goes "
                                + EnumWords.of(pad.directions())
                                + ", port "
                                + pin.port()
                                + " is of mode "
                                + pin.mode().label());
            }
        }
        if (named == 0) {
            found.add("no pad of the fabric states its package pin");
        }
        return found;
    }

    /** The pins with signals that no pad is on. */
    public static List<PackagePins.Pin> withoutPad(Fabric fabric, PackagePins pins) {
        Set<String> used = new HashSet<>();
        fabric.pads().forEach(p -> used.add(p.packagePin()));
        return pins.pins().stream()
                .filter(p -> p.mode().directions().isPresent() && !used.contains(p.pin()))
                .toList();
    }
}
