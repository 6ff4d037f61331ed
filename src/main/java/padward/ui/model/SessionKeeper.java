package padward.ui.model;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import javafx.beans.Observable;
import javafx.collections.ListChangeListener;
import javafx.collections.MapChangeListener;
import padward.base.BadInput;
import padward.ui.work.PrefetchTask;

/**
 * Saves the window's session to a file: after every change of what is open, asked or preferred, and
 * when the window closes; columns of tables a moment after they were changed. The map's place is
 * saved along with these.
 */
public final class SessionKeeper {
    private static final int APART_MILLIS = 400;

    private final WindowModel model;
    private final Path file;
    private Supplier<Optional<Session.Place>> place = Optional::empty;
    private Supplier<Session.Layout> layout;
    private final AtomicLong newest = new AtomicLong();
    private boolean waiting;
    private boolean watching;

    /** The session being restored; saved unchanged until something is open. */
    private Optional<Session> reopening = Optional.empty();

    /**
     * @param file the session's file
     */
    SessionKeeper(WindowModel model, Path file) {
        this.model = model;
        this.file = file;
        this.layout = () -> Session.Layout.FIRST;
    }

    /** Saves the visible part of the map and the layout of the window from now on. */
    public void follow(
            Supplier<Optional<Session.Place>> seen, Supplier<Session.Layout> arrangement) {
        place = seen;
        layout = arrangement;
    }

    /** Restores the look of a session, and saves changes from now on. */
    void begin(Session session) {
        model.look().darkProperty().set(session.dark());
        model.look().listsProperty().set(session.lists());
        model.look().reasonsProperty().set(session.reasons());
        model.look().setTextSize(session.textSize());
        model.recentFiles().set(session.recentFiles());
        model.recentNets().set(session.recentNets());
        model.recentPads().set(session.recentPads());
        model.look().columns().putAll(session.layout().columns());
        layout = session::layout;
        watch();
    }

    /** Opens the design of a session, and asks its questions. */
    void reopen(Session session, Path file, PrefetchTask<DesignStore.Read> reading) {
        reopening = Optional.of(session);
        place = session::place;
        model.design().take(Optional.of(file), reading, () -> reask(session));
    }

    private void reask(Session session) {
        model.requestedPlaceProperty().set(session.place());
        model.questions()
                .restore(
                        session.questions(),
                        session.shown(),
                        // Again, because an answer moves the map to its route.
                        () -> model.requestedPlaceProperty().set(session.place()));
    }

    private void watch() {
        if (watching) {
            return;
        }
        watching = true;
        // Before the listeners below save for the same reason.
        model.openedProperty().addListener(o -> reopening = Optional.empty());
        for (Observable one :
                new Observable[] {
                    model.openedProperty(),
                    model.shown().answerProperty(),
                    model.questions().shownProperty(),
                    model.look().darkProperty(),
                    model.look().listsProperty(),
                    model.look().reasonsProperty(),
                    model.look().textSizeProperty()
                }) {
            one.addListener(o -> saveSoon());
        }
        model.questions().all().addListener((ListChangeListener<QuestionModel>) c -> saveSoon());
        model.look()
                .columns()
                .addListener(
                        (MapChangeListener<String, List<AppearanceModel.Column>>)
                                c -> saveOnceInAWhile());
    }

    private Session now() {
        return new Session(
                reopening.isPresent()
                        ? reopening.get().file()
                        : model.design()
                                .fileProperty()
                                .get()
                                .map(p -> p.toAbsolutePath().toString()),
                reopening.map(Session::questions).orElseGet(model.questions()::stated),
                reopening
                        .map(Session::shown)
                        .orElseGet(() -> model.questions().all().indexOf(model.shown().question())),
                place.get(),
                model.look().darkProperty().get(),
                model.look().listsProperty().get(),
                model.look().reasonsProperty().get(),
                model.look().textSizeProperty().get(),
                model.recentFiles().items(),
                model.recentNets().items(),
                model.recentPads().items(),
                layout());
    }

    private Session.Layout layout() {
        Session.Layout seen = layout.get();
        return new Session.Layout(
                seen.window(),
                seen.maximised(),
                seen.mapShare(),
                new HashMap<>(model.look().columns()));
    }

    /** A width changes with every pixel of a drag: at most one save in that time. */
    private void saveOnceInAWhile() {
        if (waiting) {
            return;
        }
        waiting = true;
        model.jobs()
                .background()
                .after(
                        APART_MILLIS,
                        () -> {
                            waiting = false;
                            saveSoon();
                        });
    }

    private void saveSoon() {
        Session now = now();
        long number = newest.incrementAndGet();
        model.jobs()
                .background()
                .start(
                        progress -> {
                            write(now, number);
                            return now;
                        },
                        written -> {},
                        fault -> model.notes().add(this, fault));
    }

    /** Writes, unless a newer session is waiting. */
    private synchronized void write(Session session, long number) throws BadInput {
        if (number == newest.get()) {
            SessionFile.write(session, file);
        }
    }

    /** Writes at once, before the window closes. */
    public void close() {
        try {
            write(now(), newest.incrementAndGet());
        } catch (BadInput fault) {
            model.notes().add(this, fault);
        }
    }
}
