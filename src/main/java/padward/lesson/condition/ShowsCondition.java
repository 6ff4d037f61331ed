package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Design;
import padward.design.PortDirection;
import padward.watch.condition.ConditionNetNames;
import padward.watch.condition.ConditionParser;
import padward.watch.condition.ConditionValue;
import padward.watch.simulate.DesignSimulation;

/**
 * The design with all kept changes shows a condition on a pad, whichever circuit does it: the
 * written design is simulated for all levels of the condition's nets.
 *
 * @param pad the pad, by any of its names
 * @param when the condition, which compares no cycles
 * @param late how many clock cycles later the pad shows it
 */
public record ShowsCondition(String pad, String when, int late) implements Condition {
    private static final int MOST_NETS = 10;
    private static final long SEED = 9;

    @Override
    public boolean isFulfilled(WindowState state) {
        Design now = state.now();
        List<Integer> found = Condition.pads(state.original(), pad);
        if (found.size() != 1
                || now.findPortOn(found.get(0))
                        .filter(p -> p.direction() != PortDirection.IN)
                        .isEmpty()) {
            return false;
        }
        try {
            return isShown(now, found.get(0), added(state));
        } catch (BadInput unknown) {
            // The pad depends on something else than the condition's nets.
            return false;
        }
    }

    private static Set<String> added(WindowState state) {
        return state.now().cells().stream()
                .map(Cell::name)
                .filter(c -> state.original().findCell(c).isEmpty())
                .collect(Collectors.toSet());
    }

    private boolean isShown(Design design, int at, Set<String> cells) throws BadInput {
        padward.watch.condition.Condition condition =
                ConditionParser.parse("when", when, ConditionNetNames.of(design));
        List<String> nets = List.copyOf(condition.nets());
        if (nets.size() > MOST_NETS || condition.needsClock()) {
            return false;
        }
        Random random = new Random(SEED);
        DesignSimulation simulation = new DesignSimulation(design);
        for (int levels = 0; levels < 1 << nets.size(); levels++) {
            begin(simulation, nets, levels);
            for (int cycle = 0; cycle < late; cycle++) {
                for (String clock : clocks(design)) {
                    simulation.edge(clock, cells);
                }
                begin(simulation, nets, random.nextInt(1 << nets.size()));
            }
            int bits = levels;
            ConditionValue value = new ConditionValue(n -> (bits >> nets.indexOf(n) & 1) != 0);
            if (simulation.pad(at) != value.of(condition)) {
                return false;
            }
        }
        return true;
    }

    private static List<String> clocks(Design design) {
        return design.nets().stream().filter(n -> n.clock()).map(n -> n.name()).toList();
    }

    private static void begin(DesignSimulation simulation, List<String> nets, int levels) {
        simulation.begin(
                net -> {
                    int index = nets.indexOf(net);
                    return index < 0 ? Optional.empty() : Optional.of((levels >> index & 1) != 0);
                });
    }

    @Override
    public String toText() {
        String cycles = late == 1 ? ", one cycle later" : ", " + late + " cycles later";
        return "pad " + pad + " shows “" + when + "”" + (late == 0 ? " at once" : cycles);
    }

    @Override
    public Optional<String> seen(WindowState state) {
        List<Integer> found = Condition.pads(state.original(), pad);
        boolean shown = found.size() == 1 && state.now().findPortOn(found.get(0)).isPresent();
        return Optional.of(
                shown ? "pad " + pad + " shows something else" : "pad " + pad + " shows nothing");
    }

    @Override
    public List<Missing> missing(Design design) {
        List<Missing> result = new ArrayList<>(Condition.missing(design, List.of(), List.of(pad)));
        try {
            padward.watch.condition.Condition condition =
                    ConditionParser.parse("when", when, ConditionNetNames.of(design));
            if (condition.needsClock() || condition.nets().size() > MOST_NETS) {
                result.add(
                        new Missing(
                                "condition of at most " + MOST_NETS + " nets, without edges",
                                when));
            }
        } catch (BadInput fault) {
            result.add(new Missing("condition", when + " (" + fault.getMessage() + ")"));
        }
        return result;
    }
}
