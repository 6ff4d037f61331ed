package padward.synth;

import java.util.ArrayList;
import java.util.List;
import padward.fabric.delay.Delay;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.PatternSpec;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.TileType;
import padward.fabric.pattern.PatternSpec.WireKind;
import padward.fabric.pattern.SwitchBoxTopology;

/**
 * Adds long lines to a made fabric: wires that run 28 tiles and can be left at every seventh. They
 * are entered from the wires that run 7 tiles and from each other, so that a route across a large
 * chip takes a dozen of them instead of a hundred others. Like every wire of a pattern, one that
 * would leave the grid does not exist.
 */
final class LongLines {
    private static final int LENGTH = 28;
    private static final List<Integer> TAPS = List.of(7, 14, 21);
    private static final int EACH_DIRECTION = 2;
    private static final Delay DELAY = new Delay(440, 770);

    private LongLines() {}

    /** The same pattern with long lines in every tile that has wires of three lengths. */
    static PatternSpec addTo(PatternSpec spec) {
        List<WireKind> wires = new ArrayList<>(spec.wires());
        List<String> names = new ArrayList<>();
        for (WireKind wire : spec.wires()) {
            if (FabricMaker.DIRECTIONS.stream()
                    .anyMatch(d -> wire.name().equals(FabricMaker.kind(1, d)))) {
                String name = FabricMaker.kind(LENGTH, wire.name().substring("run1_".length()));
                names.add(name);
                wires.add(
                        new WireKind(
                                name,
                                LENGTH * wire.dx(),
                                LENGTH * wire.dy(),
                                EACH_DIRECTION,
                                DELAY,
                                false,
                                wire.use(),
                                TAPS));
            }
        }
        return new PatternSpec(
                spec.info(),
                spec.columns(),
                spec.rows(),
                wires,
                spec.tileTypes().stream().map(type -> withLongLines(type, names)).toList(),
                spec.areas(),
                spec.padOverrides());
    }

    private static TileType withLongLines(TileType type, List<String> names) {
        List<String> wires = new ArrayList<>(type.wires());
        wires.addAll(names);
        List<Rule> rules = new ArrayList<>(type.rules());
        for (String one : names) {
            for (String direction : FabricMaker.DIRECTIONS) {
                String other = FabricMaker.kind(LENGTH, direction);
                String middle = FabricMaker.kind(7, direction);
                if (!MadeTileTypes.opposite(one, other)) {
                    rules.add(
                            MadeTileTypes.toggle(
                                    one,
                                    other,
                                    new IndexMap.ByTopology(SwitchBoxTopology.UNIVERSAL),
                                    MadeTileTypes.BOX));
                    rules.add(
                            MadeTileTypes.toggle(
                                    one, middle, new IndexMap.Same(), MadeTileTypes.BOX));
                    rules.add(
                            MadeTileTypes.toggle(
                                    middle, one, new IndexMap.Same(), MadeTileTypes.BOX));
                    rules.add(
                            MadeTileTypes.toggle(
                                    one,
                                    FabricMaker.kind(1, direction),
                                    new IndexMap.Spread(1, 1),
                                    MadeTileTypes.BOX));
                }
            }
        }
        return new TileType(type.name(), wires, type.sites(), type.pads(), rules);
    }
}
