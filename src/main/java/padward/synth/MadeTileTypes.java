package padward.synth;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.fabric.CellFunction;
import padward.fabric.EdgeKind;
import padward.fabric.PinDirection;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadEnable;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.IndexPair;
import padward.fabric.pattern.PatternSpec.PadGroup;
import padward.fabric.pattern.PatternSpec.PinGroup;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.SiteGroup;
import padward.fabric.pattern.PatternSpec.Through;
import padward.fabric.pattern.PatternSpec.TileType;
import padward.fabric.pattern.SwitchBoxTopology;

/** The tile types of made fabrics. */
final class MadeTileTypes {
    private static final List<String> SHORT = kinds(1);
    private static final List<String> MIDDLE = kinds(3);
    private static final List<String> LONG = kinds(7);

    /** Most wires of one kind that begin in a tile. */
    private static final int WIRES_OF_A_KIND = 6;

    static final Delay BOX = new Delay(40, 70);
    private static final Delay PIN = new Delay(30, 50);
    private static final Delay CLOCK = new Delay(20, 35);
    private static final Delay AROUND = new Delay(180, 300);

    /** What lookup tables on logic sites do; their contents are the setting {@code contents}. */
    static final CellFunction.LookupTable LOOKUP_TABLE =
            new CellFunction.LookupTable(
                    List.of("in[0]", "in[1]", "in[2]", "in[3]"),
                    "out",
                    "contents",
                    CellFunction.Digits.HEXADECIMAL,
                    "");

    /** What registers on logic sites do. */
    static final CellFunction.Register REGISTER =
            new CellFunction.Register(
                    "in[0]",
                    "clk",
                    "out",
                    Optional.empty(),
                    Optional.empty(),
                    CellFunction.Initial.LOW,
                    Optional.of("initial"),
                    Optional.of(new Delay(60, 110)),
                    Optional.of(new Delay(40, 80)),
                    Optional.of(new Delay(10, 20)));

    private MadeTileTypes() {}

    static List<TileType> all(int pads) {
        return List.of(
                type("corner", List.of(), List.of(), boxRules(), List.of()),
                block("logic", logic()),
                block("memory", memory()),
                block("multiplier", multiplier()),
                type("spine", List.of(), List.of(), spineRules(), List.of("clock_n")),
                rim("rim", pads, List.of()),
                rim("rim-around", pads, aroundRules(pads)),
                rim("rim-clock", pads, clockSourceRules()),
                rim("rim-top", pads, spread("clock_n", List.of("clock_e", "clock_w"))));
    }

    /** The four kinds of wires, one for each direction, of that length in tiles. */
    private static List<String> kinds(int length) {
        return FabricMaker.DIRECTIONS.stream().map(d -> FabricMaker.kind(length, d)).toList();
    }

    private static TileType type(
            String name,
            List<SiteGroup> sites,
            List<PadGroup> pads,
            List<Rule> rules,
            List<String> moreWires) {
        List<String> wires =
                Stream.of(SHORT, MIDDLE, LONG, List.of("clock_e", "clock_w"), moreWires)
                        .flatMap(List::stream)
                        .toList();
        return new TileType(name, wires, sites, pads, rules);
    }

    private static TileType block(String name, SiteGroup site) {
        List<Rule> rules = new ArrayList<>(boxRules());
        for (PinGroup pin : site.pins()) {
            String pins = site.name() + "." + pin.name();
            if (pin.name().equals("clk")) {
                rules.addAll(spread("clock_e", List.of(pins)));
                rules.addAll(spread("clock_w", List.of(pins)));
            } else if (pin.direction() == PinDirection.IN) {
                rules.addAll(toPins(pins));
            } else {
                rules.addAll(fromPins(pin, pins));
            }
        }
        return type(name, List.of(site), List.of(), rules, List.of());
    }

    private static SiteGroup logic() {
        return new SiteGroup(
                "cell",
                2,
                "logic",
                List.of("lookup-table", "register"),
                List.of(in("in", 4), in("clk", 1), out("out", 1)),
                List.of(new Through("in", "out", new Delay(90, 160))));
    }

    private static SiteGroup memory() {
        return new SiteGroup(
                "memory",
                1,
                "memory",
                List.of("memory"),
                List.of(in("address", 4), in("data", 4), in("write", 1), in("clk", 1), out("q", 4)),
                List.of());
    }

    private static SiteGroup multiplier() {
        return new SiteGroup(
                "multiplier",
                1,
                "multiplier",
                List.of("multiplier"),
                List.of(in("a", 4), in("b", 4), out("p", 8)),
                List.of());
    }

