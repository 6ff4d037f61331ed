package padward.breakout.ask;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.Listing;
import padward.base.Volts;
import padward.breakout.ask.Caution.Kind;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PadPairs;
import padward.fabric.pad.Bank;
import padward.fabric.pad.PadUse;

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

        /** The caution with the pads before it, unless it holds for all that are brought out. */
        public String toText() {
            return toText(pads.size());
        }

        /** The same with the first pads, and how many more there are. */
        public String toText(int mostPads) {
            boolean all =
                    caution.kind() == Kind.HANDLING
                            || caution.kind() == Kind.LOADING
                            || caution.kind() == Kind.GENERAL;
            return all ? caution.text() : Listing.first(pads, mostPads) + ": " + caution.text();
        }
    }

    /** The cautions for driving a pad, the gravest first. */
    public static List<Caution> of(Question question) {
        return of(question, false);
    }

    /** The cautions for driving a pad by edits that may tie its driver's enable on. */
    public static List<Caution> of(Question question, List<Edit> edits) {
        return of(question, tied(edits).contains(question.padValue().name()));
    }

    /** Those of them that are left to say where no route leads to the pad: nothing drives it. */
    static List<Caution> withoutRoute(List<Caution> cautions) {
        return cautions.stream().filter(c -> c.kind() != Kind.GENERAL).toList();
    }

    /**
     * @param tied whether the change ties the enable of the pad's driver on
     */
    private static List<Caution> of(Question question, boolean tied) {
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
        pair(question).ifPresent(c -> result.add(new Caution(Kind.PAD, c)));
        if (pad.use().driving().inverts() && !question.isThere()) {
            result.add(
                    new Caution(
                            Kind.PAD,
                            "The path to this pad inverts: the pin is low while "
                                    + question.net().name()
                                    + " is high."));
        }
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
        if (!design.board().isKnown()) {
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
        BoardCautions.reserved(question, wiring).ifPresent(result::add);
        DriverFit.of(question).conflict().ifPresent(c -> result.add(new Caution(Kind.VOLTAGE, c)));
        wiring.ifPresent(w -> BoardCautions.add(question, w, result));
        glitches(question).ifPresent(result::add);
        enable(question, tied).ifPresent(c -> result.add(new Caution(Kind.ENABLE, c)));
        result.add(general(List.of(question)));
        result.sort(Comparator.comparing(Caution::kind));
        return result;
    }

    /** What holds for every pad, once for all. */
    private static Caution general(List<Question> questions) {
        List<String> banks =
                questions.stream()
                        .map(q -> supply(q.design(), q.padValue()))
                        .distinct()
                        .sorted()
                        .toList();
        return new Caution(
                Kind.GENERAL,
                "Before driving the pad, check the schematic, "
                        + String.join(", ", banks)
                        + " and the device's data sheet.");
    }

    /** A net that no register drives can change several times before it settles. */
    private static Optional<Caution> glitches(Question question) {
        int driver = question.net().driverCell();
        if (driver == Fabric.NOTHING || question.net().clock()) {
            return Optional.empty();
        }
        String kind = question.design().cells().get(driver).kind();
        return question.design()
                .fabric()
                .info()
                .findCellKind(kind)
                .filter(k -> !k.holdsState())
                .map(
                        k ->
                                new Caution(
                                        Kind.GLITCHES,
                                        question.net().name()
                                                + " is driven by logic, not by a register: it can"
                                                + " glitch, and the pad shows it. An instrument that"
                                                + " samples on a clock of its own can show levels"
                                                + " that no register takes, and miss others."));
    }

    /** The cautions of several pads, each text once, the gravest kinds first. */
    public static List<Shared> shared(List<Question> questions) {
        return shared(questions, Set.of());
    }

    /**
     * @param tied the pads whose drivers the change switches on
     */
    private static List<Shared> shared(List<Question> questions, Set<String> tied) {
        Map<Caution, List<String>> pads = new LinkedHashMap<>();
        for (Question question : questions) {
            String site = enableSite(question);
            for (Caution each : of(question, tied.contains(question.padValue().name()))) {
                // The pads of a group share one line about their enables.
                String text =
                        questions.size() > 1 && !site.isEmpty()
                                ? each.text().replace(site, "its enable's IO register site")
                                : each.text();
                Caution caution =
                        each.kind() == Kind.GENERAL
                                ? general(questions)
                                : new Caution(each.kind(), text);
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
        List<Question> questions = Question.ofBreakOuts(before, edits);
        List<Shared> result = shared(questions, tied(edits));
        for (BankOutputs bank : BankOutputs.of(before, edits)) {
            if (bank.addsMany()) {
                String text =
                        bank.toText()
                                + " Outputs that switch together disturb the bank's supply: compare"
                                + " with the limit in the device's data sheet, or spread them over"
                                + " banks.";
                result.add(
                        new Shared(
                                padsIn(bank.bank(), questions), new Caution(Kind.SWITCHING, text)));
            }
        }
        if (questions.size() > 1) {
            String text =
                    "An instrument with a clock of its own samples the lines of a group while some"
                            + " have changed and others not: bits read together need not be a value"
                            + " that the design had.";
            result.add(new Shared(padsOf(questions), new Caution(Kind.GLITCHES, text)));
        }
        result.sort(Comparator.comparing(s -> s.caution().kind()));
        return result;
    }

    /** The pads whose drivers edits switch on for good. */
    private static Set<String> tied(List<Edit> edits) {
        Set<String> ports = new HashSet<>();
        Set<String> result = new HashSet<>();
        for (Edit edit : edits) {
            if (edit instanceof Edit.TieEnable tie) {
                ports.add(tie.port());
            }
        }
        for (Edit edit : edits) {
            if (edit instanceof Edit.BreakOut out && ports.contains(out.port())) {
                result.add(out.pad());
            }
        }
        return result;
    }

    private static List<String> padsIn(String bank, List<Question> questions) {
        return padsOf(questions.stream().filter(q -> q.padValue().bank().equals(bank)).toList());
    }

    private static List<String> padsOf(List<Question> questions) {
        return questions.stream().map(q -> q.padValue().name()).toList();
    }

    /** The same, with what pads do while the changed design is loaded. */
    public static List<Shared> ofLoading(Design before, List<Edit> edits) {
        return with(
                ofEdits(before, edits),
                before,
                edits,
                new Caution(
                        Kind.LOADING,
                        "While a design is loaded, outputs float or are pulled: make everything that"
                                + " they command safe before."));
    }

    /**
     * What to heed while edits are taken back: leads are off, and ports drive their parts again.
     */
    public static List<Shared> ofGoingBack(Design before, List<Edit> edits) {
        List<Shared> result = new ArrayList<>();
        for (Question question : Question.ofBreakOuts(before, edits)) {
            question.losingPort()
                    .ifPresent(
                            p ->
                                    result.add(
                                            new Shared(
                                                    List.of(question.padValue().name()),
                                                    new Caution(
                                                            Kind.PORT,
                                                            "Port "
                                                                    + p.name()
                                                                    + " has this pad again, and what"
                                                                    + " is on it obeys that."))));
        }
        return with(
                result,
                before,
                edits,
                new Caution(
                        Kind.LOADING,
                        "Take the leads off before going back. While a design is loaded, outputs"
                                + " float or are pulled: make everything that they command safe"
                                + " before."));
    }

    private static List<Shared> with(
            List<Shared> first, Design before, List<Edit> edits, Caution last) {
        List<Question> questions = Question.ofBreakOuts(before, edits);
        List<Shared> result = new ArrayList<>(first);
        if (!questions.isEmpty()) {
            result.add(new Shared(padsOf(questions), last));
        }
        result.sort(Comparator.comparing(s -> s.caution().kind()));
        return result;
    }

    /** How leads are connected; for the page that is taken to the bench. */
    public static final Caution HANDLING =
            new Caution(
                    Kind.HANDLING,
                    "Switch the power off while leads are clipped on. Wear a wrist strap: static"
                            + " destroys inputs and outputs. Use a ground lead for each channel or"
                            + " two, as short as the signal's; an oscilloscope's ground clip is earth"
                            + " and goes to the board's ground only.");

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

    /** What becomes of the port on the other pad of a differential pair. */
    private static Optional<String> pair(Question question) {
        Design design = question.design();
        if (question.isThere()) {
            return Optional.empty();
        }
        return PadPairs.of(design.fabric())
                .others(question.pad())
                .intStream()
                .mapToObj(design::findPortOn)
                .flatMap(Optional::stream)
                .min(Comparator.comparingInt(Port::id))
                .map(port -> pairedWith(port, design));
    }

    private static String pairedWith(Port port, Design design) {
        boolean drivesPair =
                design.fabric()
                        .info()
                        .findSetting(DriverFit.standing(design, port.pad()))
                        .filter(s -> s.drivesPair())
                        .isPresent();
        return "This pad forms a differential pair with pad "
                + design.fabric().pads().get(port.pad()).name()
                + ", where port "
                + port.name()
                + " is: "
                + (drivesPair
                        ? "its driver uses both pads, so it fails if this one is taken."
                        : "if that is a differential signal, it fails when this pad is taken.");
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
        return "the voltage of bank " + bank.name() + " (" + Volts.text(bank.millivolts()) + ")";
    }

    private static String enableSite(Question question) {
        int site = question.padValue().enableSite();
        return site == Fabric.NOTHING ? "" : question.design().fabric().site(site).name();
    }

    /** What of the pad's enable is not as it must be, or not known. */
    private static Optional<String> enable(Question question, boolean tying) {
        Pad pad = question.padValue();
        if (pad.enableSite() == Fabric.NOTHING || !pad.directions().canDrive()) {
            return Optional.empty();
        }
        Design design = question.design();
        String site = design.fabric().site(pad.enableSite()).name();
        if (tying) {
            return Optional.of(
                    "The enable of the pad's driver, through "
                            + site
                            + ", is tied on: the pad drives all the time, so nothing else may drive"
                            + " this line.");
        }
        Optional<Occupant> occupant = design.occupancy().findUserOf(pad.enableSite());
        if (occupant.isPresent()) {
            Occupant user = occupant.get();
            return Optional.of(
                    "The pad's driver is enabled through "
                            + site
                            + ", which is used by "
                            + (user instanceof Occupant.ByCell ? "cell " : "net ")
                            + user.name()
                            + ": while it disables the output, the pin is high-impedance."
                            + (question.isThere()
                                    ? ""
                                    : " Once it is removed, the enable must be tied on, and the pad"
                                            + " then drives all the time."));
        }
        boolean tied =
                question.isThere()
                        && design.findPortOn(question.pad()).filter(Port::enableTied).isPresent();
        if (tied || pad.drivesUnasked()) {
            return Optional.empty();
        }
        String level =
                switch (pad.enable().active()) {
                    case HIGH -> " (a high level)";
                    case LOW -> " (a low level)";
                    case UNKNOWN -> " (which level that is, the device's data sheet says)";
                };
        return Optional.of(
                "The pad's driver has an output enable, through "
                        + site
                        + ": it must be tied on"
                        + level
                        + ", and the pad then drives all the time.");
    }
}
