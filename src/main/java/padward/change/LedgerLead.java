package padward.change;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The instrument's lead on a line that is brought out. It is kept with the entry, so that a channel
 * stays the same lead when another entry is undone.
 *
 * @param port the port that brings the line out
 * @param channel the instrument's channel, from 1
 * @param name the lead's own name; may be empty
 * @param pod what bundles the lead with others; may be empty
 * @param colour its colour; may be empty
 * @param metres its length; empty when not stated: then that of the sheet's other leads counts
 * @param measured when the line's signal was measured to arrive; empty when it was not
 */
public record LedgerLead(
        String port,
        int channel,
        String name,
        String pod,
        String colour,
        Optional<Double> metres,
        Optional<Measured> measured) {
    /**
     * A measured delay. Only differences between lines that were measured together count.
     *
     * @param ps the delay, ps; from any point in time that these lines share
     * @param tolerancePs how far it can be off, either way, ps
     */
    public record Measured(int ps, int tolerancePs) {}

    /** A lead of which only the channel is known. */
    public LedgerLead(String port, int channel) {
        this(port, channel, "", "", "", Optional.empty(), Optional.empty());
    }

    /** The same lead of another length. */
    public LedgerLead withMetres(Optional<Double> length) {
        return new LedgerLead(port, channel, name, pod, colour, length, measured);
    }

    /** The same lead with another measured delay of its line. */
    public LedgerLead withMeasured(Optional<Measured> delay) {
        return new LedgerLead(port, channel, name, pod, colour, metres, delay);
    }

    /** What is known of it: {@code pod A, red, clip 3, 0.3 m}. */
    public String toText() {
        List<String> parts = new ArrayList<>();
        if (!pod.isEmpty()) {
            parts.add("pod " + pod);
        }
        if (!colour.isEmpty()) {
            parts.add(colour);
        }
        if (!name.isEmpty()) {
            parts.add(name);
        }
        metres.ifPresent(m -> parts.add(metresText(m) + " m"));
        return String.join(", ", parts);
    }

    /** A length as it is read again: {@code 0.3}, {@code 2}. */
    public static String metresText(double length) {
        return BigDecimal.valueOf(length).stripTrailingZeros().toPlainString();
    }

    /**
     * The leads of all lines that entries bring out, entry by entry. A line that has none yet gets
     * the channel after the greatest before it.
     */
    public static List<List<LedgerLead>> all(List<LedgerEntry> entries) {
        List<List<LedgerLead>> result = new ArrayList<>();
        int greatest = 0;
        for (LedgerEntry entry : entries) {
            List<LedgerLead> leads = new ArrayList<>();
            for (Edit edit : entry.edits()) {
                if (edit instanceof Edit.BreakOut out) {
                    Optional<LedgerLead> known = entry.findLead(out.port());
                    int next = greatest + 1;
                    LedgerLead lead = known.orElseGet(() -> new LedgerLead(out.port(), next));
                    greatest = Math.max(greatest, lead.channel());
                    leads.add(lead);
                }
            }
            result.add(leads);
        }
        return result;
    }

    /** An entry with a lead for each line, to be kept after others. */
    public static LedgerEntry numbered(List<LedgerEntry> before, LedgerEntry entry) {
        List<LedgerEntry> together = new ArrayList<>(before);
        together.add(entry);
        return entry.withLeads(all(together).get(before.size()));
    }

    /**
     * An entry with leads of one length, to be kept after others.
     *
     * @param metres the length; empty when it is not stated
     */
    public static LedgerEntry numbered(
            List<LedgerEntry> before, LedgerEntry entry, Optional<Double> metres) {
        LedgerEntry known = numbered(before, entry);
        return metres.isEmpty()
                ? known
                : known.withLeads(known.leads().stream().map(l -> l.withMetres(metres)).toList());
    }
}
