package padward.format.fabric;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.delay;
import static padward.format.form.Kinds.knownName;
import static padward.format.form.Kinds.knownOrNone;
import static padward.format.form.Kinds.knownWord;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.whole;
import static padward.format.form.Kinds.word;

import java.util.List;
import padward.fabric.FabricLimits;
import padward.fabric.PinDirection;
import padward.fabric.pad.PadDirections;
import padward.fabric.pattern.PatternSpec.PadGroup;
import padward.fabric.pattern.PatternSpec.PartGroup;
import padward.fabric.pattern.PatternSpec.PinGroup;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.SiteGroup;
import padward.fabric.pattern.PatternSpec.Through;
import padward.fabric.pattern.PatternSpec.TileType;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.IntKind;
import padward.format.form.Kind;
import padward.format.json.Names;

/** The forms of the types of tile of a pattern: wires, sites and pads. */
final class TileForms {
    private static final String COUNT = "how many of them; otherwise 1";

    private TileForms() {}

    static Form<TileType> type(
            InfoFields info, Names tileNames, Names wireNames, Kind<List<Rule>> rules) {
        var tile = new Fields<TileType>();
        var name =
                tile.needed("name", newName(tileNames), TileType::name).means("name of the type");
        var wires =
                tile.stated("wires", list(knownName(wireNames)), List.of(), TileType::wires)
                        .means("kinds of wire that start there");
        var sites =
                tile.stated("sites", list(site(info)), List.of(), TileType::sites)
                        .means("its sites");
        var pads =
                tile.stated("pads", list(pad(info)), List.of(), TileType::pads).means("its pads");
        var all = tile.stated("rules", rules, List.of(), TileType::rules).means("its switch box");
        return tile.makes(
                () -> new TileType(name.get(), wires.get(), sites.get(), pads.get(), all.get()));
    }

    private static IntKind group() {
        return whole(1, FabricLimits.GROUP);
    }

    private static Form<SiteGroup> site(InfoFields info) {
        var site = new Fields<SiteGroup>();
        var name = site.needed("name", name(), SiteGroup::name).means("name of the group");
        var count = site.stated("count", group(), 1, SiteGroup::count).means(COUNT);
        var kind = site.needed("kind", name(), SiteGroup::kind).means("kind of site");
        var accepts =
                site.stated(
                                "accepts",
                                list(knownWord(info.cellKinds)),
                                List.of(),
                                SiteGroup::accepts)
                        .means("kinds of cell that it accepts");
        var pins =
                site.needed("pins", list(pin()), SiteGroup::pins)
                        .means("its pins; none for sites with parts");
        var through =
                site.stated("through", list(through()), List.of(), SiteGroup::through)
                        .means("its pass-throughs");
        var parts =
                site.optional("parts", list(part(info)), List.of(), SiteGroup::parts)
                        .means("its parts, if it has any: each takes a cell of its own");
        return site.makes(
                in -> {
                    if (!parts.get().isEmpty()) {
                        SiteForms.refuseOutsideParts(in, "accepts", accepts.get());
                        SiteForms.refuseOutsideParts(in, "pins", pins.get());
                        SiteForms.refuseOutsideParts(in, "through", through.get());
                    }
                    return new SiteGroup(
                            name.get(),
                            count.get(),
                            kind.get(),
                            accepts.get(),
                            pins.get(),
                            through.get(),
                            parts.get());
                });
    }

    private static Form<PartGroup> part(InfoFields info) {
        var part = new Fields<PartGroup>();
        var name =
                part.needed("name", name(), PartGroup::name)
                        .means("name inside the site; elsewhere the part is `site/name`");
        var accepts =
                part.needed("accepts", list(knownWord(info.cellKinds)), PartGroup::accepts)
                        .means("kinds of cell that it accepts");
        var pins =
                part.needed("pins", list(pin()), PartGroup::pins)
                        .means("its pins; elsewhere a pin is `site.name`, without the part");
        var through =
                part.stated("through", list(through()), List.of(), PartGroup::through)
                        .means("its pass-throughs");
        return part.makes(
                () -> new PartGroup(name.get(), accepts.get(), pins.get(), through.get()));
    }

    private static Form<PinGroup> pin() {
        var pin = new Fields<PinGroup>();
        var name = pin.needed("name", name(), PinGroup::name).means("name of the group");
        var count = pin.stated("count", group(), 1, PinGroup::count).means(COUNT);
        var direction =
                pin.needed("direction", choice(PinDirection.values()), PinGroup::direction)
                        .means("seen from the site");
        var alike = pin.optional("alike", word(), "", PinGroup::alike).means(SiteForms.ALIKE);
        return pin.makes(
                in ->
                        new PinGroup(
                                name.get(),
                                count.get(),
                                direction.get(),
                                SiteForms.alike(in, direction.get(), alike.get())));
    }

    private static Form<Through> through() {
        var through = new Fields<Through>();
        var from = through.needed("from", name(), Through::from).means("an `in` pin");
        var to = through.needed("to", name(), Through::to).means("an `out` pin");
        var delay =
                through.needed("delay_ps", delay(), Through::delay).means("from one to the other");
        return through.makes(() -> new Through(from.get(), to.get(), delay.get()));
    }

    private static Form<PadGroup> pad(InfoFields info) {
        var pad = new Fields<PadGroup>();
        var name = pad.needed("name", name(), PadGroup::name).means("name of the group");
        var count = pad.stated("count", group(), 1, PadGroup::count).means(COUNT);
        var directions =
                pad.needed("directions", choice(PadDirections.values()), PadGroup::directions)
                        .means("whether signals go in, out or both ways");
        var data =
                pad.optional("data", word(), "", PadGroup::dataSite)
                        .means("group of the IO register sites before the drivers; otherwise none");
        var enable =
                pad.optional("enable", word(), "", PadGroup::enableSite)
                        .means(
                                "group of the IO register sites of the drivers' enables; otherwise the"
                                        + " drivers are always on");
        var driverEnable = InfoForms.enable(pad, PadGroup::enable);
        var setting =
                pad.optional("setting", knownOrNone(info.settings), "", PadGroup::setting)
                        .means("used when a port states none; otherwise none");
        return pad.makes(
                () ->
                        new PadGroup(
                                name.get(),
                                count.get(),
                                directions.get(),
                                data.get(),
                                enable.get(),
                                setting.get(),
                                driverEnable.get()));
    }
}
