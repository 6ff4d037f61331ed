package padward.ui.model;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.verify.ChangeAudit;
import padward.change.EntryRemoval;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.Demo;
import padward.format.design.DesignReader;
import padward.format.json.FileKind;
import padward.ui.design.OpenDesign;
import padward.ui.work.BackgroundWork;
import padward.ui.work.History;
import padward.ui.work.JobSlot;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;
import padward.ui.work.PrefetchTask;

/**
 * The one place where the window changes what is open and what is kept. The file is never changed.
 *
 * <p>Every change is carried out at once, on the UI thread, and makes a {@link WorkState} of the
 * next version. Work in the background only reads files and looks for answers: it names the version
 * that it was worked out on, and what was worked out on an earlier version is refused here.
 */
public final class DesignStore {
    private static final String CHANGED_SINCE =
            "The kept changes have changed since this was worked out, so it was not kept. Ask"
                    + " again, then keep it.";

    private final Jobs jobs;
    private final Notes notes;
    private final History history;
    private final JobSlot job;
    private final JobSlot saving;
    private final KeptChangeStore store;
    private final ObjectProperty<Optional<OpenDesign>> opened =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<KeptChanges>> kept =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Path>> file =
            new SimpleObjectProperty<>(Optional.empty());
    private Optional<Path> ledger = Optional.empty();
    private Optional<WorkState> state = Optional.empty();
    private Optional<KeptChanges> keptOnDemo = Optional.empty();
    private boolean changing;

    /** When the open file had been written when it was read, or last looked at. */
    private Optional<FileTime> seen = Optional.empty();

    DesignStore(Jobs jobs, History history, KeptChangeStore store) {
        this.jobs = jobs;
        this.notes = jobs.notes();
        this.history = history;
        this.store = store;
        this.job = new JobSlot(jobs, this);
        this.saving = new JobSlot(jobs, store);
    }

    /** Opens another design file; if that is at fault, the present design stays open. */
    void open(Path path) {
        Optional<Path> from = Optional.of(path);
        WorkState.Origin origin = new WorkState.OfFile(path);
        open(origin, reading(from, store), () -> {});
    }

    /** Opens the demo, with what was kept on it since the program started. */
    void openDemo() {
        open(new WorkState.OfDemo(), progress -> bare(Demo.open()), () -> {});
    }

    /** Opens the design of a lesson that a reader returns. */
    void openLesson(BackgroundWork.Work<Design> reader) {
        open(new WorkState.OfLesson(), progress -> bare(reader.run(progress)), () -> {});
    }

    /**
     * Opens again what was open before, with what was kept on it.
     *
     * @param then what follows when it is shown
     */
    void reopen(WorkState.Origin origin, Runnable then) {
        Optional<Path> path = origin.file();
        open(
                path.<WorkState.Origin>map(WorkState.OfFile::new).orElseGet(WorkState.OfDemo::new),
                reading(path, store),
                then);
    }

    /** Whether the design of a lesson is open. */
    boolean isLesson() {
        return state.filter(s -> s.origin() instanceof WorkState.OfLesson).isPresent();
    }

    private void open(WorkState.Origin origin, BackgroundWork.Work<Read> reading, Runnable then) {
        job.start(
                origin.file().map(p -> "Opening " + p.getFileName()).orElse("Opening"),
                reading,
                read -> {
                    show(read, origin);
                    then.run();
                });
    }

    /**
     * Shows a design that is being read already: at once when it has been read.
     *
     * @param path its file; none for the demo
     * @param then what follows when it is shown
     */
    void take(Optional<Path> path, PrefetchTask<Read> reading, Runnable then) {
        WorkState.Origin origin =
                path.<WorkState.Origin>map(WorkState.OfFile::new).orElseGet(WorkState.OfDemo::new);
        Optional<Read> read = reading.findResult();
        if (read.isPresent()) {
            show(read.get(), origin);
            then.run();
        } else {
            open(origin, reading, then);
        }
    }

