package padward.breakout.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.Attachment;
import padward.design.Board;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.PadWiring;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.Bank;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * What to heed before a pad is driven. The rules are common practice, no source: two outputs on one
 * wire can destroy parts; a part that listens acts on whatever it hears; the bank's supply sets the
 * level; a driver with its enable off shows nothing. The board's documents and its responsible
 * engineer decide.
 */
public final class Cautions {
    private Cautions() {}

    /** The cautions for driving a pad, the gravest first. */
    public static List<String> of(Question question) {
        Design design = question.design();
        Pad pad = question.padValue();
        List<String> result = new ArrayList<>();
        Optional<PadWiring> wiring = design.board().findWiring(question.pad());
        wiring.ifPresent(w -> addOpposing(w, result));
        wiring.ifPresent(w -> addListening(w, result));
        design.findPortOn(question.pad())
                .filter(p -> p.direction() != PortDirection.OUT)
                .ifPresent(
                        p ->
                                result.add(
                                        "The design reads the board through this pad (port "
                                                + p.name()
                                                + "): a part on the board may be driving it."));
        if (design.board().equals(Board.UNKNOWN)) {
            result.add("No board is described: what is connected to this pin is not known.");
        } else if (wiring.isEmpty()) {
            result.add("Nothing is known about what the board connects to this pin.");
        }
        String setting = design.findPortOn(question.pad()).map(Port::setting).orElse("");
        DriverFit.of(design, pad, setting).conflict().ifPresent(result::add);
        enable(design, pad).ifPresent(result::add);
        result.add(
                "Before driving the pad, check the schematic, "
                        + supply(design, pad)
                        + " and the device's data sheet; the board's responsible engineer decides.");
        return result;
    }

    private static void addOpposing(PadWiring wiring, List<String> result) {
        for (Attachment attached : wiring.attachments()) {
            if (attached.kind().drives()) {
                result.add(
                        "On the board, "
                                + attached.toText()
                                + " can drive this pad"
                                + boardNet(wiring)
                                + ": two drivers against each other can destroy parts.");
            }
        }
    }

    private static void addListening(PadWiring wiring, List<String> result) {
        for (Attachment attached : wiring.attachments()) {
            if (attached.kind().listens()) {
                result.add(
                        "On the board, "
                                + attached.toText()
                                + " is an input on this pad"
                                + boardNet(wiring)
                                + " and will follow the signal. Make the load safe or disconnect"
                                + " it first (power off, mechanics blocked).");
            }
        }
    }

    private static String boardNet(PadWiring wiring) {
        return wiring.net().isEmpty() ? "" : " (board net " + wiring.net() + ")";
    }

    private static String supply(Design design, Pad pad) {
        return design.fabric()
                .info()
                .findBank(pad.bank())
                .map(Cautions::supply)
                .orElse("the bank's voltage");
    }

    private static String supply(Bank bank) {
        return "the voltage of bank " + bank.name() + " (" + bank.millivolts() + " mV)";
    }

    private static Optional<String> enable(Design design, Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING || !pad.directions().canDrive()) {
            return Optional.empty();
        }
        String site = design.fabric().site(pad.enableSite()).name();
        Optional<Occupant> occupant = design.occupancy().findUserOf(pad.enableSite());
        return Optional.of(
                occupant.map(
                                h ->
                                        "The pad's driver is enabled through "
                                                + site
                                                + ", which is used by "
                                                + (h instanceof Occupant.ByCell ? "cell " : "net ")
                                                + h.name()
                                                + ": while it disables the output, the pin is"
                                                + " high-impedance.")
                        .orElse(
                                "The pad's driver has an output enable, through "
                                        + site
                                        + ": set it to always on."));
    }
}
