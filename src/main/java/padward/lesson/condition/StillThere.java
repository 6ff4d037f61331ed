package padward.lesson.condition;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.design.Design;

/**
 * Something of the design is still there, or is gone, with what is kept.
 *
 * @param sort what it is
 * @param name its name
 * @param there whether it shall be there
 */
public record StillThere(Sort sort, String name, boolean there) implements Condition {
    /** What can be there. */
    public enum Sort {
        /** A cell. */
        CELL,
        /** A net. */
        NET,
        /** A port. */
        PORT;

        /** The word that files use. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Override
    public boolean holds(WindowState state) {
        return isIn(state.now()) == there;
    }

    private boolean isIn(Design design) {
        return switch (sort) {
            case CELL -> design.findCell(name).isPresent();
            case NET -> design.findNet(name).isPresent();
            case PORT -> design.ports().stream().anyMatch(p -> p.name().equals(name));
        };
    }

    @Override
    public String toText() {
        return sort.label() + " " + name + (there ? " is still in the design" : " is gone");
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                sort.label() + " " + name + (isIn(state.now()) ? " is there" : " is gone"));
    }

    @Override
    public List<Missing> missing(Design design) {
        return isIn(design) ? List.of() : List.of(new Missing(sort.label(), name));
    }
}
