package padward.format.design;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.EnableSites;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.pad.PadDirections;
import padward.format.json.DesignFault;
import padward.format.json.EnumWords;
import padward.format.source.Nearest;
import padward.format.source.Text;

/**
 * The rules of every design: where cells and ports can be and what they can be ends of. All readers
 * of designs ask here, so that a fault reads the same in every format. One object checks one
 * design.
 */
public final class DesignFileRules {
    private final Fabric fabric;
    private final Int2ObjectOpenHashMap<String> cellBySite = new Int2ObjectOpenHashMap<>();
    private final Map<Integer, String> portByPad = new HashMap<>();

    /** Rules for a design on that fabric. */
    public DesignFileRules(Fabric fabric) {
        this.fabric = fabric;
    }

    /** Puts a cell on a site: one that accepts its kind and that no other cell has. */
    public Optional<DesignFault> placeCell(String cell, String kind, int site) {
        List<String> accepts = fabric.acceptedBy(site);
        if (!accepts.contains(kind)) {
            String accepted = accepts.isEmpty() ? "none" : String.join(", ", accepts);
            return trouble(
                    "a kind of cell that "
                            + fabric.site(site).described()
                            + " accepts: "
                            + accepted,
                    Nearest.describe(kind, accepts.stream()));
        }
        String before = cellBySite.putIfAbsent(site, cell);
        return before == null
                ? Optional.empty()
                : trouble(
                        "one cell on " + fabric.site(site).described(),
                        Text.quote(before) + " and " + Text.quote(cell));
    }

    /** Puts a port on a pad: one that has its direction and that no other port has. */
    public Optional<DesignFault> placePort(String port, PortDirection direction, int padIndex) {
        Pad pad = fabric.pads().get(padIndex);
        if (!fits(direction, pad.directions())) {
            return trouble(
                    "a direction that pad "
                            + pad.name()
                            + " has: "
                            + EnumWords.of(pad.directions()),
                    Text.quote(direction.label()));
        }
        String before = portByPad.putIfAbsent(padIndex, port);
        return before == null
                ? Optional.empty()
                : trouble(
                        "one port on pad " + pad.name(),
                        Text.quote(before) + " and " + Text.quote(port));
    }

    private static boolean fits(PortDirection port, PadDirections pad) {
        return switch (port) {
            case IN -> pad != PadDirections.OUT;
            case OUT -> pad != PadDirections.IN;
            case BOTH -> pad == PadDirections.BOTH;
        };
    }

    /** Whether a pin exists, and can drive a net or be a sink of one. */
    public Optional<DesignFault> checkPin(int site, String pin, boolean drives) {
        List<SitePin> pins = fabric.pinsOf(site);
        int found = SitePin.find(pins, pin);
        if (found == Fabric.NOTHING) {
            return trouble(
                    "a pin of " + fabric.site(site).described(),
                    Nearest.describe(pin, pins.stream().map(p -> p.name())));
        }
        PinDirection wanted = drives ? PinDirection.OUT : PinDirection.IN;
        if (pins.get(found).direction() != wanted) {
            return trouble(
                    (drives ? "a driver, an out pin" : "a sink, an in pin")
                            + " of "
                            + fabric.site(site).described(),
                    Text.quote(pin) + ", which has the other direction");
        }
        return Optional.empty();
    }

    /** Whether a port can drive a net or be a sink of one. */
    public static Optional<DesignFault> checkPort(
            String port, PortDirection direction, boolean drives) {
        PortDirection wrong = drives ? PortDirection.OUT : PortDirection.IN;
        return direction != wrong
                ? Optional.empty()
                : trouble(
                        drives
                                ? "a driver, a port of direction in"
                                : "a sink, a port of direction out",
                        "port " + Text.quote(port) + " of direction " + wrong.label());
    }

    /** How files call an end of a net at a port's enable, beside the port's name. */
    public static final String ENABLE = "enable";

    /** What stands for the pin where files state a port: nothing for its pad. */
    public static String pinOf(Terminal.PortEnd end) {
        return switch (end.role()) {
            case PAD -> "";
            case ENABLE -> ENABLE;
        };
    }

    /** Whether a net can end at the enable of the driver of a port's pad. */
    public Optional<DesignFault> checkEnable(Port port, boolean drives) {
        Pad pad = fabric.pads().get(port.pad());
        if (drives) {
            return trouble("a driver", "the enable of port " + Text.quote(port.name()));
        }
        if (port.direction() == PortDirection.IN) {
            return trouble(
                    "a port that drives its pad",
                    "port " + Text.quote(port.name()) + " of direction in");
        }
        if (EnableSites.endOf(fabric, pad) == Fabric.NOTHING) {
            return trouble(
                    "a pad whose enable has a site with one output",
                    pad.enableSite() == Fabric.NOTHING
                            ? "pad " + pad.name() + " without an enable"
                            : "pad "
                                    + pad.name()
                                    + " with site "
                                    + fabric.site(pad.enableSite()).name());
        }
        if (port.enableTied()) {
            return trouble(
                    "an enable that is not tied",
                    "the tied one of port " + Text.quote(port.name()));
        }
        String cell = cellBySite.get(pad.enableSite());
        return cell == null
                ? Optional.empty()
                : trouble(
                        "an enable's site without a cell, or an end at a pin of that cell",
                        "cell " + Text.quote(cell) + " on " + fabric.site(pad.enableSite()).name());
    }

    static Optional<DesignFault> trouble(String expected, String found) {
        return Optional.of(new DesignFault(expected, found));
    }
}
