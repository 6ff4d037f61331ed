package padward.format.fabric;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.delay;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.knownWord;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.sharedName;
import static padward.format.form.Kinds.word;

import it.unimi.dsi.fastutil.longs.LongOpenHashSet;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.pattern.PatternSpec.Through;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.source.Nearest;
import padward.format.source.Text;

/** The forms of the sites of an explicit fabric. */
final class SiteForms {
    private final ExplicitForm file;
    private final InfoFields info;

    SiteForms(ExplicitForm file, InfoFields info) {
        this.file = file;
        this.info = info;
    }

    /** All of them, by their numbers. */
    Kind<Iterable<SiteView>> all() {
        var site = new Fields<SiteView>();
        var name =
                site.needed("name", name(), SiteView::name)
                        .means("full name, used by no other wire, site, pin or pad");
        var at = site.needed("at", file.tile(), SiteView::tile).means("where it is");
        var kind = site.needed("kind", word(), SiteView::kind).means("kind of site");
        var accepts =
                site.stated(
                                "accepts",
                                list(knownWord(info.cellKinds)),
                                List.of(),
                                SiteView::accepts)
                        .means("kinds of cell that it accepts");
        var pins = site.needed("pins", list(pin()), SiteView::pins).means("its pins");
        var through =
                site.stated("through", list(passThrough()), List.of(), this::throughOf)
                        .means("its pass-throughs");
        var unusable =
                site.optional(
                                "unusable",
                                flag(),
                                false,
                                s -> file.fabric().unusable().isSite(s.id()))
                        .means("`true` if no cell is to be placed there");
        return site.rows(
                in -> {
                    file.count(in, pins.get().size());
                    int id =
                            file.builder()
                                    .addSite(
                                            name.get(),
                                            at.get(),
                                            kind.get(),
                                            accepts.get(),
                                            pins.get());
                    if (id == Fabric.NOTHING) {
                        throw in.fault(
                                "names of a site and its pins that nothing else has",
                                Text.quote(name.get()) + " or one of its pins again");
                    }
                    if (unusable.get()) {
                        file.builder().setSiteUnusable(id);
                    }
                    addThrough(in, name.get(), pins.get(), through.get());
                });
    }

    static Form<SitePin> pin() {
        var pin = new Fields<SitePin>();
        var name = pin.needed("name", sharedName(), SitePin::name).means("name inside the site");
        var direction =
                pin.needed("direction", choice(PinDirection.values()), SitePin::direction)
                        .means("`in` or `out`, seen from the site");
        return pin.makes(() -> new SitePin(name.get(), direction.get()));
    }

    private static Form<Through> passThrough() {
        var through = new Fields<Through>();
        var from = through.needed("from", word(), Through::from).means("name of an `in` pin");
        var to = through.needed("to", word(), Through::to).means("name of an `out` pin");
        var delay =
                through.needed("delay_ps", delay(), Through::delay).means("of the pass-through");
        return through.makes(() -> new Through(from.get(), to.get(), delay.get()));
    }

    private List<Through> throughOf(SiteView site) {
        List<Through> all = new ArrayList<>();
        EdgeCursor edges = file.fabric().edgesOut();
        for (int i = 0; i < site.pins().size(); i++) {
            edges.reset(site.firstPin() + i);
            while (edges.next()) {
                if (edges.kind() == EdgeKind.PASS_THROUGH) {
                    String to = site.pins().get(edges.other() - site.firstPin()).name();
                    all.add(new Through(site.pins().get(i).name(), to, edges.delay()));
                }
            }
        }
        return all;
    }

    private void addThrough(JsonIn in, String site, List<SitePin> pins, List<Through> all)
            throws BadInput {
        LongOpenHashSet routes = new LongOpenHashSet();
        for (int i = 0; i < all.size(); i++) {
            Through route = all.get(i);
            String at = in.place() + ".through[" + i + "]";
            int from = pin(in, site, pins, route.from(), at + ".from", PinDirection.IN);
            int to = pin(in, site, pins, route.to(), at + ".to", PinDirection.OUT);
            if (!routes.add((long) from << Integer.SIZE | to)) {
                throw in.faultAt(at, "each pass-through of the site once", "a second one");
            }
            file.builder().addEdge(from, to, EdgeKind.PASS_THROUGH, route.delay());
        }
    }

    private int pin(
            JsonIn in,
            String site,
            List<SitePin> pins,
            String name,
            String place,
            PinDirection direction)
            throws BadInput {
        for (SitePin pin : pins) {
            if (pin.name().equals(name) && pin.direction() == direction) {
                return file.builder().findVertex(site + "." + name);
            }
        }
        throw in.faultAt(
                place,
                "the name of an " + EnumWords.of(direction) + " pin of the site",
                Nearest.describe(name, pins.stream().map(SitePin::name)));
    }
}
