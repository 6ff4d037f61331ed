package padward.design;

import java.util.List;
import java.util.Optional;

/**
 * The board around the chip.
 *
 * @param name name of the board, {@code ""} when no board is known
 * @param note free text; says "invented" where it is
 * @param wirings at most one per pad
 */
public record Board(String name, String note, List<PadWiring> wirings) {
    /** No board is known. */
    public static final Board UNKNOWN = new Board("", "", List.of());

    /** Copies the wirings. */
    public Board {
        wirings = List.copyOf(wirings);
    }

    /** What is wired to a pad, by the pad's index. O(wirings). */
    public Optional<PadWiring> findWiring(int pad) {
        return wirings.stream().filter(w -> w.pad() == pad).findFirst();
    }
}
