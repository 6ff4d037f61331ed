package padward.handover;

import static padward.format.form.Kinds.digest;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.whole;
import static padward.format.form.WrittenKinds.text;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import padward.breakout.ask.Cautions;
import padward.fabric.FabricLimits;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.form.WrittenKinds;
import padward.format.json.FileHeader;
import padward.format.source.FileLimits;

/** The form of change lists. They are only written: whoever carries one out reads it. */
final class ChangeListForm {
    private static final Map<String, String> MEANINGS =
            Map.ofEntries(
                    Map.entry("name", "name of the net, cell or port"),
                    Map.entry("end", "the end of the net: `cell.pin` or a port"),
                    Map.entry("pad", "full name of the pad"),
                    Map.entry("packagePin", "its pin or ball of the package"),
                    Map.entry("site", "full name of the site"),
                    Map.entry("from", "the wire, pin or pad that is left"),
                    Map.entry("to", "the one that is entered"),
                    Map.entry("edge", "`switch`, `connection` or `pass-through`"),
                    Map.entry("tile", "where the switch is, if the fabric's description says so"),
                    Map.entry("fromThere", "what `from` is called in that tile, if not the same"),
                    Map.entry("toThere", "what `to` is called in that tile, if not the same"),
                    Map.entry(
                            "setting",
                            "the driver's setting, or the name of the cell's; at an end, the one with the contents"),
                    Map.entry(
                            "value",
                            "the new value; `clock` for a new clock; the level of a tied enable"),
                    Map.entry(
                            "before",
                            "the value, site or setting before, or the pin of the cell that the signal was at"),
                    Map.entry("kind", "kind of the new cell"),
                    Map.entry("direction", "`in`, `out` or `both`"));

    private ChangeListForm() {}

    static Form<ChangeList> form() {
        var list = new Fields<ChangeList>();
        list.constant("format", FileHeader.CHANGES);
        list.needed("design", name(), l -> l.ledger().design()).means("the design's file");
        list.needed("sha256", digest(), l -> l.ledger().digest())
                .means("digest of that file's bytes");
        list.needed("fabric", name(), ChangeList::fabric).means("name of the fabric");
        list.needed("back", flag(), ChangeList::back)
                .means("whether the ledger's changes are taken back, the last entry first");
        list.needed("entries", list(entry()), ChangeList::entries).means("in this order");
        list.needed("footer", text(), l -> Cautions.FOOTER).means("what stands above all cautions");
        return list.written();
    }

    private static Form<ChangeList.Entry> entry() {
        var entry = new Fields<ChangeList.Entry>();
        entry.needed("number", whole(1, Integer.MAX_VALUE), ChangeList.Entry::number)
                .means("its number in the ledger, from 1");
        entry.needed("when", name(), e -> e.entry().when()).means("date and time");
        entry.needed("who", name(), e -> e.entry().who()).means("who kept it");
        entry.needed("note", Kinds.text(FileLimits.NOTE), e -> e.entry().note())
                .means("for people");
        entry.needed("net", name(), e -> e.entry().net()).means("the net that it is for");
        entry.needed("pad", name(), e -> e.entry().pad()).means("the pad that it is for");
        entry.needed("changes", list(change()), ChangeList.Entry::changes)
                .means("what is done, in this order");
        entry.needed("cautions", list(CautionForm.ofPads()), ChangeList.Entry::cautions)
                .means("to be read before anything is driven");
        return entry.written();
    }

    private static Kind<Change> change() {
        Map<Change.What, Form<Change>> forms = new EnumMap<>(Change.What.class);
        for (Change.What what : Change.What.values()) {
            forms.put(what, change(what));
        }
        return WrittenKinds.oneOf(change -> forms.get(change.what()), List.copyOf(forms.values()));
    }

    private static Form<Change> change(Change.What what) {
        var change = new Fields<Change>();
        change.constant("what", what.label());
        for (String fact : ChangeList.COLUMNS) {
            if (what.needed().contains(fact)) {
                change.needed(fact, fact(), c -> c.get(fact)).means(MEANINGS.get(fact));
            } else if (what.possible().contains(fact)) {
                change.optional(fact, fact(), "", c -> c.get(fact)).means(MEANINGS.get(fact));
            }
        }
        return change.written();
    }

    private static Kind<String> fact() {
        return Kinds.text(FabricLimits.NAME_LENGTH);
    }
}
