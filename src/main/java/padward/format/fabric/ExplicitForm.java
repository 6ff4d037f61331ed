package padward.format.fabric;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.knownOrNone;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.namedOrNone;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.word;

import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.FabricLimits;
import padward.fabric.Pad;
import padward.fabric.Tap;
import padward.fabric.VertexKind;
import padward.fabric.WholeSite;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.explicit.ExplicitFabric;
import padward.fabric.pad.PadDirections;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.form.IntKind;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The explicit form of a fabric. What is read goes to a builder row by row; what is written is
 * asked of the fabric row by row. One object serves one file.
 */
final class ExplicitForm {
    private static final String EDGE =
            ", `[\"from\", \"to\", fast, slow]` with names of wires (any that they have), pins"
                    + " (`site.pin`) and pads; a fifth element, `[column, row]`, states the tile of"
                    + " the switch where the taps of its ends do not show it";
    private static final String NAME_OF_ITS_OWN = "a name that no other wire, site, pin or pad has";
    private static final FabricInfo NOTHING_YET =
            new FabricInfo("", "", List.of(), List.of(), List.of());
    private final Optional<Fabric> written;
    private final InfoFields info;
    private final FileForm<Fabric> form;
    private final BitSet typedTiles = new BitSet();
    private ExplicitBuilder builder;
    private int vertices;

    /** For a file to be read. */
    ExplicitForm() {
        this(Optional.empty());
    }

    /** For the file of a fabric. */
    ExplicitForm(Fabric fabric) {
        this(Optional.of(fabric));
    }

    private ExplicitForm(Optional<Fabric> written) {
        this.written = written;
        var file = new Fields<Fabric>();
        info =
                new InfoFields(
                        file,
                        "explicit",
                        Fabric::info,
                        fabric -> new GridForm(fabric.columns(), fabric.rows()),
                        Optional.empty());
        file.stated(
                        "tiles",
                        tiles(),
                        List.of(),
                        fabric -> numbers(fabric.tileCount(), tile -> true))
                .means("the types of tiles; tiles that are not listed are `empty`")
                .after("grid");
        file.needed(
                        "wires",
                        wires(),
                        f -> numbers(f.vertexCount(), v -> f.kind(v) == VertexKind.WIRE))
                .means("the wires")
                .after("grid");
        file.stated("sites", new SiteForms(this, info).all(), List.of(), WholeSite::allOf)
                .means("the sites")
                .after("grid", "cellKinds");
        file.needed("pads", pads(), Fabric::pads)
                .means("the pads")
                .after("sites", "grid", "settings", "banks", "cellKinds");
        ListedEdges edges = new ListedEdges(this::builder, this::fabric, tile());
        file.stated("switches", edges.ofKind(EdgeKind.SWITCH), Optional.empty(), Optional::of)
                .means("programmable connections" + EDGE)
                .after("wires", "sites", "pads");
        file.stated(
                        "connections",
                        edges.ofKind(EdgeKind.CONNECTION),
                        Optional.empty(),
                        Optional::of)
                .means("fixed connections" + EDGE)
                .after("wires", "sites", "pads");
        file.optional(
                        "switchGroups",
                        switchGroups(edges),
                        List.of(),
                        f ->
                                f.switchGroups().isEmpty()
                                        ? List.of()
                                        : numbers(f.switchGroups().count(), group -> true))
                .means(
                        "groups of switches of which at most one can be on, because they share a"
                                + " setting; switches into the same wire need none")
                .after("wires", "sites", "pads");
        form =
                file.makesFile(
                        () -> {
                            builder().setInfo(info.get());
                            return builder().build();
                        });
    }

    ExplicitFabric read(Source source, Progress progress) throws BadInput {
        ExplicitFabric fabric = (ExplicitFabric) form.read(source, progress);
        if (!builder.repeated().isEmpty()) {
            throw RepeatedEdges.describe(source, progress, builder.repeated());
        }
        for (ExplicitBuilder.NoPartner none : builder.noPartners()) {
            throw new BadInput(
                    source.label(),
                    "$.pads[" + none.pad() + "].partner",
                    ExplicitBuilder.NoPartner.EXPECTED,
                    Text.quote(none.partner()));
        }
        for (ExplicitBuilder.NoSwitch none : builder.noSwitches()) {
            throw new BadInput(
                    source.label(),
                    "$.switchGroups[" + none.group() + "].switches[" + none.member() + "]",
                    "the two ends of one of `switches`",
                    Text.quote(none.from()) + " and " + Text.quote(none.to()));
        }
        return fabric;
    }

