package padward.breakout.ask;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import padward.base.Volts;
import padward.breakout.ask.Caution.Kind;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;

/**
 * What a part on the board means for the level on a pad, and for what is on it. The rules are
 * common practice, no source: a light's current loads the driver; a pull to a rail above the bank's
 * supply drives current into the pad; an input tolerates no more than its data sheet says. Test
 * pins have the names of IEEE 1149.1; the names of configuration pins are those of the trade.
 */
final class BoardCautions {
    private static final Pattern TEST = Pattern.compile("tck|tms|tdi|tdo|trst(_?n)?");
    private static final Pattern CONFIGURATION =
            Pattern.compile(
                    "(cfg|config(uration)?|program(_?[bn])?|prog(_?[bn])?|init(_?[bn])?"
                            + "|cclk|boot\\d*|mode\\d*|done|strap\\d*)");

    private BoardCautions() {}

    /** Adds the cautions about what is on a pad. */
    static void add(Question question, PadWiring wiring, List<Caution> result) {
        int drives = drivenMillivolts(question);
        for (Attachment part : wiring.attachments()) {
            switch (part.kind()) {
                case LIGHT ->
                        result.add(
                                new Caution(
                                        Kind.LIGHT,
                                        capital(part.toText())
                                                + " lights with the signal, and its current lowers"
                                                + " the level."));
                case PULL -> addPull(part, drives, result);
                case LOAD, TWO_WAY -> addLevel(part, drives, result);
                case HEADER, TESTPOINT, BUTTON, DRIVER -> {}
            }
        }
    }

    private static void addPull(Attachment pull, int drives, List<Caution> result) {
        int rail = pull.levels().millivolts();
        if (rail == 0) {
            result.add(
                    new Caution(
                            Kind.PULL,
                            pull.name()
                                    + " pulls this net to a rail that is not known: if the rail is"
                                    + " above "
                                    + (drives == 0 ? "the bank's supply" : Volts.text(drives))
                                    + ", do not drive the pad before its tolerance is checked."));
        } else if (drives > 0 && rail > drives) {
            result.add(
                    new Caution(
                            Kind.VOLTAGE,
                            pull.name()
                                    + " pulls this net to "
                                    + Volts.text(rail)
                                    + ", above the "
                                    + Volts.text(drives)
                                    + " of the pad's driver: check that the pad tolerates it."));
        }
    }

    private static void addLevel(Attachment part, int drives, List<Caution> result) {
        int most = part.levels().mostMillivolts();
        int supply = part.levels().millivolts();
        if (most > 0 && drives > most) {
            result.add(
                    new Caution(
                            Kind.VOLTAGE,
                            capital(part.toText())
                                    + " tolerates at most "
                                    + Volts.text(most)
                                    + ", and the pad drives "
                                    + Volts.text(drives)
                                    + ": do not drive it."));
        } else if (most == 0) {
            result.add(
                    new Caution(
                            Kind.LEVEL,
                            "The pad drives "
                                    + (drives == 0 ? "the level of its bank" : Volts.text(drives))
                                    + ": check that "
                                    + part.toShortText()
                                    + (supply == 0
                                            ? ""
                                            : ", supplied with " + Volts.text(supply) + ",")
                                    + " tolerates it and reads it."));
        }
    }

    /** What the pad drives when it is high, mV; 0 when not known. */
    private static int drivenMillivolts(Question question) {
        return DriverFit.of(question)
                .setting()
                .map(DriverSetting::millivolts)
                .or(
                        () ->
                                question.design()
                                        .fabric()
                                        .info()
                                        .findBank(question.padValue().bank())
                                        .map(Bank::millivolts))
                .orElse(0);
    }

    /**
     * Says that a pad seems to be one for tests or configuration, by what it or its net is called.
     */
    static Optional<Caution> reserved(Question question, Optional<PadWiring> wiring) {
        String net = wiring.map(PadWiring::net).orElse("");
        return Optional.of(net)
                .filter(n -> isReserved(n))
                .or(
                        () ->
                                Optional.of(lastPart(question.padValue().name()))
                                        .filter(n -> isReserved(n)))
                .map(
                        name ->
                                new Caution(
                                        Kind.CONFIGURATION,
                                        "“"
                                                + name
                                                + "” is the name of a test or configuration pin:"
                                                + " driving it can stop the device or change how it"
                                                + " starts. Check the device's data sheet first."));
    }

    private static String lastPart(String padName) {
        return padName.substring(padName.lastIndexOf('/') + 1);
    }

    private static boolean isReserved(String name) {
        String word = name.toLowerCase(Locale.ROOT);
        String last = word.substring(Math.max(word.lastIndexOf('/'), word.lastIndexOf('.')) + 1);
        for (String part : List.of(last, last.replaceFirst("^.*_(?=(tck|tms|tdi|tdo)$)", ""))) {
            if (TEST.matcher(part).matches() || CONFIGURATION.matcher(part).matches()) {
                return true;
            }
        }
        return false;
    }

    private static String capital(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
