package padward.lesson.condition;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.breakout.ask.WhyBlocked;
import padward.design.Design;
import padward.unblock.move.Consequence;
import padward.unblock.weigh.Removal;

/**
 * The chosen option to unblock removes a cell or net, or has a cost; an empty member matches any.
 *
 * @param removes name of a cell or net among its obstacles
 * @param cost the cost of its most expensive obstacle
 */
public record OptionCondition(Optional<String> removes, Optional<Cost> cost) implements Condition {
    /** What removing an obstacle costs, the least first. */
    public enum Cost {
        /** It only serves the port that is disconnected from the pad. */
        REMOVABLE("is removable"),
        /** It can be rerouted or relocated, and still works. */
        MOVABLE("is movable"),
        /** Named endpoints lose their signal. */
        LOSES_FUNCTION("loses function");

        private final String clause;

        Cost(String clause) {
            this.clause = clause;
        }

        /** The word in files. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        static Cost of(Consequence consequence) {
            if (consequence instanceof Consequence.Removable) {
                return REMOVABLE;
            }
            return consequence instanceof Consequence.Movable ? MOVABLE : LOSES_FUNCTION;
        }
    }

    @Override
    public boolean isFulfilled(WindowState state) {
        return state.option().filter(this::fits).isPresent();
    }

    private boolean fits(WhyBlocked.Option option) {
        List<Removal> removals = option.option().removals();
        return removes.map(n -> removals.stream().anyMatch(r -> r.occupant().name().equals(n)))
                        .orElse(true)
                && cost.map(c -> worst(removals).equals(Optional.of(c))).orElse(true);
    }

    private static Optional<Cost> worst(List<Removal> removals) {
        return removals.stream().map(r -> Cost.of(r.consequence())).max(Comparator.naturalOrder());
    }

    @Override
    public String toText() {
        List<String> parts = new ArrayList<>();
        removes.ifPresent(n -> parts.add("the chosen option removes " + n));
        cost.ifPresent(c -> parts.add("its worst obstacle " + c.clause));
        return String.join(", and ", parts);
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                state.option()
                        .flatMap(o -> worst(o.option().removals()))
                        .map(c -> "the worst obstacle of the chosen option " + c.clause)
                        .orElse("there is no option to choose"));
    }

    @Override
    public List<Missing> missing(Design design) {
        return removes.filter(n -> design.findCell(n).isEmpty() && design.findNet(n).isEmpty())
                .map(n -> List.of(new Missing("cell or net", n)))
                .orElse(List.of());
    }
}
