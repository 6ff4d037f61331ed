package padward.design.board;

/**
 * Something on the board that is wired to a pad.
 *
 * @param kind what it is
 * @param name its name on the board, {@code J3}
 * @param pin its pin, {@code ""} when it has only one
 * @param levels what is known of its voltages
 * @param picofarads its capacitance, pF; 0 when not known
 */
public record Attachment(
        AttachmentKind kind, String name, String pin, Levels levels, double picofarads) {
    /** Something of whose capacitance nothing is known. */
    public Attachment(AttachmentKind kind, String name, String pin, Levels levels) {
        this(kind, name, pin, levels, 0);
    }

    /** Something of whose voltages nothing is known. */
    public Attachment(AttachmentKind kind, String name, String pin) {
        this(kind, name, pin, Levels.UNKNOWN);
    }

    /** As a person writes it: {@code header J3 pin 7}. */
    public String toText() {
        return kind.label() + " " + name + (pin.isEmpty() ? "" : " pin " + pin);
    }

    /** Without its kind, as short as it goes: {@code J3.7}. */
    public String toShortText() {
        return name + (pin.isEmpty() ? "" : "." + pin);
    }
}