    /** Opens a design or a ledger, whichever a file is. */
    void openAny(Path path) {
        job.start(
                "Opening " + path.getFileName(),
                progress -> FileKind.of(path),
                kind -> {
                    switch (kind) {
                        case DESIGN -> open(path);
                        case LEDGER -> openLedger(path);
                        default ->
                                notes.add(
                                        this,
                                        path.getFileName()
                                                + " is "
                                                + kind.label()
                                                + ". "
                                                + instead(kind));
                    }
                });
    }

    /** What to do with a file that cannot be opened directly. */
    private static String instead(FileKind kind) {
        return switch (kind) {
            case LESSON -> "Open its folder with Own lessons… under Lessons.";
            case LEARNER -> "Type the learner's name under Lessons.";
            case MAPPING -> "Use it with the command place-route.";
            default -> "Open the design that refers to it.";
        };
    }

    /**
     * A design that has been read.
     *
     * @param bare no changes
     * @param kept the changes of the last session
     * @param opened the design with these
     * @param fault why the changes of the last session cannot be shown
     * @param written when its file had been written just before it was read; empty without a file
     */
    record Read(
            KeptChanges bare,
            KeptChanges kept,
            OpenDesign opened,
            Optional<BadInput> fault,
            Optional<FileTime> written) {}

    /**
     * The work of reading a design with the changes that were kept in the last session.
     *
     * @param file none for the demo
     */
    static BackgroundWork.Work<Read> reading(Optional<Path> file, KeptChangeStore store) {
        return progress -> file.isPresent() ? read(file.get(), store, progress) : bare(Demo.open());
    }

    private static Read bare(Design design) {
        KeptChanges nothing = KeptChanges.of(design);
        return new Read(
                nothing, nothing, new OpenDesign(design), Optional.empty(), Optional.empty());
    }

    private static Read read(Path path, KeptChangeStore store, Progress progress) throws BadInput {
        // What is written from now on may not be in what is read.
        Optional<FileTime> written = timeOf(path);
        Design design = DesignReader.read(path, progress);
        design.prepare();
        KeptChanges bare = KeptChanges.of(design);
        OpenDesign opened = new OpenDesign(design);
        try {
            KeptChangeStore.Found found = store.find(path, design, progress);
            KeptChanges kept = found.kept().orElse(bare);
            return new Read(bare, kept, opened.with(kept.design()), found.fault(), written);
        } catch (BadInput fault) {
            return new Read(bare, bare, opened, Optional.of(fault), written);
        }
    }

    private void show(Read read, WorkState.Origin origin) {
        history.clear();
        notes.dismissAbout(this);
        seen = read.written();
        ledger = Optional.empty();
        boolean again = origin instanceof WorkState.OfDemo && keptOnDemo.isPresent();
        KeptChanges shown = again ? keptOnDemo.get().on(read.bare().original()) : read.kept();
        OpenDesign opening = again ? read.opened().with(shown.design()) : read.opened();
        publish(origin, shown, opening);
        if (!shown.entries().isEmpty()) {
            remember(
                    again
                            ? "restoring what was kept on the demo"
                            : "restoring what was kept the last time",
                    read.bare(),
                    shown);
        }
        read.fault().ifPresent(fault -> notes.add(this, fault));
    }

    private void publish(WorkState.Origin origin, KeptChanges next, OpenDesign shown) {
        publish(state.map(WorkState::version).orElse(0L) + 1, origin, next, shown);
    }

    /** The only assignment of what is open. */
    private void publish(
            long version, WorkState.Origin origin, KeptChanges next, OpenDesign shown) {
        if (changing) {
            throw new IllegalStateException("a change may not be answered by another change");
        }
        changing = true;
        try {
            state = Optional.of(new WorkState(version, origin, next, shown));
            if (origin instanceof WorkState.OfDemo) {
                keptOnDemo = next.entries().isEmpty() ? Optional.empty() : Optional.of(next);
            }
            prepare(shown);
            file.set(origin.file());
            kept.set(Optional.of(next));
            opened.set(Optional.of(shown));
        } finally {
            changing = false;
        }
    }

