package padward.breakout.ask;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.breakout.ask.Caution.Kind;
import padward.change.Edit;
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
import padward.fabric.PadUse;

/**
 * What to heed before a pad is driven. The rules are common practice, no source: two outputs on one
 * wire can destroy parts; a part that listens acts on whatever it hears; the bank's supply sets the
 * level; a driver with its enable off shows nothing. The board's documents and its responsible
 * engineer decide.
 */
public final class Cautions {
    private Cautions() {}

    /** The line under all cautions, the same everywhere. */
    public static final String FOOTER =
            "The board's documents, local codes, site rules and licensed practice stand above this"
                    + " tool; the responsible engineer decides.";

    /**
     * A caution that holds for several pads.
     *
     * @param pads their names
     * @param caution the caution
     */
    public record Shared(List<String> pads, Caution caution) {
        /** Copies the names. */
        public Shared {
            pads = List.copyOf(pads);
        }

        /** The caution with the pads before it. */
        public String toText() {
            return String.join(", ", pads) + ": " + caution.text();
        }
    }

    /** The cautions for driving a pad, the gravest first. */
    public static List<Caution> of(Question question) {
        Design design = question.design();
        Pad pad = question.padValue();
        List<Caution> result = new ArrayList<>();
        Optional<PadWiring> wiring = design.board().findWiring(question.pad());
        wiring.ifPresent(w -> addOpposing(w, result));
        question.losingPort()
                .ifPresent(
                        p ->
                                result.add(
                                        new Caution(
                                                Kind.PORT,
                                                "Port " + p.name() + " loses this pad.")));
        wiring.ifPresent(w -> addListening(w, question.net().name(), result));
        use(pad).ifPresent(c -> result.add(new Caution(Kind.PAD, c)));
        design.findPortOn(question.pad())
                .filter(p -> p.direction() != PortDirection.OUT)
                .ifPresent(
                        p ->
                                result.add(
                                        new Caution(
                                                Kind.READS,
                                                "The design reads the board through this pad (port "
                                                        + p.name()
                                                        + "): a part on the board may be driving"
                                                        + " it.")));
        if (design.board().equals(Board.UNKNOWN)) {
            result.add(
                    new Caution(
                            Kind.UNKNOWN,
                            "No board is described: what is connected to this pin is not known."));
        } else if (wiring.isEmpty()) {
            result.add(
                    new Caution(
                            Kind.UNKNOWN,
                            "Nothing is known about what the board connects to this pin."));
        }
        String setting = design.findPortOn(question.pad()).map(Port::setting).orElse("");
        DriverFit.of(design, pad, setting)
                .conflict()
                .ifPresent(c -> result.add(new Caution(Kind.VOLTAGE, c)));
        enable(design, pad).ifPresent(c -> result.add(new Caution(Kind.ENABLE, c)));
        result.add(
                new Caution(
                        Kind.GENERAL,
                        "Before driving the pad, check the schematic, "
                                + supply(design, pad)
                                + " and the device's data sheet."));
        return result;
    }

    /** The cautions of several pads, each text once, the gravest kinds first. */
    public static List<Shared> shared(List<Question> questions) {
        Map<Caution, List<String>> pads = new LinkedHashMap<>();
        for (Question question : questions) {
            String site = enableSite(question);
            for (Caution each : of(question)) {
                // The pads of a group share one line about their enables.
                String text =
                        questions.size() > 1 && !site.isEmpty()
                                ? each.text().replace(site, "its enable's IO register site")
                                : each.text();
                Caution caution = new Caution(each.kind(), text);
                List<String> names = pads.computeIfAbsent(caution, x -> new ArrayList<>());
                names.add(question.padValue().name());
            }
        }
        List<Shared> result = new ArrayList<>();
        pads.forEach((caution, names) -> result.add(new Shared(names, caution)));
        result.sort(Comparator.comparing(s -> s.caution().kind()));
        return result;
    }

    /** The cautions of all pads on which edits bring nets out of a design. */
    public static List<Shared> ofEdits(Design before, List<Edit> edits) {
        return shared(Question.ofBreakOuts(before, edits));
    }

    private static void addOpposing(PadWiring wiring, List<Caution> result) {
        for (Attachment attached : wiring.attachments()) {
            if (attached.kind().drives()) {
                result.add(
                        new Caution(
                                Kind.DRIVES,
                                "On the board, "
                                        + attached.toText()
                                        + " can drive this pad"
                                        + boardNet(wiring)
                                        + ": two drivers against each other can destroy parts."));
            }
        }
    }

    private static Optional<String> use(Pad pad) {
        if (pad.use().bonding() == PadUse.Bonding.UNBONDED) {
            return Optional.of(
                    "The package connects this pad to no pin: nothing shows the signal there.");
        }
        return switch (pad.use().role()) {
            case GENERAL, CLOCK -> Optional.empty();
            case CONFIGURATION ->
                    Optional.of(
                            "This pad is for loading the configuration: what drives it can keep the"
                                    + " device from starting. Read the device's data sheet first.");
            case TEST ->
                    Optional.of(
                            "This pad is for testing the device or the board: what drives it can"
                                    + " disturb the test equipment or other devices on the chain.");
            case REFERENCE ->
                    Optional.of(
                            "This pad carries a reference voltage of its bank: a signal on it"
                                    + " disturbs every input that uses the reference.");
            case RESERVED ->
                    Optional.of(
                            "The device's description reserves this pad: read its data sheet before"
                                    + " it is driven.");
        };
    }

    private static void addListening(PadWiring wiring, String net, List<Caution> result) {
        for (Attachment attached : wiring.attachments()) {
            if (attached.kind().listens()) {
                result.add(
                        new Caution(
                                Kind.FOLLOWS,
                                "On the board, "
                                        + attached.toText()
                                        + " is an input on this pad"
                                        + boardNet(wiring)
                                        + " and will follow "
                                        + net
                                        + ". Make the load safe or disconnect it first (power off,"
                                        + " mechanics blocked)."));
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

    private static String enableSite(Question question) {
        int site = question.padValue().enableSite();
        return site == Fabric.NOTHING ? "" : question.design().fabric().site(site).name();
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
