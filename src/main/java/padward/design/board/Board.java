package padward.design.board;

import java.util.List;
import java.util.Optional;

/**
 * The board around the chip.
 *
 * @param name name of the board, {@code ""} when no board is known
 * @param note free text; says "invented" where it is
 * @param wirings at most one per pad
 * @param headers headers whose pins can be drawn
 */
public record Board(String name, String note, List<PadWiring> wirings, List<BoardHeader> headers) {
    /** No board is known. */
    public static final Board UNKNOWN = new Board("", "", List.of());

    /** Copies the lists. */
    public Board {
        wirings = List.copyOf(wirings);
        headers = List.copyOf(headers);
    }

    /** A board that states nothing of its headers' geometry. */
    public Board(String name, String note, List<PadWiring> wirings) {
        this(name, note, wirings, List.of());
    }

    /** Whether anything is known of it. */
    public boolean isKnown() {
        return !name.isEmpty() || !note.isEmpty() || !wirings.isEmpty() || !headers.isEmpty();
    }

    /** What is stated of the header of that name. */
    public Optional<BoardHeader> findHeader(String header) {
        return headers.stream().filter(h -> h.name().equals(header)).findFirst();
    }

    /**
     * What is wired to a pad, by the pad's index. O(wirings), in a plain loop: lists of pads ask
     * for each of hundreds of pads at every letter that is typed.
     */
    public Optional<PadWiring> findWiring(int pad) {
        for (PadWiring wiring : wirings) {
            if (wiring.pad() == pad) {
                return Optional.of(wiring);
            }
        }
        return Optional.empty();
    }
}
