package padward.ui.model;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.ui.design.OpenDesign;
import padward.ui.work.EarlyTask;

/**
 * What is read while the toolkit starts, before there is a window or a model of it: the last
 * session, and the design that is to be shown first. It needs no more than the first picture does,
 * so that this stands soon.
 */
public final class StartupRead {
    private final Path remembered;
    private final Session session;
    private final Optional<BadInput> fault;
    private final KeptChangeStore store;
    private final Optional<Path> file;
    private final boolean again;
    private Optional<EarlyTask<DesignModel.Read>> reading;

    private StartupRead(Path settings, Optional<Path> asked) {
        remembered = settings.resolve("session.json");
        store = new KeptJournals(settings.resolve("kept"));
        Session last = Session.FIRST;
        Optional<BadInput> trouble = Optional.empty();
        try {
            last = SessionFile.read(remembered);
        } catch (BadInput unreadable) {
            trouble = Optional.of(unreadable);
        }
        session = last;
        fault = trouble;
        file = asked.or(() -> session.file().map(Path::of).filter(Files::exists));
        again = asked.isEmpty() && file.isPresent();
        reading = Optional.of(new EarlyTask<>(DesignModel.reading(file, store)));
    }

    /**
     * Reads the last session, and begins to read a design: the one that is asked for, else the one
     * that was open the last time, else the demo.
     *
     * @param settings the folder that remembers
     */
    public static StartupRead begin(Path settings, Optional<Path> asked) {
        return new StartupRead(settings, asked);
    }

    /** The last session; the one of the first time when there was none. */
    public Session session() {
        return session;
    }

    /**
     * Waits for the design; before a model has gone on from here.
     *
     * @throws Exception when it cannot be read; who goes on from here is told too
     */
    public OpenDesign awaitDesign() throws Exception {
        return reading.orElseThrow().await().opened();
    }

    /** The part of the map that was seen the last time, if the same design is shown again. */
    public Optional<Session.Place> place() {
        return again ? session.place() : Optional.empty();
    }

    /** Has a model go on from here, once, and remember what happens. UI thread. */
    public SessionKeeper goOn(ExplorerModel model) {
        EarlyTask<DesignModel.Read> begun = reading.orElseThrow();
        // This lives as long as the window; the design may be closed before.
        reading = Optional.empty();
        SessionKeeper keeper = new SessionKeeper(model, remembered);
        fault.ifPresent(f -> model.notes().tell(keeper, f));
        keeper.begin(session);
        if (again) {
            keeper.reopen(session, file.get(), begun);
        } else {
            if (file.isEmpty()) {
                session.file().ifPresent(f -> model.notes().tell(keeper, f + " no longer exists."));
            }
            model.design().take(file, begun, () -> {});
        }
        return keeper;
    }

    /** Remembers what is kept. */
    public KeptChangeStore store() {
        return store;
    }

    /** Lets go of the files. */
    public void close() {
        try {
            store.close();
        } catch (BadInput ignored) {
            // The window is gone; what is kept was written down when it was kept.
        }
    }
}