    private static TileType rim(String name, int pads, List<Rule> more) {
        List<Rule> rules = new ArrayList<>(boxRules());
        for (String register : List.of("outreg", "enreg", "inreg")) {
            rules.addAll(spread("clock_e", List.of(register + ".clk")));
            rules.addAll(spread("clock_w", List.of(register + ".clk")));
        }
        rules.addAll(toPins("outreg.d"));
        rules.addAll(toPins("enreg.d"));
        rules.addAll(fromPins(out("q", pads), "inreg.q"));
        rules.add(connection("outreg.q", "pad", new Delay(20, 30)));
        rules.add(connection("pad", "inreg.d", new Delay(250, 400)));
        rules.addAll(more);
        List<SiteGroup> sites =
                List.of(register("outreg", pads), register("enreg", pads), register("inreg", pads));
        PadGroup pad =
                new PadGroup(
                        "pad",
                        pads,
                        PadDirections.BOTH,
                        "outreg",
                        "enreg",
                        "lv33-8",
                        new PadEnable(PadEnable.Active.HIGH, PadEnable.Unconnected.ON));
        boolean spine = name.equals("rim-clock");
        return type(name, sites, List.of(pad), rules, spine ? List.of("clock_n") : List.of());
    }

    private static SiteGroup register(String name, int count) {
        return new SiteGroup(
                name,
                count,
                "io-register",
                List.of("io-register"),
                List.of(in("d", 1), in("clk", 1), out("q", 1)),
                List.of(new Through("d", "q", new Delay(130, 220))));
    }

    private static PinGroup in(String name, int count) {
        return new PinGroup(name, count, PinDirection.IN);
    }

    private static PinGroup out(String name, int count) {
        return new PinGroup(name, count, PinDirection.OUT);
    }

    private static List<Rule> boxRules() {
        List<Rule> rules = new ArrayList<>();
        box(rules, SHORT, SwitchBoxTopology.WILTON);
        box(rules, MIDDLE, SwitchBoxTopology.UNIVERSAL);
        box(rules, LONG, SwitchBoxTopology.UNIVERSAL);
        for (List<String> longer : List.of(MIDDLE, LONG)) {
            for (String from : longer) {
                for (String to : SHORT) {
                    if (!opposite(from, to)) {
                        rules.add(toggle(from, to, new IndexMap.Spread(1, 1), BOX));
                        rules.add(toggle(to, from, new IndexMap.Spread(2, 1), BOX));
                    }
                }
            }
        }
        rules.add(toggle("clock_e", "clock_e", new IndexMap.Same(), CLOCK));
        rules.add(toggle("clock_w", "clock_w", new IndexMap.Same(), CLOCK));
        return rules;
    }

    private static void box(List<Rule> rules, List<String> wires, SwitchBoxTopology topology) {
        for (String from : wires) {
            for (String to : wires) {
                if (!opposite(from, to)) {
                    rules.add(toggle(from, to, new IndexMap.ByTopology(topology), BOX));
                }
            }
        }
    }

    /** A signal does not turn back to where it came from: the last letter is the direction. */
    static boolean opposite(String one, String other) {
        String pair = one.substring(one.length() - 1) + other.charAt(other.length() - 1);
        return List.of("ew", "we", "ns", "sn").contains(pair);
    }

    private static List<Rule> spineRules() {
        List<Rule> rules = new ArrayList<>(boxRules());
        rules.addAll(spread("clock_n", List.of("clock_n", "clock_e", "clock_w")));
        return rules;
    }

    private static List<Rule> clockSourceRules() {
        return spread(
                "inreg.q", List.of("clock_n", "clock_e", "clock_w", "outreg.clk", "enreg.clk"));
    }

    private static List<Rule> spread(String from, List<String> targets) {
        return targets.stream().map(t -> toggle(from, t, new IndexMap.All(), CLOCK)).toList();
    }

    private static List<Rule> toPins(String pins) {
        return Stream.concat(SHORT.stream(), MIDDLE.stream())
                .map(w -> toggle(w, pins, new IndexMap.Spread(2, 1), PIN))
                .toList();
    }

    /** Each wire is driven by two of the pins where there are more pins than wires of a kind. */
    private static List<Rule> fromPins(PinGroup group, String pins) {
        int each = group.count() > WIRES_OF_A_KIND ? 2 : 1;
        return Stream.of(SHORT, MIDDLE, LONG)
                .flatMap(List::stream)
                .map(w -> toggle(pins, w, new IndexMap.Spread(each, 1), PIN))
                .toList();
    }

    private static List<Rule> aroundRules(int pads) {
        List<IndexPair> pairs = new ArrayList<>();
        for (int i = 0; i < pads; i++) {
            pairs.add(new IndexPair(i + 1, i));
        }
        return SHORT.stream()
                .map(w -> toggle(w, "pad", new IndexMap.Pairs(pairs), AROUND))
                .toList();
    }

    static Rule toggle(String from, String to, IndexMap map, Delay delay) {
        return new Rule(from, to, map, EdgeKind.SWITCH, delay);
    }

    private static Rule connection(String from, String to, Delay delay) {
        return new Rule(from, to, new IndexMap.Same(), EdgeKind.CONNECTION, delay);
    }
}
