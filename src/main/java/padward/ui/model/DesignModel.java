package padward.ui.model;

import java.nio.file.Path;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.Demo;
import padward.format.design.DesignReader;
import padward.format.json.FileKind;
import padward.ui.design.OpenDesign;
import padward.ui.work.Background;
import padward.ui.work.History;
import padward.ui.work.JobSlot;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;
import padward.ui.work.PrefetchTask;

/** The open design with its kept changes, its file, its ledger. The file is never changed. */
public final class DesignModel {
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

    DesignModel(Jobs jobs, History history, KeptChangeStore store) {
        this.jobs = jobs;
        this.notes = jobs.notes();
        this.history = history;
        this.store = store;
        this.job = new JobSlot(jobs, this);
        this.saving = new JobSlot(jobs, store);
    }

    /** Opens another design file; if that is at fault, the present design stays open. */
    void open(Path path) {
        open(path, () -> {});
    }

    /**
     * Opens a design file with the changes that were kept on it in the last session.
     *
     * @param then what follows when it is shown
     */
    void open(Path path, Runnable then) {
        open(Optional.of(path), reading(Optional.of(path), store), then);
    }

    private void open(Optional<Path> path, Background.Work<Read> reading, Runnable then) {
        job.start(
                path.map(p -> "Opening " + p.getFileName()).orElse("Opening"),
                reading,
                read -> {
                    show(read, path);
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
        Optional<Read> read = reading.findResult();
        if (read.isPresent()) {
            show(read.get(), path);
            then.run();
        } else {
            open(path, reading, then);
        }
    }

    /** Opens a design or a ledger, whichever a file is. */
    public void openAny(Path path) {
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
                                        "%s is %s. %s"
                                                .formatted(
                                                        path.getFileName(),
                                                        kind.label(),
                                                        instead(kind)));
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

    /** Opens the design that a reader returns. */
    void openFrom(Background.Work<Design> reader) {
        open(Optional.empty(), progress -> bare(reader.run(progress)), () -> {});
    }

    /**
     * A design that has been read.
     *
     * @param bare no changes
     * @param kept the changes of the last session
     * @param opened the design with these
     * @param fault why the changes of the last session cannot be shown
     */
    record Read(KeptChanges bare, KeptChanges kept, OpenDesign opened, Optional<BadInput> fault) {}

    /**
     * The work of reading a design with the changes that were kept in the last session.
     *
     * @param file none for the demo, of which nothing is kept
     */
    static Background.Work<Read> reading(Optional<Path> file, KeptChangeStore store) {
        return progress -> file.isPresent() ? read(file.get(), store, progress) : bare(Demo.open());
    }

    private static Read bare(Design design) {
        KeptChanges nothing = KeptChanges.of(design);
        return new Read(nothing, nothing, new OpenDesign(design), Optional.empty());
    }

    private static Read read(Path path, KeptChangeStore store, Progress progress) throws BadInput {
        Design design = DesignReader.read(path, progress);
        KeptChanges bare = KeptChanges.of(design);
        try {
            KeptChanges kept = store.find(path, design, progress).orElse(bare);
            return new Read(bare, kept, new OpenDesign(kept.design()), Optional.empty());
        } catch (BadInput fault) {
            return new Read(bare, bare, new OpenDesign(design), Optional.of(fault));
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

    private void show(Read read, Optional<Path> from) {
        prepare(read.opened());
        history.clear();
        file.set(from);
        kept.set(Optional.of(read.kept()));
        opened.set(Optional.of(read.opened()));
        if (!read.kept().entries().isEmpty()) {
            remember("restoring what was kept the last time", read.bare(), read.kept());
        }
        read.fault().ifPresent(fault -> notes.add(this, fault));
    }

    /** Saves kept changes, and shows them. */
    private void show(KeptChanges next, OpenDesign withIt) {
        file.get().ifPresent(path -> save(path, next));
        prepare(withIt);
        kept.set(Optional.of(next));
        opened.set(Optional.of(withIt));
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

    /** Keeps a change: the design is shown with it from now on. */
    public void keep(LedgerEntry entry, OpenDesign withIt) {
        KeptChanges before = kept.get().orElseThrow();
        KeptChanges after = before.with(entry);
        remember("keeping " + entry.what(), before, after);
        show(after, withIt);
    }

    private void remember(String what, KeptChanges before, KeptChanges after) {
        history.did(new History.Step(what, () -> change(before), () -> change(after)));
    }

    /**
     * Replaces the kept changes of the same design.
     *
     * @param what the step for the history, as a noun phrase
     */
    public void changeTo(String what, KeptChanges next) {
        remember(what, kept.get().orElseThrow(), next);
        change(next);
    }

    private void change(KeptChanges next) {
        OpenDesign shown = opened.get().orElseThrow();
        job.start(
                "Changing the design",
                progress -> shown.with(next.design()),
                result -> show(next, result));
    }

    /** Writes the kept changes to a ledger of the open file. */
    public void saveLedger(Path ledger) {
        if (kept.get().isEmpty() || file.get().isEmpty()) {
            notes.add(this, "Only a design that was opened from a file can have a ledger.");
            return;
        }
        KeptChanges now = kept.get().get();
        Path design = file.get().get();
        job.start(
                "Saving " + ledger.getFileName(),
                progress -> now.save(ledger, design),
                written ->
                        notes.add(
                                this,
                                "Saved "
                                        + changes(written.entries().size())
                                        + " in "
                                        + ledger
                                        + "."));
    }

    private static String changes(int count) {
        return count == 1 ? "1 kept change" : count + " kept changes";
    }

    /** Shows the opened design with what a ledger contains. */
    public void openLedger(Path ledger) {
        if (kept.get().isEmpty()) {
            notes.add(this, "Open a design first (Ctrl+O), then its ledger.");
            return;
        }
        KeptChanges before = kept.get().get();
        OpenDesign shown = opened.get().orElseThrow();
        job.start(
                "Opening " + ledger.getFileName(),
                progress -> {
                    KeptChanges next = KeptChanges.open(ledger, before.original(), progress);
                    return new Loaded(next, shown.with(next.design()));
                },
                loaded -> {
                    remember("opening ledger " + ledger.getFileName(), before, loaded.kept());
                    show(loaded.kept(), loaded.opened());
                });
    }

    private record Loaded(KeptChanges kept, OpenDesign opened) {}

    /** The design as it is shown, with all that is kept. */
    ReadOnlyObjectProperty<Optional<OpenDesign>> openedProperty() {
        return opened;
    }

    /** The design as it was opened and its kept changes; set before the design is shown. */
    ReadOnlyObjectProperty<Optional<KeptChanges>> keptProperty() {
        return kept;
    }

    /** The file that it was opened from; none for the demo. */
    public ReadOnlyObjectProperty<Optional<Path>> fileProperty() {
        return file;
    }

    /** Whether it is being opened or changed. */
    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }
}
