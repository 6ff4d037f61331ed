package padward.format.bareboard;

/**
 * A pin of a part on a net of a board.
 *
 * @param net name of the net
 * @param part reference designator of the part, {@code U7}
 * @param pin its pin
 */
public record PartPin(String net, String part, String pin) {}