    FileForm<Fabric> form() {
        return form;
    }

    /** The fabric that is written. */
    Fabric fabric() {
        return written.orElseThrow();
    }

    /**
     * Made when first needed: the grid is read by then. What the fabric says of itself may come
     * later or not at all, and waiting for it would be a second pass over the whole file.
     */
    ExplicitBuilder builder() {
        if (builder == null) {
            GridForm grid = info.grid.get();
            builder = new ExplicitBuilder(NOTHING_YET, grid.columns(), grid.rows());
        }
        return builder;
    }

    private static Iterable<Integer> numbers(int count, IntPredicate which) {
        return () -> IntStream.range(0, count).filter(which).iterator();
    }

    /** A tile by its place, {@code [column, row]}. */
    IntKind tile() {
        Schema side = Schema.whole(0, FabricLimits.GRID_SIDE - 1);
        return IntKind.of(
                in -> {
                    GridForm grid = info.grid.get();
                    in.beginArray();
                    int column = in.integer(0, grid.columns() - 1);
                    int row = in.integer(0, grid.rows() - 1);
                    in.endArray();
                    return row * grid.columns() + column;
                },
                (out, tile) -> {
                    out.beginArray();
                    out.value(fabric().column(tile)).value(fabric().row(tile)).endArray();
                },
                () -> Schema.tuple(side, side));
    }

    private Kind<Iterable<Integer>> tiles() {
        var tile = new Fields<Integer>();
        var at = tile.needed("at", tile(), Integer::intValue).means("where it is");
        var type = tile.needed("type", word(), t -> fabric().tileType(t)).means("type of the tile");
        return tile.rows(
                in -> {
                    if (typedTiles.get(at.get())) {
                        throw in.fault("each tile once", "a tile that has a type already");
                    }
                    typedTiles.set(at.get());
                    int columns = info.grid.get().columns();
                    builder().addTile(at.get() % columns, at.get() / columns, type.get());
                });
    }

    private Kind<Iterable<Integer>> wires() {
        var wire = new Fields<Integer>();
        var name =
                wire.needed("name", name(), v -> fabric().vertexName(v))
                        .means("full name, used by no other wire, site, pin or pad");
        var from = wire.needed("from", tile(), v -> fabric().tile(v)).means("where it begins");
        var to =
                wire.optional("to", tile(), Fabric.NOTHING, v -> fabric().headTile(v))
                        .means("where it ends; otherwise where it begins");
        var kind =
                wire.stated("kind", word(), "", v -> fabric().wireKind(v))
                        .means("kind of wire; otherwise none");
        wire.optional("use", word(), "").means("for people; the graph says where it leads");
        var taps =
                wire.optional("taps", list(tap()), List.of(), this::tapsOf)
                        .means(
                                "where it can be entered and left, in the order along it; otherwise"
                                        + " where it begins and ends");
        var unusable =
                wire.optional("unusable", flag(), false, v -> fabric().unusable().isVertex(v))
                        .means("`true` if no route is to go over it");
        return wire.rows(
                in -> {
                    count(in, 1);
                    int end = to.isGiven() ? to.get() : from.get();
                    int vertex = builder().addWire(name.get(), from.get(), end, kind.get());
                    if (vertex == Fabric.NOTHING) {
                        throw taken(in, name.get());
                    }
                    if (unusable.get()) {
                        builder().setWireUnusable(vertex);
                    }
                    for (int i = 0; i < taps.get().size(); i++) {
                        Tap tap = taps.get().get(i);
                        if (!builder().addTap(vertex, tap.tile(), tap.name())) {
                            throw in.faultAt(
                                    in.place() + ".taps[" + i + "].name",
                                    NAME_OF_ITS_OWN,
                                    Text.quote(tap.name()) + " again");
                        }
                    }
                });
    }

    private Form<Tap> tap() {
        var tap = new Fields<Tap>();
        var at = tap.needed("at", tile(), Tap::tile).means("where it is");
        var name =
                tap.optional("name", name(), "", Tap::name)
                        .means("name of the wire there; otherwise its own");
        return tap.makes(() -> new Tap(at.get(), name.get()));
    }

