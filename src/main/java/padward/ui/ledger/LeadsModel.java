package padward.ui.ledger;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.design.Design;
import padward.design.PadNames;
import padward.format.ledger.LeadChange;
import padward.format.ledger.LeadField;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;

/**
 * The instrument's leads on the lines that are kept: what the ledger says of each can be edited.
 */
final class LeadsModel {
    private static final String STEP = "changing the lead of ";

    private final WindowModel model;

    LeadsModel(WindowModel model) {
        this.model = model;
    }

    /**
     * A line with its lead.
     *
     * @param net the net that is brought out
     * @param place where the lead is connected: header pin, package pin or pad, whichever is known
     */
    record Row(String net, String place, LedgerLead lead) {}

    private List<LedgerEntry> entries() {
        return model.keptProperty().get().map(KeptChanges::entries).orElse(List.of());
    }

    /** Whether a step of the history has changed a lead. */
    static boolean isChange(String step) {
        return step.startsWith(STEP);
    }

    /** All lines, in the order of the entries. */
    List<Row> rows() {
        List<LedgerEntry> entries = entries();
        List<List<LedgerLead>> leads = LedgerLead.all(entries);
        List<Row> rows = new ArrayList<>();
        for (int i = 0; i < entries.size(); i++) {
            int line = 0;
            for (Edit edit : entries.get(i).edits()) {
                if (edit instanceof Edit.BreakOut out) {
                    rows.add(new Row(out.net(), place(out.pad()), leads.get(i).get(line)));
                    line++;
                }
            }
        }
        return rows;
    }

    private String place(String pad) {
        Design design = model.keptProperty().get().orElseThrow().original();
        int index = PadNames.findExact(design.fabric(), pad).orElseThrow();
        return PadNames.placeOf(design, index);
    }

    /** What a lead has in a field now; empty when its line is no longer kept. */
    Optional<String> value(String port, LeadField field) {
        return rows().stream()
                .map(Row::lead)
                .filter(l -> l.port().equals(port))
                .findFirst()
                .map(field::of);
    }

    /**
     * Changes a lead, as a step that can be undone.
     *
     * @return why the text is no value for the field; empty when it was taken over
     */
    Optional<BadInput> set(String port, LeadField field, String text) {
        if (value(port, field).filter(v -> !v.equals(text)).isEmpty()) {
            return Optional.empty();
        }
        try {
            List<LedgerEntry> changed = new LeadChange(port, field, text).to(entries(), "");
            model.design().changeLeads(STEP + port, changed);
            return Optional.empty();
        } catch (BadInput bad) {
            return Optional.of(bad);
        }
    }
}
