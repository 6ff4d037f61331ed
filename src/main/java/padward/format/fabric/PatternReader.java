package padward.format.fabric;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Delay;
import padward.fabric.FabricLimits;
import padward.fabric.PadDirections;
import padward.fabric.PadUse;
import padward.fabric.pattern.PatternSpec;
import padward.fabric.pattern.PatternSpec.Area;
import padward.fabric.pattern.PatternSpec.PadOverride;
import padward.fabric.pattern.PatternSpec.TileType;
import padward.fabric.pattern.PatternSpec.WireKind;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.Source;

/** Reads the pattern form of a fabric as records. One object reads one file. */
final class PatternReader {
    private static final Shape WIRE =
            Shape.of("name!", "step!", "count", "delay_ps!", "twoWay", "use");
    private static final Shape SWITCH = Shape.of("name!", "delay_ps!");
    private static final Shape AREA = Shape.of("tile!", "columns", "rows", "every");
    private static final Shape PAD =
            Shape.of("pad!", "packagePin", "bank", "directions", "setting", "bonded", "role");

    private final InfoParts info = new InfoParts();
    private final Names wireNames = new Names("kind of wire");
    private final Names switchNames = new Names("switch");
    private final Names tileNames = new Names("type of tile");
    private final Names padNames = new Names("entry of pads");
    private final Set<String> packagePins = new HashSet<>();
    private final List<WireKind> wires = new ArrayList<>();
    private final List<Delay> switches = new ArrayList<>();
    private List<TileType> tiles = List.of();
    private List<Area> areas = List.of();
    private List<PadOverride> pads = List.of();

    PatternSpec read(Source source, Progress progress) throws BadInput {
        TileReader tile = new TileReader(info, tileNames, wireNames, wires, switchNames, switches);
        info.addTo(new Passes(), Optional.of(wireNames))
                .part("wires!", in -> wires.addAll(in.list(this::readWire)))
                .part("switches", in -> switches.addAll(in.list(this::readSwitch)))
                .part(
                        "tiles!",
                        in -> tiles = in.list(tile::read),
                        "wires",
                        "switches",
                        "cellKinds",
                        "settings")
                .part("layout!", in -> areas = in.list(this::readArea), "tiles", "grid")
                .part("pads", in -> pads = in.list(this::readPad), "settings", "banks")
                .run(source, progress);
        return new PatternSpec(
                info.toInfo(), info.columns(), info.rows(), wires, tiles, areas, pads);
    }

    private WireKind readWire(JsonIn in) throws BadInput {
        String name = "";
        int[] step = new int[2];
        int count = 1;
        Delay delay = Delay.ZERO;
        boolean twoWay = false;
        String use = "general";
        Members member = in.object(WIRE);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = wireNames.readNew(in);
                case "step" -> step = readPair(in, -FabricLimits.GRID_SIDE, FabricLimits.GRID_SIDE);
                case "count" -> count = in.integer(1, FabricLimits.GROUP);
                case "delay_ps" -> delay = in.delay();
                case "twoWay" -> twoWay = in.flag();
                default -> use = in.word();
            }
        }
        return new WireKind(name, step[0], step[1], count, delay, twoWay, use);
    }

    static int[] readPair(JsonIn in, int least, int greatest) throws BadInput {
        in.beginArray();
        int[] pair = {in.integer(least, greatest), in.integer(least, greatest)};
        in.endArray();
        return pair;
    }

    private Delay readSwitch(JsonIn in) throws BadInput {
        Delay delay = Delay.ZERO;
        Members member = in.object(SWITCH);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> switchNames.readNew(in);
                default -> delay = in.delay();
            }
        }
        return delay;
    }

    private Area readArea(JsonIn in) throws BadInput {
        String tile = "";
        int[] across = {0, info.columns() - 1};
        int[] up = {0, info.rows() - 1};
        int every = 1;
        Members member = in.object(AREA);
        while (member.next()) {
            switch (member.name()) {
                case "tile" -> tile = tiles.get(tileNames.readKnown(in)).name();
                case "columns" -> across = readRange(in, info.columns());
                case "rows" -> up = readRange(in, info.rows());
                default -> every = in.integer(1, FabricLimits.GRID_SIDE);
            }
        }
        return new Area(tile, across[0], across[1], up[0], up[1], every);
    }

    private static int[] readRange(JsonIn in, int size) throws BadInput {
        int[] range = readPair(in, 0, size - 1);
        if (range[0] > range[1]) {
            throw in.fault("[first, last]", "[" + range[0] + ", " + range[1] + "]");
        }
        return range;
    }

    private PadOverride readPad(JsonIn in) throws BadInput {
        String pad = "";
        String packagePin = "";
        String bank = "";
        Optional<PadDirections> directions = Optional.empty();
        String setting = "";
        PadUse.Bonding bonding = PadUse.Bonding.UNKNOWN;
        PadUse.Role role = PadUse.Role.GENERAL;
        Members member = in.object(PAD);
        while (member.next()) {
            switch (member.name()) {
                case "pad" -> pad = padNames.readNew(in);
                case "packagePin" -> packagePin = ExplicitReader.readPackagePin(in, packagePins);
                case "bank" -> bank = info.readOptional(in, info.banks, "bank");
                case "directions" ->
                        directions = Optional.of(in.oneOf(PadDirections.values(), EnumWords::of));
                case "bonded" -> bonding = PadUseMembers.readBonded(in);
                case "role" -> role = PadUseMembers.readRole(in);
                default -> setting = info.readOptional(in, info.settings, "driver setting");
            }
        }
        return new PadOverride(
                pad, packagePin, bank, directions, setting, new PadUse(bonding, role));
    }
}
