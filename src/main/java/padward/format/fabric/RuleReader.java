package padward.format.fabric;

import com.google.gson.stream.JsonToken;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.fabric.Delay;
import padward.fabric.EdgeKind;
import padward.fabric.FabricLimits;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.IndexPair;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.WireKind;
import padward.fabric.pattern.Side;
import padward.fabric.pattern.SwitchBoxTopology;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Shape;
import padward.format.source.Nearest;
import padward.format.source.Text;

/** Reads the rules of a switch box, and spells out the short form for a whole box. */
final class RuleReader {
    private static final Shape RULE =
            Shape.of("from", "to", "map", "switch", "connection", "delay_ps", "box", "wires");
    private static final Shape MAP = Shape.of("rotate", "spread", "shift", "pairs");

    private final Names wireNames;
    private final List<WireKind> wires;
    private final Names switchNames;
    private final List<Delay> switches;

    RuleReader(Names wireNames, List<WireKind> wires, Names switchNames, List<Delay> switches) {
        this.wireNames = wireNames;
        this.wires = wires;
        this.switchNames = switchNames;
        this.switches = switches;
    }

    /** Reads one element of {@code rules} and adds the rule or rules that it means. */
    void read(JsonIn in, List<Rule> rules) throws BadInput {
        String from = "";
        String to = "";
        IndexMap map = new IndexMap.Same();
        Delay delay = Delay.ZERO;
        boolean connection = false;
        SwitchBoxTopology box = SwitchBoxTopology.DISJOINT;
        List<WireKind> boxed = List.of();
        Members member = in.object(RULE);
        while (member.next()) {
            switch (member.name()) {
                case "from" -> from = in.name();
                case "to" -> to = in.name();
                case "map" -> map = readMap(in);
                case "switch" -> delay = switches.get(switchNames.readKnown(in));
                case "connection" -> connection = in.flag();
                case "delay_ps" -> delay = in.delay();
                case "box" -> box = in.oneOf(SwitchBoxTopology.values(), EnumWords::of);
                default -> boxed = in.list(this::readBoxed);
            }
        }
        EdgeKind kind = connection ? EdgeKind.CONNECTION : EdgeKind.SWITCH;
        if (member.has("box")) {
            require(in, member, "wires", "switch");
            forbid(in, member, "box", "from", "to", "map", "connection", "delay_ps");
            addBox(rules, new IndexMap.ByTopology(box), boxed, delay);
            return;
        }
        require(in, member, "from", "to", connection ? "delay_ps" : "switch");
        forbid(
                in,
                member,
                connection ? "connection" : "switch",
                connection ? "switch" : "delay_ps",
                "wires");
        rules.add(new Rule(from, to, map, kind, delay));
    }

    private static void require(JsonIn in, Members member, String... names) throws BadInput {
        for (String name : names) {
            if (!member.has(name)) {
                throw in.fault("member " + Text.quote(name), "none");
            }
        }
    }

    private static void forbid(JsonIn in, Members member, String other, String... names)
            throws BadInput {
        for (String name : names) {
            if (member.has(name)) {
                throw in.fault(
                        "no " + Text.quote(name) + " together with " + Text.quote(other), "it");
            }
        }
    }

    private WireKind readBoxed(JsonIn in) throws BadInput {
        WireKind kind = wires.get(wireNames.readKnown(in));
        if ((kind.dx() == 0) == (kind.dy() == 0)) {
            throw in.fault(
                    "a wire along one axis (others have no sides)",
                    Text.quote(kind.name()) + " with step " + kind.dx() + "," + kind.dy());
        }
        return kind;
    }

    /** From every wire to every other that does not leave by the side where the first came in. */
    private static void addBox(List<Rule> rules, IndexMap map, List<WireKind> boxed, Delay delay) {
        for (WireKind from : boxed) {
            Side entered = Side.ofStep(from.dx(), from.dy()).opposite();
            for (WireKind to : boxed) {
                if (entered != Side.ofStep(to.dx(), to.dy())) {
                    rules.add(new Rule(from.name(), to.name(), map, EdgeKind.SWITCH, delay));
                }
            }
        }
    }

    private IndexMap readMap(JsonIn in) throws BadInput {
        return in.peek() == JsonToken.BEGIN_OBJECT ? readCountedMap(in) : readNamedMap(in);
    }

    private static IndexMap readNamedMap(JsonIn in) throws BadInput {
        String word = in.word();
        return switch (word) {
            case "same" -> new IndexMap.Same();
            case "mirror" -> new IndexMap.Mirror();
            case "all" -> new IndexMap.All();
            case "disjoint" -> new IndexMap.ByTopology(SwitchBoxTopology.DISJOINT);
            case "universal" -> new IndexMap.ByTopology(SwitchBoxTopology.UNIVERSAL);
            case "wilton" -> new IndexMap.ByTopology(SwitchBoxTopology.WILTON);
            default ->
                    throw in.fault(
                            "one of same, mirror, all, disjoint, universal, wilton, or an object",
                            Nearest.describe(
                                    word,
                                    Stream.of(
                                            "same",
                                            "mirror",
                                            "all",
                                            "disjoint",
                                            "universal",
                                            "wilton")));
        };
    }

    private static IndexMap readCountedMap(JsonIn in) throws BadInput {
        int rotate = 0;
        int spread = 0;
        int shift = 0;
        List<IndexPair> pairs = new ArrayList<>();
        Members member = in.object(MAP);
        while (member.next()) {
            switch (member.name()) {
                case "rotate" -> rotate = in.integer(-FabricLimits.GROUP, FabricLimits.GROUP);
                case "spread" -> spread = in.integer(1, FabricLimits.GROUP);
                case "shift" -> shift = in.integer(-FabricLimits.GROUP, FabricLimits.GROUP);
                default -> pairs = in.list(RuleReader::readPair);
            }
        }
        int kinds =
                (member.has("rotate") ? 1 : 0)
                        + (member.has("spread") ? 1 : 0)
                        + (member.has("pairs") ? 1 : 0);
        if (kinds != 1) {
            throw in.fault("one of rotate, spread, pairs", kinds + " of them");
        }
        if (member.has("shift") && !member.has("spread")) {
            throw in.fault("\"shift\" only together with \"spread\"", "it alone");
        }
        if (member.has("rotate")) {
            return new IndexMap.Rotate(rotate);
        }
        return member.has("spread")
                ? new IndexMap.Spread(spread, shift)
                : new IndexMap.Pairs(pairs);
    }

    private static IndexPair readPair(JsonIn in) throws BadInput {
        int[] pair = PatternReader.readPair(in, 0, Integer.MAX_VALUE);
        return new IndexPair(pair[0], pair[1]);
    }
}
