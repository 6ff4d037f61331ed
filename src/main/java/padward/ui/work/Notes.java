package padward.ui.work;

import java.io.PrintWriter;
import java.io.StringWriter;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import padward.base.BadInput;

/** The notes that stand in the window, the latest first. Nothing is told twice. */
public final class Notes {
    /** More than these push each other out, the oldest first. */
    static final int MOST = 4;

    private final ObservableList<Note> all = FXCollections.observableArrayList();

    /** Held here, since it hears of changes only as long as somebody holds it. */
    private final ObservableList<Note> allView = FXCollections.unmodifiableObservableList(all);

    /** All notes, the latest first. */
    public ObservableList<Note> all() {
        return allView;
    }

    /** Tells something. */
    public void tell(Object about, String text) {
        add(new Note(about, text, ""));
    }

    /** Tells what went wrong. */
    public void tell(Object about, Exception fault) {
        add(new Note(about, plain(fault), detail(fault)));
    }

    private void add(Note note) {
        all.removeIf(n -> n.text().equals(note.text()));
        all.add(0, note);
        while (all.size() > MOST) {
            all.remove(all.size() - 1);
        }
    }

    /** Puts one away. */
    public void putAway(Note note) {
        all.remove(note);
    }

    /** Puts away what somebody had to tell. */
    public void putAwayAbout(Object about) {
        all.removeIf(n -> n.about() == about);
    }

    private static String plain(Exception fault) {
        return fault instanceof BadInput ? fault.getMessage() : "Internal error: " + fault;
    }

    private static String detail(Exception fault) {
        if (fault instanceof BadInput bad) {
            return "source: %s%nplace: %s%nexpected: %s%nfound: %s%n"
                    .formatted(bad.source(), bad.place(), bad.expected(), bad.found());
        }
        StringWriter trace = new StringWriter();
        fault.printStackTrace(new PrintWriter(trace));
        return trace.toString();
    }
}
