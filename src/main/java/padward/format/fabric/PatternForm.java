package padward.format.fabric;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.delay;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.knownName;
import static padward.format.form.Kinds.knownOrNone;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.pair;
import static padward.format.form.Kinds.whole;
import static padward.format.form.Kinds.wholeBelow;
import static padward.format.form.Kinds.word;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntSupplier;
import padward.fabric.EdgeKind;
import padward.fabric.FabricLimits;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadDirections;
import padward.fabric.pattern.PatternSpec;
import padward.fabric.pattern.PatternSpec.Area;
import padward.fabric.pattern.PatternSpec.PadOverride;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.UnusableNames;
import padward.fabric.pattern.PatternSpec.WireKind;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Pair;
import padward.format.json.Names;

/** The pattern form of a fabric, as records. One object serves one file. */
final class PatternForm {
    private final Names wireNames = new Names("kind of wire");
    private final Names switchNames = new Names("switch");
    private final Names tileNames = new Names("type of tile");
    private final Map<String, WireKind> wires = new HashMap<>();
    private final Map<String, Delay> switches = new HashMap<>();
    private final InfoFields info;
    private final FileForm<PatternSpec> form;

    /** A kind of switch, which only files name. */
    private record SwitchKind(String name, Delay delay) {}

    PatternForm() {
        var file = new Fields<PatternSpec>();
        info =
                new InfoFields(
                        file,
                        "pattern",
                        PatternSpec::info,
                        spec -> new GridForm(spec.columns(), spec.rows()),
                        Optional.of(wireNames));
        var wireList =
                file.needed("wires", list(wire()), PatternSpec::wires).means("kinds of wire");
        file.stated("switches", list(switchKind()), List.of(), PatternForm::switchesOf)
                .means("kinds of switch");
        Kind<List<Rule>> rules = new RuleForm(wireNames, wires, switchNames, switches).rules();
        var tiles =
                file.needed(
                                "tiles",
                                list(TileForms.type(info, tileNames, wireNames, rules)),
                                PatternSpec::tileTypes)
                        .means("types of tile");
        tiles.after("wires", "switches", "cellKinds", "settings");
        var layout =
                file.needed("layout", list(area()), PatternSpec::areas)
                        .means("where the types are; later areas replace earlier ones");
        layout.after("tiles", "grid");
        var pads =
                file.stated("pads", list(pad()), List.of(), PatternSpec::padOverrides)
                        .means("what is known of single pads");
        pads.after("settings", "banks");
        var unusable =
                file.optional("unusable", unusable(), UnusableNames.NONE, PatternSpec::unusable)
                        .means("wires and sites that are not to be used; otherwise none");
        form =
                file.makesFile(
                        () ->
                                new PatternSpec(
                                        info.get(),
                                        info.grid.get().columns(),
                                        info.grid.get().rows(),
                                        wireList.get(),
                                        tiles.get(),
                                        layout.get(),
                                        pads.get(),
                                        unusable.get()));
    }

    FileForm<PatternSpec> form() {
        return form;
    }

    private Form<WireKind> wire() {
        var wire = new Fields<WireKind>();
        var name =
                wire.needed("name", newName(wireNames), WireKind::name).means("name of the kind");
        var step =
                wire.needed(
                                "step",
                                pair(whole(-FabricLimits.GRID_SIDE, FabricLimits.GRID_SIDE)),
                                w -> new Pair(w.dx(), w.dy()))
                        .means("`[dx, dy]` from start to end, in tiles");
        var count =
                wire.stated("count", whole(1, FabricLimits.GROUP), 1, WireKind::count)
                        .means("how many start in a tile; otherwise 1");
        var delay =
                wire.needed("delay_ps", delay(), WireKind::delay)
                        .means("of entering and running along it");
        var twoWay =
                wire.stated("twoWay", flag(), false, WireKind::twoWay)
                        .means("whether signals may enter and leave at both ends; otherwise not");
        var use = wire.stated("use", word(), "general", WireKind::use).means("for people");
        var taps =
                wire.optional(
                                "taps",
                                list(whole(1, FabricLimits.GRID_SIDE).boxed()),
                                List.of(),
                                WireKind::taps)
                        .means(
                                "tiles from its start at which signals can leave it on its way, and"
                                        + " enter it if it is bidirectional; otherwise none");
        return wire.makes(
                () -> {
                    WireKind kind =
                            new WireKind(
                                    name.get(),
                                    step.get().first(),
                                    step.get().second(),
                                    count.get(),
                                    delay.get(),
                                    twoWay.get(),
                                    use.get(),
                                    taps.get());
                    wires.put(kind.name(), kind);
                    return kind;
                });
    }

