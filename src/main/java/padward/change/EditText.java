package padward.change;

import java.util.Collection;
import java.util.function.Function;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;

/**
 * Reads the edits that a person can state in words: {@code remove cell NAME}, {@code remove net
 * NAME}, {@code disconnect port NAME}.
 */
public final class EditText {
    private static final String FORMS =
            "“remove cell NAME”, “remove net NAME” or “disconnect port NAME”";
    private static final String CELL = "remove cell ";
    private static final String NET = "remove net ";
    private static final String PORT = "disconnect port ";

    private EditText() {}

    /**
     * The edit that a text states.
     *
     * @param source where it stands, for faults
     * @throws BadInput when it is none of the forms, or names what the design has not
     */
    public static Edit parse(Design design, String text, String source) throws BadInput {
        String plain = text.strip();
        if (plain.startsWith(CELL)) {
            return new Edit.RemoveCell(
                    known(design.cells(), Cell::name, plain, CELL, "cell", source));
        }
        if (plain.startsWith(NET)) {
            return new Edit.RemoveNet(known(design.nets(), Net::name, plain, NET, "net", source));
        }
        if (plain.startsWith(PORT)) {
            return new Edit.DisconnectPort(
                    known(design.ports(), Port::name, plain, PORT, "port", source));
        }
        throw new BadInput(source, "", FORMS, "“" + plain + "”");
    }

    private static <T> String known(
            Collection<T> all,
            Function<T, String> name,
            String text,
            String before,
            String kind,
            String source)
            throws BadInput {
        String wanted = text.substring(before.length()).strip();
        if (all.stream().map(name).noneMatch(wanted::equals)) {
            throw new BadInput(source, "", "the name of a " + kind, "“" + wanted + "”");
        }
        return wanted;
    }
}