    /** Calculates lazy values in the background, before the user waits for them. */
    private void prepare(OpenDesign shown) {
        jobs.background()
                .start(
                        progress -> {
                            shown.prepare();
                            return shown;
                        },
                        prepared -> {},
                        fault -> {});
    }

    /** Shows the same design with other kept changes, which are written first. */
    private void change(KeptChanges next) {
        change(next, present().opened().with(next.design()));
    }

    private void change(KeptChanges next, OpenDesign shown) {
        WorkState now = present();
        now.origin().file().ifPresent(path -> save(path, next));
        publish(now.origin(), next, shown);
    }

    /** Whether the demo is open; the design of a lesson may have the same nets, but is not it. */
    public boolean isDemo() {
        return state.filter(s -> s.origin() instanceof WorkState.OfDemo).isPresent();
    }

    private WorkState present() {
        return state.orElseThrow(() -> new IllegalStateException("no design is open"));
    }

    /** Written before it is shown as kept; only the flush to the disk may come later. */
    private void save(Path path, KeptChanges next) {
        try {
            store.save(path, next);
        } catch (BadInput fault) {
            notes.add(store, fault);
            return;
        }
        saving.start(
                "Saving the kept changes",
                progress -> {
                    store.flush();
                    return next;
                },
                flushed -> {});
    }

    /**
     * Keeps a change: the design is shown with it from now on.
     *
     * @param version the version that it was worked out on
     * @param withIt the design with it
     * @return whether it was kept; a note says why not
     */
    public boolean keep(long version, LedgerEntry entry, OpenDesign withIt) {
        if (!isPresent(version)) {
            notes.add(this, CHANGED_SINCE);
            return false;
        }
        KeptChanges before = present().kept();
        KeptChanges after = before.with(entry, withIt.design());
        remember("keeping " + entry.what(), before, after);
        change(after, withIt);
        return true;
    }

    private boolean isPresent(long version) {
        return state.filter(s -> s.version() == version).isPresent();
    }

    /** Steps hold what is kept and no more: an old answer would hold all it was worked out on. */
    private void remember(String what, KeptChanges before, KeptChanges after) {
        history.did(new History.Step(what, () -> change(before), () -> change(after)));
    }

    /** Undoes one kept change, and those that depend on it, as a step of the history. */
    public void undo(EntryRemoval removal) {
        KeptChanges before = present().kept();
        KeptChanges after = before.after(removal);
        remember("undoing " + removal.entry().what(), before, after);
        change(after);
    }

    /**
     * Records other leads on the kept lines, as a step of the history. The design stays as it is,
     * so what was worked out on it stays valid.
     *
     * @param entries the kept entries with the leads
     */
    public void changeLeads(String what, List<LedgerEntry> entries) {
        KeptChanges before = present().kept();
        KeptChanges after = before.withLeads(entries);
        history.did(new History.Step(what, () -> showLeads(before), () -> showLeads(after)));
        showLeads(after);
    }

    private void showLeads(KeptChanges next) {
        WorkState now = present();
        now.origin().file().ifPresent(path -> save(path, next));
        publish(now.version(), now.origin(), next, now.opened());
    }

    /** Writes the kept changes to a ledger of the open file. */
    public void saveLedger(Path target) {
        Optional<Path> design = file.get();
        if (state.isEmpty() || design.isEmpty()) {
            notes.add(this, "Only a design that was opened from a file can have a ledger.");
            return;
        }
        KeptChanges now = present().kept();
        job.start(
                "Saving " + target.getFileName(),
                progress -> now.save(target, design.get()),
                written -> {
                    ledger = Optional.of(target);
                    notes.done("Saved " + text(written.entries(), target));
                });
    }

