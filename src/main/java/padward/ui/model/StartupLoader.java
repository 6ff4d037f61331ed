package padward.ui.model;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.ui.design.OpenDesign;
import padward.ui.work.PrefetchTask;

/**
 * Reads the last session and the first design while the toolkit starts, before there is a window or
 * its model. It reads only what the first picture needs, so that this is shown soon.
 */
public final class StartupLoader {
    private final Path remembered;
    private final Session session;
    private final Optional<BadInput> fault;
    private final KeptChangeStore store;
    private final Optional<Path> file;
    private final boolean again;
    private Optional<PrefetchTask<DesignStore.Read>> reading;

    private StartupLoader(Path settings, Optional<Path> asked) {
        remembered = settings.resolve("session.json");
        store = new JournalStore(settings.resolve("kept"));
        SessionFile.Read last = SessionFile.read(remembered);
        session = last.session();
        fault = last.fault();
        file = asked.or(() -> session.file().map(Path::of).filter(Files::exists));
        again = asked.isEmpty() && file.isPresent();
        reading = Optional.of(new PrefetchTask<>(DesignStore.reading(file, store)));
    }

    /**
     * Reads the last session, and starts to read a design: the given one, else that of the last
     * session, else the demo.
     *
     * @param settings the folder of the user's settings
     */
    public static StartupLoader begin(Path settings, Optional<Path> asked) {
        return new StartupLoader(settings, asked);
    }

    /** The last session; that of the first start when there was none. */
    public Session session() {
        return session;
    }

    /**
     * Waits for the design; only before {@link #goOn}.
     *
     * @throws Exception when it cannot be read; the model shows the fault as well
     */
    public OpenDesign awaitDesign() throws Exception {
        return reading.orElseThrow().await().opened();
    }

    /** The visible part of the map in the last session, if the same design is shown again. */
    public Optional<Session.Place> place() {
        return again ? session.place() : Optional.empty();
    }

    /** Hands the design to the model, once, and starts to save the session. UI thread. */
    public SessionKeeper goOn(WindowModel model) {
        PrefetchTask<DesignStore.Read> begun = reading.orElseThrow();
        // This object lives as long as the window; the design may be closed before.
        reading = Optional.empty();
        SessionKeeper keeper = new SessionKeeper(model, remembered);
        fault.ifPresent(f -> model.notes().add(keeper, f));
        keeper.begin(session);
        if (again) {
            keeper.reopen(session, file.get(), begun);
        } else {
            if (file.isEmpty()) {
                session.file().ifPresent(f -> model.notes().add(keeper, f + " no longer exists."));
            }
            model.design().take(file, begun, () -> {});
        }
        return keeper;
    }

    /** Saves the kept changes. */
    public KeptChangeStore store() {
        return store;
    }

    /** Releases the files. */
    public void close() {
        try {
            store.close();
        } catch (BadInput ignored) {
            // The window is closed; the kept changes were written when they were kept.
        }
    }
}
