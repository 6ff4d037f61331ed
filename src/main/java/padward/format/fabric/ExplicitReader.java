package padward.format.fabric;

import it.unimi.dsi.fastutil.longs.LongOpenHashSet;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Delay;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.PadDirections;
import padward.fabric.PadEnable;
import padward.fabric.PadUse;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.Tap;
import padward.fabric.explicit.ExplicitBuilder;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;

/** Reads the explicit form of a fabric. One object reads one file. */
final class ExplicitReader {
    private static final Shape TILE = Shape.of("at!", "type!");
    private static final Shape WIRE = Shape.of("name!", "from!", "to", "kind", "use", "taps");
    private static final Shape TAP = Shape.of("at!", "name");
    private static final Shape PAD =
            Shape.of(
                    "name!",
                    "at!",
                    "packagePin",
                    "bank",
                    "directions!",
                    "data",
                    "enable",
                    "enableActive",
                    "enableUnconnected",
                    "setting",
                    "bonded",
                    "role");

    private static final String NAME_OF_ITS_OWN = "a name that no other wire, site, pin or pad has";
    private final InfoParts info = new InfoParts();
    private final Set<String> packagePins = new HashSet<>();
    private final BitSet typedTiles = new BitSet();
    private ExplicitBuilder builder;
    private int vertices;
    private int edges;
    private String lastName = "";
    private int lastVertex = Fabric.NOTHING;

    Fabric read(Source source, Progress progress) throws BadInput {
        info.addTo(new Passes(), Optional.empty())
                .part("tiles", this::readTiles, InfoParts.ALL)
                .part("wires!", this::readWires, InfoParts.ALL)
                .part("sites", this::readSites, InfoParts.ALL)
                .part("pads!", this::readPads, "sites", "grid", "settings", "banks", "cellKinds")
                .part("switches", in -> readEdges(in, EdgeKind.SWITCH), "wires", "sites", "pads")
                .part(
                        "connections",
                        in -> readEdges(in, EdgeKind.CONNECTION),
                        "wires",
                        "sites",
                        "pads")
                .run(source, progress);
        Fabric fabric = builder().build();
        if (!builder.repeated().isEmpty()) {
            throw RepeatedEdges.describe(source, progress, builder.repeated());
        }
        return fabric;
    }

    /** Made when first needed: name, grid and kinds are read by then. */
    private ExplicitBuilder builder() {
        if (builder == null) {
            builder = new ExplicitBuilder(info.toInfo(), info.columns(), info.rows());
        }
        return builder;
    }

    private void readTiles(JsonIn in) throws BadInput {
        in.beginArray();
        while (in.more()) {
            int tile = 0;
            String type = "";
            Members member = in.object(TILE);
            while (member.next()) {
                switch (member.name()) {
                    case "at" -> tile = info.readTile(in);
                    default -> type = in.word();
                }
            }
            if (typedTiles.get(tile)) {
                throw in.fault("each tile once", "a tile that has a type already");
            }
            typedTiles.set(tile);
            builder().addTile(tile % info.columns(), tile / info.columns(), type);
        }
        in.endArray();
    }

    private void readWires(JsonIn in) throws BadInput {
        in.beginArray();
        for (int number = 0; in.more(); number++) {
            String name = "";
            String kind = "";
            int from = 0;
            int to = Fabric.NOTHING;
            List<Tap> taps = List.of();
            Members member = in.object(WIRE);
            while (member.next()) {
                switch (member.name()) {
                    case "name" -> name = in.name();
                    case "from" -> from = info.readTile(in);
                    case "to" -> to = info.readTile(in);
                    case "kind" -> kind = in.word();
                    case "taps" -> taps = in.list(this::readTap);
                    default -> in.word(); // "use" is for people; the graph says where it leads
                }
            }
            count(in, 1);
            int end = to == Fabric.NOTHING ? from : to;
            int wire = builder().addWire(name, from, end, kind);
            if (wire == Fabric.NOTHING) {
                throw taken(in, name);
            }
            for (int i = 0; i < taps.size(); i++) {
                Tap tap = taps.get(i);
                if (!builder().addTap(wire, tap.tile(), tap.name())) {
                    throw in.faultAt(
                            "$.wires[" + number + "].taps[" + i + "].name",
                            NAME_OF_ITS_OWN,
                            Text.quote(tap.name()) + " again");
                }
            }
        }
        in.endArray();
    }

    private Tap readTap(JsonIn in) throws BadInput {
        int tile = 0;
        String name = "";
        Members member = in.object(TAP);
        while (member.next()) {
            switch (member.name()) {
                case "at" -> tile = info.readTile(in);
                default -> name = in.name();
            }
        }
        return new Tap(tile, name);
    }

    private void count(JsonIn in, int more) throws BadInput {
        vertices += more;
        if (vertices > padward.fabric.FabricLimits.VERTICES) {
            throw in.fault(
                    "at most " + padward.fabric.FabricLimits.VERTICES + " wires, pins and pads",
                    "more");
        }
    }

    private static BadInput taken(JsonIn in, String name) {
        return in.fault(NAME_OF_ITS_OWN, Text.quote(name) + " again");
    }

    private void readSites(JsonIn in) throws BadInput {
        in.beginArray();
        for (int number = 0; in.more(); number++) {
            ListedSite site = ListedSite.read(in, number, info);
            count(in, site.pins().size());
            addSite(in, site);
        }
        in.endArray();
    }

