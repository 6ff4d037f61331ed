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
 * The clearance that is looked at frees something, or is of a kind; what is empty does not matter.
 *
 * @param frees name of a cell or net among its obstacles
 * @param cost what the costliest of its obstacles is
 */
public record OptionChosen(Optional<String> frees, Optional<Cost> cost) implements Condition {
    /** What freeing an obstacle means, the least first. */
    public enum Cost {
        /** It only fed the port being given up. */
        REMOVABLE,
        /** It can make room, and still do its work. */
        MOVABLE,
        /** Named endpoints lose their signal. */
        LOSES_FUNCTION;

        /** The word that files use. */
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
    public boolean holds(WindowState state) {
        return state.option().filter(this::fits).isPresent();
    }

    private boolean fits(WhyBlocked.Option option) {
        List<Removal> removals = option.option().removals();
        return frees.map(n -> removals.stream().anyMatch(r -> r.occupant().name().equals(n)))
                        .orElse(true)
                && cost.map(c -> worst(removals).equals(Optional.of(c))).orElse(true);
    }

    private static Optional<Cost> worst(List<Removal> removals) {
        return removals.stream().map(r -> Cost.of(r.consequence())).max(Comparator.naturalOrder());
    }

    @Override
    public String toText() {
        List<String> parts = new ArrayList<>();
        frees.ifPresent(n -> parts.add("frees " + n));
        cost.ifPresent(c -> parts.add("is " + c.label()));
        return "the clearance looked at " + String.join(" and ", parts);
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                state.option()
                        .flatMap(o -> worst(o.option().removals()))
                        .map(c -> "the clearance looked at is " + c.label())
                        .orElse("there is no clearance to look at"));
    }

    @Override
    public List<Missing> missing(Design design) {
        return frees.filter(n -> design.findCell(n).isEmpty() && design.findNet(n).isEmpty())
                .map(n -> List.of(new Missing("cell or net", n)))
                .orElse(List.of());
    }
}
