package padward.ui.work;

import java.util.List;
import padward.base.BadInput;

/** Faults as the window tells them: what is needed, what is there, and what to do next. */
public final class FaultText {
    /** What a file that is to be written needs, by how the texts begin. */
    private static final List<String> WRITING =
            List.of(
                    "a file that can be written",
                    "a file other than",
                    "a file in an existing folder",
                    "a folder inside an existing one",
                    "a new or empty folder",
                    "the name of a file",
                    "space on the disk",
                    "a writable folder",
                    "a name that ends");

    private FaultText() {}

    /** The fault, and what to do next. */
    public static String of(BadInput fault) {
        return LedgerFaults.find(fault)
                .map(f -> f.what() + " " + f.next())
                .orElseGet(() -> what(fault) + " " + next(fault));
    }

    /** What is needed and what is there, as a clause. */
    public static String needs(BadInput fault) {
        return "this needs " + fault.expected() + ", but there is " + fault.found();
    }

    /** The fault alone. */
    public static String what(BadInput fault) {
        if (!isFile(fault.source())) {
            return "The field “"
                    + fault.source()
                    + "”"
                    + (fault.place().isEmpty() ? "" : ", at " + fault.place() + ",")
                    + " needs "
                    + fault.expected()
                    + (fault.found().equals("nothing")
                            ? ", and is empty."
                            : ", but has " + fault.found() + ".");
        }
        return fault.source()
                + (fault.place().isEmpty() ? "" : ", at " + fault.place())
                + ": "
                + needs(fault)
                + ".";
    }

    private static String next(BadInput fault) {
        if (!isFile(fault.source())) {
            return "Change it and press Enter.";
        }
        if (WRITING.stream().anyMatch(fault.expected()::startsWith)) {
            return "Choose another file or folder, or make room there, and save again.";
        }
        return fault.place().isEmpty()
                ? "Open another file, or correct this one; what was open stays open."
                : "Correct the file there and open it again; what was open stays open.";
    }

    /** A fault of the program itself. */
    static String internal(Exception fault) {
        return "Padward made a mistake of its own: "
                + fault
                + ". What is kept is safe. Copy the details for a report, and go on. If it happens"
                + " again, close the window and start Padward again.";
    }

    /** Fields are called by a word, files by a path. */
    private static boolean isFile(String source) {
        return source.contains("/") || source.contains("\\") || source.contains(".");
    }
}
