package padward.lesson.condition;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.design.Design;

/**
 * The design with all kept changes still has a cell, net or port, or no longer has it.
 *
 * @param kind what it is
 * @param name its name
 * @param present whether it must be there
 */
public record DesignCondition(Kind kind, String name, boolean present) implements Condition {
    /** What can be asked about. */
    public enum Kind {
        /** A cell. */
        CELL,
        /** A net. */
        NET,
        /** A port. */
        PORT;

        /** The word in files. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Override
    public boolean isFulfilled(WindowState state) {
        return isIn(state.now()) == present;
    }

    private boolean isIn(Design design) {
        return switch (kind) {
            case CELL -> design.findCell(name).isPresent();
            case NET -> design.findNet(name).isPresent();
            case PORT -> design.ports().stream().anyMatch(p -> p.name().equals(name));
        };
    }

    @Override
    public String toText() {
        return kind.label()
                + " "
                + name
                + (present ? " is still in the design" : " has been removed");
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                kind.label()
                        + " "
                        + name
                        + (isIn(state.now()) ? " is still in the design" : " has been removed"));
    }

    @Override
    public List<Missing> missing(Design design) {
        return isIn(design) ? List.of() : List.of(new Missing(kind.label(), name));
    }
}
