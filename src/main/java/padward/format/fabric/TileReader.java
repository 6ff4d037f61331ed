package padward.format.fabric;

import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.fabric.Delay;
import padward.fabric.FabricLimits;
import padward.fabric.PadDirections;
import padward.fabric.PadEnable;
import padward.fabric.PinDirection;
import padward.fabric.pattern.PatternSpec.PadGroup;
import padward.fabric.pattern.PatternSpec.PinGroup;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.SiteGroup;
import padward.fabric.pattern.PatternSpec.Through;
import padward.fabric.pattern.PatternSpec.TileType;
import padward.fabric.pattern.PatternSpec.WireKind;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Shape;

/** Reads the types of tile of a pattern: wires, sites and pads. */
final class TileReader {
    private static final Shape TILE = Shape.of("name!", "wires", "sites", "pads", "rules");
    private static final Shape SITE =
            Shape.of("name!", "count", "kind!", "accepts", "pins!", "through");
    private static final Shape PIN = Shape.of("name!", "count", "direction!");
    private static final Shape PASS_THROUGH = Shape.of("from!", "to!", "delay_ps!");
    private static final Shape PAD =
            Shape.of(
                    "name!",
                    "count",
                    "directions!",
                    "data",
                    "enable",
                    "enableActive",
                    "enableUnconnected",
                    "setting");

    private final InfoParts info;
    private final Names tileNames;
    private final Names wireNames;
    private final List<WireKind> wires;
    private final RuleReader rules;

    TileReader(
            InfoParts info,
            Names tileNames,
            Names wireNames,
            List<WireKind> wires,
            Names switchNames,
            List<Delay> switches) {
        this.info = info;
        this.tileNames = tileNames;
        this.wireNames = wireNames;
        this.wires = wires;
        this.rules = new RuleReader(wireNames, wires, switchNames, switches);
    }

    TileType read(JsonIn in) throws BadInput {
        String name = "";
        List<String> starting = List.of();
        List<SiteGroup> sites = List.of();
        List<PadGroup> pads = List.of();
        List<Rule> all = List.of();
        Members member = in.object(TILE);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = tileNames.readNew(in);
                case "wires" -> starting = in.list(this::readWire);
                case "sites" -> sites = in.list(this::readSite);
                case "pads" -> pads = in.list(this::readPad);
                default -> all = readRules(in);
            }
        }
        return new TileType(name, starting, sites, pads, all);
    }

    private String readWire(JsonIn in) throws BadInput {
        return wires.get(wireNames.readKnown(in)).name();
    }

    private List<Rule> readRules(JsonIn in) throws BadInput {
        List<Rule> all = new ArrayList<>();
        in.beginArray();
        while (in.more()) {
            rules.read(in, all);
        }
        in.endArray();
        return all;
    }

    private SiteGroup readSite(JsonIn in) throws BadInput {
        String name = "";
        int count = 1;
        String kind = "";
        List<String> accepts = List.of();
        List<PinGroup> pins = List.of();
        List<Through> through = List.of();
        Members member = in.object(SITE);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = in.name();
                case "count" -> count = in.integer(1, FabricLimits.GROUP);
                case "kind" -> kind = in.name();
                case "accepts" -> accepts = info.readAccepts(in);
                case "pins" -> pins = in.list(TileReader::readPin);
                default -> through = in.list(TileReader::readThrough);
            }
        }
        return new SiteGroup(name, count, kind, accepts, pins, through);
    }

    private static PinGroup readPin(JsonIn in) throws BadInput {
        String name = "";
        int count = 1;
        PinDirection direction = PinDirection.IN;
        Members member = in.object(PIN);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = in.name();
                case "count" -> count = in.integer(1, FabricLimits.GROUP);
                default -> direction = in.oneOf(PinDirection.values(), EnumWords::of);
            }
        }
        return new PinGroup(name, count, direction);
    }

    private static Through readThrough(JsonIn in) throws BadInput {
        String from = "";
        String to = "";
        Delay delay = Delay.ZERO;
        Members member = in.object(PASS_THROUGH);
        while (member.next()) {
            switch (member.name()) {
                case "from" -> from = in.name();
                case "to" -> to = in.name();
                default -> delay = in.delay();
            }
        }
        return new Through(from, to, delay);
    }

    private PadGroup readPad(JsonIn in) throws BadInput {
        String name = "";
        int count = 1;
        PadDirections directions = PadDirections.BOTH;
        String data = "";
        String enable = "";
        PadEnable.Active active = PadEnable.Active.UNKNOWN;
        PadEnable.Unconnected unconnected = PadEnable.Unconnected.UNKNOWN;
        String setting = "";
        Members member = in.object(PAD);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = in.name();
                case "count" -> count = in.integer(1, FabricLimits.GROUP);
                case "directions" -> directions = in.oneOf(PadDirections.values(), EnumWords::of);
                case "data" -> data = in.word();
                case "enable" -> enable = in.word();
                case "enableActive" -> active = in.oneOf(PadEnable.Active.values(), EnumWords::of);
                case "enableUnconnected" ->
                        unconnected = in.oneOf(PadEnable.Unconnected.values(), EnumWords::of);
                default -> setting = info.readOptional(in, info.settings, "driver setting");
            }
        }
        return new PadGroup(
                name, count, directions, data, enable, setting, new PadEnable(active, unconnected));
    }
}