    /** The taps of a wire; a name that is the wire's is left out. */
    private List<Tap> tapsOf(int wire) {
        if (!fabric().listsTaps(wire)) {
            return List.of();
        }
        String own = fabric().vertexName(wire);
        return fabric().taps(wire).stream()
                .map(tap -> tap.name().equals(own) ? new Tap(tap.tile(), "") : tap)
                .toList();
    }

    private Kind<Iterable<Integer>> switchGroups(ListedEdges edges) {
        Names names = new Names("switch group");
        var group = new Fields<Integer>();
        var name =
                group.needed("name", newName(names), g -> fabric().switchGroups().name(g))
                        .means("name of the group, which no other has");
        var switches =
                group.needed(
                                "switches",
                                list(edges.ends()),
                                g -> fabric().switchGroups().switches(g))
                        .means("its switches, `[\"from\", \"to\"]` each; a switch is in one group");
        return group.rows(
                in -> {
                    if (switches.get().isEmpty()) {
                        throw in.faultAt(in.place() + ".switches", "at least one switch", "none");
                    }
                    for (int i = 0; i < switches.get().size(); i++) {
                        long edge = switches.get().get(i);
                        int from = EdgeKey.from(edge);
                        if (!builder().addToSwitchGroup(name.get(), from, EdgeKey.to(edge))) {
                            throw in.faultAt(
                                    in.place() + ".switches[" + i + "]",
                                    "a switch in one group",
                                    "one that is in another group already");
                        }
                    }
                });
    }

    /** Counts vertices that were read. */
    void count(JsonIn in, int more) throws BadInput {
        vertices += more;
        if (vertices > FabricLimits.VERTICES) {
            throw in.fault("at most " + FabricLimits.VERTICES + " wires, pins and pads", "more");
        }
    }

    private static BadInput taken(JsonIn in, String name) {
        return in.fault(NAME_OF_ITS_OWN, Text.quote(name) + " again");
    }

    private Kind<Iterable<Pad>> pads() {
        var pad = new Fields<Pad>();
        var name =
                pad.needed("name", name(), Pad::name)
                        .means("full name, used by no other wire, site, pin or pad");
        var at = pad.needed("at", tile(), Pad::tile).means("where it is");
        var packagePin =
                pad.optional(
                                "packagePin",
                                InfoForms.packagePin(new HashSet<>()),
                                "",
                                Pad::packagePin)
                        .means("pin or ball of the package; otherwise unknown");
        var bank =
                pad.optional("bank", knownOrNone(info.banks), "", Pad::bank)
                        .means("a bank of `banks`; otherwise none");
        var directions =
                pad.needed("directions", choice(PadDirections.values()), Pad::directions)
                        .means("whether signals go in, out or both ways");
        IntKind siteOrNone = namedOrNone(this::readSite, site -> fabric().site(site).name());
        var data =
                pad.optional("data", siteOrNone, Fabric.NOTHING, Pad::dataSite)
                        .means(
                                "full name of the IO register site before its driver; otherwise none");
        var enable =
                pad.optional("enable", siteOrNone, Fabric.NOTHING, Pad::enableSite)
                        .means(
                                "full name of the IO register site of its driver's enable; otherwise the"
                                        + " driver is always on");
        var driverEnable = InfoForms.enable(pad, Pad::enable);
        var setting =
                pad.optional("setting", knownOrNone(info.settings), "", Pad::defaultSetting)
                        .means(
                                "a setting of `settings`, used when a port states none; otherwise none");
        var use = InfoForms.use(pad, info.settings, Pad::use);
        return pad.rows(
                in -> {
                    count(in, 1);
                    int vertex =
                            builder()
                                    .addPad(
                                            name.get(),
                                            at.get(),
                                            packagePin.get(),
                                            bank.get(),
                                            directions.get(),
                                            data.get(),
                                            enable.get(),
                                            setting.get(),
                                            use.get(),
                                            driverEnable.get());
                    if (vertex == Fabric.NOTHING) {
                        throw taken(in, name.get());
                    }
                });
    }

    private int readSite(JsonIn in) throws BadInput {
        String name = in.text(FabricLimits.NAME_LENGTH);
        int site = name.isEmpty() ? Fabric.NOTHING : builder().findSite(name);
        if (site == Fabric.NOTHING && !name.isEmpty()) {
            throw in.fault("the name of a site, or an empty text", Text.quote(name));
        }
        return site;
    }
}
