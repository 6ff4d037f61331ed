package padward.format.ledger;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.format.source.Nearest;

/**
 * A change of the lead on one line.
 *
 * @param port the port that brings the line out
 * @param values the new values, as text; other fields stay
 */
public record LeadChange(String port, Map<LeadField, String> values) {
    /** Copies the values, in the order of the fields. */
    public LeadChange {
        Map<LeadField, String> ordered = new EnumMap<>(LeadField.class);
        ordered.putAll(values);
        values = ordered;
    }

    /** A change of one field. */
    public LeadChange(String port, LeadField field, String value) {
        this(port, Map.of(field, value));
    }

    /**
     * The entries with the changed lead.
     *
     * @param prefix what stands before the fields' words in faults: {@code --} for options
     * @throws BadInput when a value is none for its field, another line has the channel, or no
     *     entry brings the line out
     */
    public List<LedgerEntry> to(List<LedgerEntry> entries, String prefix) throws BadInput {
        List<List<LedgerLead>> all = LedgerLead.all(entries);
        List<LedgerEntry> result = new ArrayList<>();
        boolean found = false;
        for (int i = 0; i < all.size(); i++) {
            List<LedgerLead> leads = new ArrayList<>();
            for (LedgerLead lead : all.get(i)) {
                boolean wanted = lead.port().equals(port);
                found |= wanted;
                leads.add(wanted ? changed(lead, prefix) : lead);
            }
            result.add(entries.get(i).withLeads(leads));
        }
        List<LedgerLead> before = all.stream().flatMap(List::stream).toList();
        if (!found) {
            throw new BadInput(
                    prefix + "port",
                    "",
                    "a port that the ledger brings out",
                    Nearest.describe(port, before.stream().map(LedgerLead::port)));
        }
        checkChannel(before, prefix);
        return result;
    }

    private LedgerLead changed(LedgerLead old, String prefix) throws BadInput {
        LedgerLead lead = old;
        for (Map.Entry<LeadField, String> one : values.entrySet()) {
            lead = one.getKey().set(lead, one.getValue(), prefix + one.getKey().word());
        }
        return lead;
    }

    private void checkChannel(List<LedgerLead> others, String prefix) throws BadInput {
        if (!values.containsKey(LeadField.CHANNEL)) {
            return;
        }
        String source = prefix + LeadField.CHANNEL.word();
        int channel =
                LeadField.CHANNEL
                        .set(new LedgerLead(port, 1), values.get(LeadField.CHANNEL), source)
                        .channel();
        for (LedgerLead lead : others) {
            if (!lead.port().equals(port) && lead.channel() == channel) {
                throw new BadInput(source, "", "a channel of no other line", lead.port() + "'s");
            }
        }
    }
}
