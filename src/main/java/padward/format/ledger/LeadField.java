package padward.format.ledger;

import java.math.BigDecimal;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Decimals;
import padward.change.LedgerLead;
import padward.format.source.FileLimits;

/**
 * What a user can state about an instrument's lead, as text. Whoever changes a lead does it through
 * these, so that everything is checked alike.
 */
public enum LeadField {
    /** The instrument's channel. */
    CHANNEL("channel") {
        @Override
        public String of(LedgerLead lead) {
            return "" + lead.channel();
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            int channel = whole(text, 1, FileLimits.CHANNELS, source);
            return new LedgerLead(
                    old.port(),
                    channel,
                    old.name(),
                    old.pod(),
                    old.colour(),
                    old.metres(),
                    old.measured());
        }
    },
    /** The lead's own name. */
    NAME("name") {
        @Override
        public String of(LedgerLead lead) {
            return lead.name();
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            return words(old, line(text, source), old.pod(), old.colour());
        }
    },
    /** What bundles it with others. */
    POD("pod") {
        @Override
        public String of(LedgerLead lead) {
            return lead.pod();
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            return words(old, old.name(), line(text, source), old.colour());
        }
    },
    /** Its colour. */
    COLOUR("colour") {
        @Override
        public String of(LedgerLead lead) {
            return lead.colour();
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            return words(old, old.name(), old.pod(), line(text, source));
        }
    },
    /** Its length in metres; an empty text when it is not known. */
    LENGTH("length-m") {
        @Override
        public String of(LedgerLead lead) {
            return lead.metres().map(LedgerLead::metresText).orElse("");
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            return old.withMetres(
                    text.isBlank() ? Optional.empty() : Optional.of(metres(text, source)));
        }
    },
    /** The measured delay of its line, ps; an empty text when there is none. */
    MEASURED("measured-ps") {
        @Override
        public String of(LedgerLead lead) {
            return lead.measured().map(m -> "" + m.ps()).orElse("");
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            if (text.isBlank()) {
                return old.withMeasured(Optional.empty());
            }
            int ps = whole(text, -FileLimits.MEASURED_PS, FileLimits.MEASURED_PS, source);
            return old.withMeasured(Optional.of(new LedgerLead.Measured(ps, 0)));
        }
    },
    /** How far the measured delay can be off, either way, ps. */
    TOLERANCE("tolerance-ps") {
        @Override
        public String of(LedgerLead lead) {
            return lead.measured().map(m -> "" + m.tolerancePs()).orElse("");
        }

        @Override
        LedgerLead set(LedgerLead old, String text, String source) throws BadInput {
            int tolerance = whole(text, 0, FileLimits.MEASURED_PS, source);
            if (old.measured().isEmpty()) {
                String expected =
                        "a measured delay (measured-ps) together with it, because the line has"
                                + " none yet";
                throw new BadInput(source, "", expected, "none");
            }
            return old.withMeasured(
                    old.measured().map(m -> new LedgerLead.Measured(m.ps(), tolerance)));
        }
    };

    private final String word;

    LeadField(String word) {
        this.word = word;
    }

    /** What it is called, as the command's option without its dashes. */
    public String word() {
        return word;
    }

    /** What a lead has in it, as it is read again. */
    public abstract String of(LedgerLead lead);

    /**
     * A lead with another value.
     *
     * @param source what the text came from, for faults
     * @throws BadInput when the text is no value for it
     */
    abstract LedgerLead set(LedgerLead old, String text, String source) throws BadInput;

    private static LedgerLead words(LedgerLead old, String name, String pod, String colour) {
        return new LedgerLead(
                old.port(), old.channel(), name, pod, colour, old.metres(), old.measured());
    }

    /** A text that can be read as a word, so that the ledger can be read again. */
    private static String line(String text, String source) throws BadInput {
        String line = text.strip();
        if (line.chars().anyMatch(Character::isISOControl)) {
            throw new BadInput(source, "", "a text without control characters", "one with some");
        }
        if (line.length() > FileLimits.LEAD_WORD) {
            throw new BadInput(
                    source,
                    "",
                    "at most " + FileLimits.LEAD_WORD + " characters",
                    "" + line.length());
        }
        return line;
    }

    private static int whole(String text, int least, int most, String source) throws BadInput {
        return Decimals.parse(text)
                .filter(n -> n.stripTrailingZeros().scale() <= 0)
                .filter(n -> isWithin(n, least, most))
                .map(BigDecimal::intValueExact)
                .orElseThrow(
                        () ->
                                new BadInput(
                                        source,
                                        "",
                                        "a whole number from " + least + " to " + most,
                                        text));
    }

    /**
     * The length of leads. A comma counts as a point, unless it may mark thousands: {@code 0,25} is
     * a length, {@code 1,000} is none.
     *
     * @param source what the text came from, for faults
     * @throws BadInput when the text is none
     */
    public static double metres(String text, String source) throws BadInput {
        if (Decimals.mayMeanThousands(text)) {
            throw new BadInput(source, "", Decimals.POINT, text);
        }
        return Decimals.typed(text)
                .filter(n -> isWithin(n, 0, FileLimits.LEAD_METRES))
                .map(BigDecimal::doubleValue)
                .orElseThrow(
                        () ->
                                new BadInput(
                                        source,
                                        "",
                                        "a number from 0 to " + FileLimits.LEAD_METRES,
                                        text));
    }

    private static boolean isWithin(BigDecimal number, int least, int most) {
        return number.compareTo(BigDecimal.valueOf(least)) >= 0
                && number.compareTo(BigDecimal.valueOf(most)) <= 0;
    }
}