    private void addSite(JsonIn in, ListedSite site) throws BadInput {
        String place = "$.sites[" + site.number() + "]";
        int id =
                builder()
                        .addSite(
                                site.name(), site.tile(), site.kind(), site.accepts(), site.pins());
        if (id == Fabric.NOTHING) {
            throw in.faultAt(
                    place,
                    "names of a site and its pins that nothing else has",
                    Text.quote(site.name()) + " or one of its pins again");
        }
        LongOpenHashSet routes = new LongOpenHashSet();
        for (int i = 0; i < site.through().size(); i++) {
            ListedSite.Through route = site.through().get(i);
            String at = place + ".through[" + i + "]";
            int from = pin(in, site, route.from(), at + ".from", PinDirection.IN);
            int to = pin(in, site, route.to(), at + ".to", PinDirection.OUT);
            if (!routes.add((long) from << Integer.SIZE | to)) {
                throw in.faultAt(at, "each pass-through of the site once", "a second one");
            }
            builder().addEdge(from, to, EdgeKind.PASS_THROUGH, route.delay());
        }
    }

    private int pin(JsonIn in, ListedSite site, String name, String place, PinDirection direction)
            throws BadInput {
        String expected = "the name of an " + EnumWords.of(direction) + " pin of the site";
        for (SitePin pin : site.pins()) {
            if (pin.name().equals(name) && pin.direction() == direction) {
                return builder().findVertex(site.name() + "." + name);
            }
        }
        throw in.faultAt(
                place, expected, Nearest.describe(name, site.pins().stream().map(SitePin::name)));
    }

    private void readPads(JsonIn in) throws BadInput {
        in.beginArray();
        while (in.more()) {
            readPad(in);
        }
        in.endArray();
    }

    private void readPad(JsonIn in) throws BadInput {
        String name = "";
        int tile = 0;
        String packagePin = "";
        String bank = "";
        PadDirections directions = PadDirections.BOTH;
        int data = Fabric.NOTHING;
        int enable = Fabric.NOTHING;
        PadEnable.Active active = PadEnable.Active.UNKNOWN;
        PadEnable.Unconnected unconnected = PadEnable.Unconnected.UNKNOWN;
        String setting = "";
        PadUse.Bonding bonding = PadUse.Bonding.UNKNOWN;
        PadUse.Role role = PadUse.Role.GENERAL;
        Members member = in.object(PAD);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = in.name();
                case "at" -> tile = info.readTile(in);
                case "packagePin" -> packagePin = readPackagePin(in, packagePins);
                case "bank" -> bank = info.readOptional(in, info.banks, "bank");
                case "directions" -> directions = in.oneOf(PadDirections.values(), EnumWords::of);
                case "data" -> data = readSiteName(in);
                case "enable" -> enable = readSiteName(in);
                case "enableActive" -> active = in.oneOf(PadEnable.Active.values(), EnumWords::of);
                case "enableUnconnected" ->
                        unconnected = in.oneOf(PadEnable.Unconnected.values(), EnumWords::of);
                case "bonded" -> bonding = PadUseMembers.readBonded(in);
                case "role" -> role = PadUseMembers.readRole(in);
                default -> setting = info.readOptional(in, info.settings, "driver setting");
            }
        }
        count(in, 1);
        int vertex =
                builder()
                        .addPad(
                                name,
                                tile,
                                packagePin,
                                bank,
                                directions,
                                data,
                                enable,
                                setting,
                                new PadUse(bonding, role),
                                new PadEnable(active, unconnected));
        if (vertex == Fabric.NOTHING) {
            throw taken(in, name);
        }
    }

    /** A pin of the package, which only one pad can have; empty for none. */
    static String readPackagePin(JsonIn in, Set<String> taken) throws BadInput {
        String pin = in.text(padward.fabric.FabricLimits.NAME_LENGTH);
        if (!pin.isEmpty() && !taken.add(pin)) {
            throw in.fault("a pin that only one pad has", Text.quote(pin) + " again");
        }
        return pin;
    }

    private int readSiteName(JsonIn in) throws BadInput {
        String name = in.text(padward.fabric.FabricLimits.NAME_LENGTH);
        int site = name.isEmpty() ? Fabric.NOTHING : builder().findSite(name);
        if (site == Fabric.NOTHING && !name.isEmpty()) {
            throw in.fault("the name of a site, or an empty text", Text.quote(name));
        }
        return site;
    }

    private void readEdges(JsonIn in, EdgeKind kind) throws BadInput {
        in.beginArray();
        while (in.more()) {
            in.beginArray();
            int from = readSource(in);
            int to = readVertex(in);
            if (from == to) {
                throw in.fault("two different ends", "the same twice");
            }
            Delay delay = in.delayInside();
            if (in.more()) {
                builder().setSwitchTile(from, to, info.readTile(in));
            }
            in.endArray();
            if (edges++ >= FileLimits.EDGES) {
                throw in.fault(
                        "at most " + FileLimits.EDGES + " switches and fixed connections", "more");
            }
            builder().addEdge(from, to, kind, delay);
        }
        in.endArray();
    }

    /** Most edges begin at the same vertex as the one before. */
    private int readSource(JsonIn in) throws BadInput {
        String name = in.name();
        if (!name.equals(lastName)) {
            lastVertex = findVertex(in, name);
            lastName = name;
        }
        return lastVertex;
    }

    private int readVertex(JsonIn in) throws BadInput {
        return findVertex(in, in.name());
    }

    private int findVertex(JsonIn in, String name) throws BadInput {
        int vertex = builder().findVertex(name);
        if (vertex == Fabric.NOTHING) {
            throw in.fault("the name of a wire, a pin (site.pin) or a pad", Text.quote(name));
        }
        return vertex;
    }
}