    private Form<SwitchKind> switchKind() {
        var kind = new Fields<SwitchKind>();
        var name =
                kind.needed("name", newName(switchNames), SwitchKind::name)
                        .means("name of the kind");
        var delay =
                kind.needed("delay_ps", delay(), SwitchKind::delay).means("of the switch alone");
        return kind.makes(
                () -> {
                    switches.put(name.get(), delay.get());
                    return new SwitchKind(name.get(), delay.get());
                });
    }

    private static List<SwitchKind> switchesOf(PatternSpec spec) {
        return spec.tileTypes().stream()
                .flatMap(t -> t.rules().stream())
                .filter(r -> r.kind() == EdgeKind.SWITCH)
                .map(Rule::delay)
                .distinct()
                .map(delay -> new SwitchKind(RuleForm.switchName(delay), delay))
                .toList();
    }

    private Form<Area> area() {
        var area = new Fields<Area>();
        var tile =
                area.needed("tile", knownName(tileNames), Area::tileType)
                        .means("type of its tiles");
        var columns =
                area.stated(
                                "columns",
                                range(() -> info.grid.get().columns()),
                                new Pair(0, 0),
                                a -> new Pair(a.fromColumn(), a.toColumn()))
                        .means("`[first, last]`; otherwise all");
        var rows =
                area.stated(
                                "rows",
                                range(() -> info.grid.get().rows()),
                                new Pair(0, 0),
                                a -> new Pair(a.fromRow(), a.toRow()))
                        .means("`[first, last]`; otherwise all");
        var every =
                area.stated("every", whole(1, FabricLimits.GRID_SIDE), 1, Area::everyColumns)
                        .means("each n-th column of them; otherwise 1");
        return area.makes(
                () -> {
                    GridForm grid = info.grid.get();
                    Pair across =
                            columns.isGiven() ? columns.get() : new Pair(0, grid.columns() - 1);
                    Pair up = rows.isGiven() ? rows.get() : new Pair(0, grid.rows() - 1);
                    return new Area(
                            tile.get(),
                            across.first(),
                            across.second(),
                            up.first(),
                            up.second(),
                            every.get());
                });
    }

    private static Kind<Pair> range(IntSupplier size) {
        return pair(wholeBelow(size, FabricLimits.GRID_SIDE))
                .checked(
                        (in, range) -> {
                            if (range.first() > range.second()) {
                                throw in.fault(
                                        "[first, last]",
                                        "[" + range.first() + ", " + range.second() + "]");
                            }
                        });
    }

    private static Form<UnusableNames> unusable() {
        var both = new Fields<UnusableNames>();
        var wires =
                both.stated(
                                "wires",
                                list(newName(new Names("unusable wire"))),
                                List.of(),
                                UnusableNames::wires)
                        .means("full names of wires that no route goes over");
        var sites =
                both.stated(
                                "sites",
                                list(newName(new Names("unusable site"))),
                                List.of(),
                                UnusableNames::sites)
                        .means("full names of sites where no cell is placed");
        return both.makes(() -> new UnusableNames(wires.get(), sites.get()));
    }

    private Form<PadOverride> pad() {
        var pad = new Fields<PadOverride>();
        var name =
                pad.needed("pad", newName(new Names("entry of pads")), PadOverride::pad)
                        .means("full name of the pad");
        var packagePin =
                pad.optional(
                                "packagePin",
                                InfoForms.packagePin(new HashSet<>()),
                                "",
                                PadOverride::packagePin)
                        .means("pin or ball of the package; otherwise unknown");
        var bank =
                pad.optional("bank", knownOrNone(info.banks), "", PadOverride::bank)
                        .means("a bank of `banks`; otherwise none");
        var directions =
                pad.maybe("directions", choice(PadDirections.values()), PadOverride::directions)
                        .means("otherwise those of its group");
        var setting =
                pad.optional("setting", knownOrNone(info.settings), "", PadOverride::setting)
                        .means("used when a port states none; otherwise its group's");
        var use = InfoForms.use(pad, info.settings, PadOverride::use);
        return pad.makes(
                () ->
                        new PadOverride(
                                name.get(),
                                packagePin.get(),
                                bank.get(),
                                directions.get(),
                                setting.get(),
                                use.get()));
    }
}