    /** Writes the design with the kept changes to another file, and says what was compared. */
    public void saveChanged(Path target) {
        Optional<Path> design = file.get();
        if (state.isEmpty() || design.isEmpty()) {
            notes.add(
                    this,
                    "Only a design that was opened from a file can be saved with its changes.");
            return;
        }
        KeptChanges now = present().kept();
        job.start(
                "Saving " + target.getFileName(),
                progress -> now.writeChanged(design.get(), target, progress),
                audit -> saved(target, audit));
    }

    /** The status line is soon replaced: what must not be missed is a note. */
    void saved(Path target, ChangeAudit audit) {
        notes.done("Saved the changed design in " + target + ". " + audit.sentence());
        if (!audit.holds()) {
            notes.add(
                    this,
                    target
                            + " is not the open design with the kept changes. "
                            + audit.sentence()
                            + " Do not use that file.");
        }
    }

    private static String text(List<LedgerEntry> entries, Path ledger) {
        return (entries.size() == 1 ? "1 kept change" : entries.size() + " kept changes")
                + " in "
                + ledger
                + ".";
    }

    /** Shows the opened design with what a ledger contains. */
    void openLedger(Path from) {
        if (state.isEmpty()) {
            notes.add(this, "Open a design first (Ctrl+O), then its ledger.");
            return;
        }
        WorkState on = present();
        job.start(
                "Opening " + from.getFileName(),
                progress ->
                        KeptChanges.open(from, on.kept().original(), on.origin().file(), progress),
                read -> replace(on, from, read));
    }

    private void replace(WorkState on, Path from, KeptChanges read) {
        // Leads may have changed too, which leave the version as it is.
        if (!isPresent(on.version()) || present().kept() != on.kept()) {
            notes.add(
                    this,
                    "The kept changes have changed while "
                            + from.getFileName()
                            + " was being read, so it was not opened."
                            + " Open it again to replace them.");
            return;
        }
        remember("opening ledger " + from.getFileName(), on.kept(), read);
        change(read);
        ledger = Optional.of(from);
    }

    /** When a file was written last; empty when that cannot be told. */
    private static Optional<FileTime> timeOf(Path path) {
        try {
            return Optional.of(Files.getLastModifiedTime(path));
        } catch (IOException fault) {
            return Optional.empty();
        }
    }

    /**
     * Looks whether the open file was written by something else since it was read, and says so
     * once.
     *
     * @param readAgain opens it
     */
    void lookForChange(Consumer<Path> readAgain) {
        Optional<Path> path = file.get();
        Optional<FileTime> before = seen;
        if (path.isEmpty() || before.isEmpty()) {
            return;
        }
        jobs.background()
                .start(
                        progress -> timeOf(path.get()),
                        now -> {
                            boolean same = path.equals(file.get()) && before.equals(seen);
                            if (same && now.isPresent() && !now.equals(before)) {
                                seen = now;
                                notes.offer(
                                        this,
                                        path.get().getFileName()
                                                + " has changed on the disk since it was opened.",
                                        "Read it again",
                                        () -> readAgain.accept(path.get()));
                            }
                        },
                        fault -> {});
    }

    /** What is open now; empty until the first design is read. */
    public Optional<WorkState> state() {
        return state;
    }

    /** The design as it is shown, with all that is kept; changes after the other two. */
    ReadOnlyObjectProperty<Optional<OpenDesign>> openedProperty() {
        return opened;
    }

    /** The design as it was opened and its kept changes. */
    ReadOnlyObjectProperty<Optional<KeptChanges>> keptProperty() {
        return kept;
    }

    /** The file that it was opened from; none for the demo. */
    public ReadOnlyObjectProperty<Optional<Path>> fileProperty() {
        return file;
    }

    /** The ledger of the open design that was opened or saved last. */
    public Optional<Path> ledger() {
        return ledger;
    }

    /** Whether it is being opened. */
    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }
}
