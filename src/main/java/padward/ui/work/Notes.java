package padward.ui.work;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import padward.base.BadInput;

/** The notes in the window, the latest first. No text is shown twice. */
public final class Notes {
    /** Greatest number of notes; a further one removes the oldest. */
    static final int MOST = 4;

    private final ReadOnlyStringWrapper status = new ReadOnlyStringWrapper("");
    private final ObservableList<Note> all = FXCollections.observableArrayList();

    /** A field, because the view gets changes only while something references it. */
    private final ObservableList<Note> allView = FXCollections.unmodifiableObservableList(all);

    /** All notes, the latest first. */
    public ObservableList<Note> all() {
        return allView;
    }

    /** Says that something is done; shown in the status line until the next one. */
    public void done(String text) {
        status.set(text);
    }

    /** What was done last. */
    public ReadOnlyStringProperty statusProperty() {
        return status.getReadOnlyProperty();
    }

    /** Adds a message. */
    public void add(Object about, String text) {
        add(new Note(about, text, "", Optional.empty()));
    }

    /** Adds what went wrong. */
    public void add(Object about, Exception fault) {
        add(new Note(about, plain(fault), detail(fault), Optional.empty()));
    }

    /** Adds a message with something that can be done about it. */
    public void offer(Object about, String text, String button, Runnable work) {
        add(new Note(about, text, "", Optional.of(new Note.Offer(button, work))));
    }

    private void add(Note note) {
        all.removeIf(n -> n.text().equals(note.text()));
        all.add(0, note);
        while (all.size() > MOST) {
            all.remove(all.size() - 1);
        }
    }

    /** Removes one. */
    public void dismiss(Note note) {
        all.remove(note);
    }

    /** Removes the notes of one part of the program. */
    public void dismissAbout(Object about) {
        all.removeIf(n -> n.about() == about);
    }

    private static String plain(Exception fault) {
        return fault instanceof BadInput bad ? FaultText.of(bad) : FaultText.internal(fault);
    }

    private static String detail(Exception fault) {
        if (fault instanceof BadInput bad) {
            return String.format(
                    Locale.ROOT,
                    "source: %s%nplace: %s%nexpected: %s%nfound: %s%n",
                    bad.source(),
                    bad.place(),
                    bad.expected(),
                    bad.found());
        }
        StringWriter trace = new StringWriter();
        fault.printStackTrace(new PrintWriter(trace));
        return trace.toString();
    }
}
