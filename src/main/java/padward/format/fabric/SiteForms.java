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
import padward.fabric.WholeSite;
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
    static final String ALIKE =
            "a word that those `in` pins of the site or part share whose signals can be swapped, as"
                    + " the inputs of a lookup table";

    private final ExplicitForm file;
    private final InfoFields info;

    SiteForms(ExplicitForm file, InfoFields info) {
        this.file = file;
        this.info = info;
    }

    /** What a part of a site, or a site without parts, states of itself. */
    private record Slot(
            String part, List<String> accepts, List<SitePin> pins, List<Through> through) {}

    /** All of them, by their numbers. */
    Kind<Iterable<WholeSite>> all() {
        var site = new Fields<WholeSite>();
        var name =
                site.needed("name", name(), WholeSite::name)
                        .means("full name, used by no other wire, site, pin or pad");
        var at = site.needed("at", file.tile(), s -> s.first().tile()).means("where it is");
        var more =
                site.optional(
                                "moreTiles",
                                list(file.tile().boxed()),
                                List.of(),
                                s -> s.first().moreTiles())
                        .means("the other tiles that it extends over");
        var kind = site.needed("kind", word(), s -> s.first().kind()).means("kind of site");
        var accepts =
                site.stated(
                                "accepts",
                                list(knownWord(info.cellKinds)),
                                List.of(),
                                s -> s.hasParts() ? List.of() : s.first().accepts())
                        .means("kinds of cell that it accepts; none for a site with parts");
        var pins =
                site.needed("pins", list(pin()), s -> s.hasParts() ? List.of() : s.first().pins())
                        .means("its pins; none for a site with parts");
        var through =
                site.stated(
                                "through",
                                list(passThrough()),
                                List.of(),
                                s -> s.hasParts() ? List.of() : throughOf(s.first()))
                        .means("its pass-throughs; none for a site with parts");
        var parts =
                site.optional(
                                "parts",
                                list(part()),
                                List.of(),
                                s ->
                                        s.hasParts()
                                                ? s.parts().stream().map(this::slotOf).toList()
                                                : List.of())
                        .means("its parts, if it has any: each takes a cell of its own");
        var unusable =
                site.optional(
                                "unusable",
                                flag(),
                                false,
                                s -> file.fabric().unusable().isSite(s.first().id()))
                        .means("`true` if no cell is to be placed there");
        return site.rows(
                in -> {
                    List<Integer> tiles = tiles(in, at.get(), more.get());
                    Slot whole = new Slot("", accepts.get(), pins.get(), through.get());
                    if (parts.get().isEmpty()) {
                        int id = add(in, in.place(), name.get(), tiles, kind.get(), whole);
                        markIf(unusable.get(), id);
                        return;
                    }
                    refuseSecond(in, name.get());
                    refuseOutsideParts(in, "accepts", accepts.get());
                    refuseOutsideParts(in, "pins", pins.get());
                    refuseOutsideParts(in, "through", through.get());
                    for (int i = 0; i < parts.get().size(); i++) {
                        String place = in.place() + ".parts[" + i + "]";
                        int id = add(in, place, name.get(), tiles, kind.get(), parts.get().get(i));
                        markIf(unusable.get(), id);
                    }
                });
    }

    private Form<Slot> part() {
        var part = new Fields<Slot>();
        var name =
                part.needed("name", sharedName(), Slot::part)
                        .means("name inside the site; elsewhere the part is `site/name`");
        var accepts =
                part.needed("accepts", list(knownWord(info.cellKinds)), Slot::accepts)
                        .means("kinds of cell that it accepts");
        var pins =
                part.needed("pins", list(pin()), Slot::pins)
                        .means("its pins; elsewhere a pin is `site.name`, without the part");
        var through =
                part.stated("through", list(passThrough()), List.of(), Slot::through)
                        .means("its pass-throughs");
        return part.makes(() -> new Slot(name.get(), accepts.get(), pins.get(), through.get()));
    }

    private Slot slotOf(SiteView site) {
        return new Slot(site.part(), site.accepts(), site.pins(), throughOf(site));
    }

    /** The parts of a site are stated in one place; else two sites would become one. */
    private void refuseSecond(JsonIn in, String site) throws BadInput {
        if (file.builder().hasParts(site) || file.builder().findSite(site) != Fabric.NOTHING) {
            throw in.faultAt(
                    in.place() + ".name",
                    "a name that no other site has",
                    Text.quote(site) + " again");
        }
    }

    static void refuseOutsideParts(JsonIn in, String member, List<?> stated) throws BadInput {
        if (!stated.isEmpty()) {
            throw in.faultAt(
                    in.place() + "." + member,
                    "nothing, as the site has parts, which state this",
                    stated.size() + " of them");
        }
    }

    private static List<Integer> tiles(JsonIn in, int first, List<Integer> more) throws BadInput {
        List<Integer> tiles = new ArrayList<>(List.of(first));
        for (int i = 0; i < more.size(); i++) {
            if (tiles.contains(more.get(i))) {
                throw in.faultAt(
                        in.place() + ".moreTiles[" + i + "]",
                        "each tile of the site once",
                        "one again");
            }
            tiles.add(more.get(i));
        }
        return tiles;
    }

    private void markIf(boolean unusable, int site) {
        if (unusable) {
            file.builder().setSiteUnusable(site);
        }
    }

    private int add(
            JsonIn in, String place, String name, List<Integer> tiles, String kind, Slot slot)
            throws BadInput {
        file.count(in, slot.pins().size());
        int id =
                slot.part().isEmpty()
                        ? file.builder().addSite(name, tiles, kind, slot.accepts(), slot.pins())
                        : file.builder()
                                .addPart(
                                        name,
                                        slot.part(),
                                        tiles,
                                        kind,
                                        slot.accepts(),
                                        slot.pins());
        if (id == Fabric.NOTHING) {
            boolean part = !slot.part().isEmpty();
            throw in.faultAt(
                    place,
                    "names of a "
                            + (part ? "part" : "site")
                            + " and its pins that nothing else has",
                    Text.quote(part ? slot.part() : name) + " or one of its pins again");
        }
        addThrough(in, place, name, slot);
        return id;
    }

    static Form<SitePin> pin() {
        var pin = new Fields<SitePin>();
        var name = pin.needed("name", sharedName(), SitePin::name).means("name inside the site");
        var direction =
                pin.needed("direction", choice(PinDirection.values()), SitePin::direction)
                        .means("`in` or `out`, seen from the site");
        var alike = pin.optional("alike", word(), "", SitePin::alike).means(ALIKE);
        return pin.makes(
                in ->
                        new SitePin(
                                name.get(),
                                direction.get(),
                                alike(in, direction.get(), alike.get())));
    }

    /** Only in pins can be alike. */
    static String alike(JsonIn in, PinDirection direction, String word) throws BadInput {
        if (!word.isEmpty() && direction == PinDirection.OUT) {
            throw in.faultAt(
                    in.place() + ".alike", "nothing, as this is no `in` pin", Text.quote(word));
        }
        return word;
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

    private void addThrough(JsonIn in, String place, String site, Slot slot) throws BadInput {
        LongOpenHashSet routes = new LongOpenHashSet();
        for (int i = 0; i < slot.through().size(); i++) {
            Through route = slot.through().get(i);
            String at = place + ".through[" + i + "]";
            int from = pin(in, site, slot, route.from(), at + ".from", PinDirection.IN);
            int to = pin(in, site, slot, route.to(), at + ".to", PinDirection.OUT);
            if (!routes.add((long) from << Integer.SIZE | to)) {
                throw in.faultAt(
                        at,
                        "each pass-through of the "
                                + (slot.part().isEmpty() ? "site" : "part")
                                + " once",
                        "a second one");
            }
            file.builder().addEdge(from, to, EdgeKind.PASS_THROUGH, route.delay());
        }
    }

    private int pin(
            JsonIn in, String site, Slot slot, String name, String place, PinDirection direction)
            throws BadInput {
        for (SitePin pin : slot.pins()) {
            if (pin.name().equals(name) && pin.direction() == direction) {
                return file.builder().findVertex(site + "." + name);
            }
        }
        throw in.faultAt(
                place,
                "the name of an "
                        + EnumWords.of(direction)
                        + " pin of the "
                        + (slot.part().isEmpty() ? "site" : "part"),
                Nearest.describe(name, slot.pins().stream().map(SitePin::name)));
    }
}
