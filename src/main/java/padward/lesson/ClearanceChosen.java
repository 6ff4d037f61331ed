package padward.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.breakout.WhyBlocked;
import padward.clearance.Consequence;
import padward.clearance.Removal;
import padward.design.Design;

/**
 * The clearance that is looked at frees something, or is of a kind; what is empty does not matter.
 *
 * @param frees name of a cell or net among its obstacles
 * @param cost what the costliest of its obstacles is
 */
public record ClearanceChosen(Optional<String> frees, Optional<Cost> cost) implements Condition {
    /** What freeing an obstacle means, the least first. */
    public enum Cost {
        /** It only fed the port being given up. */
        SPARE,
        /** It can make room, and still do its work. */
        MOVABLE,
        /** Named endpoints lose their signal. */
        COSTLY;

        /** The word that files use. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }

        static Cost of(Consequence consequence) {
            if (consequence instanceof Consequence.Spare) {
                return SPARE;
            }
            return consequence instanceof Consequence.Movable ? MOVABLE : COSTLY;
        }
    }

    @Override
    public boolean holds(WindowState state) {
        return state.clearance().filter(this::fits).isPresent();
    }

    private boolean fits(WhyBlocked.Option option) {
        List<Removal> removals = option.clearance().removals();
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
                state.clearance()
                        .flatMap(o -> worst(o.clearance().removals()))
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
