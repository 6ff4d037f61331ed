package padward.ui;

import java.nio.file.Path;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.design.Design;
import padward.format.DesignReader;

/**
 * The design that is open, with the trials kept on it; its file; its ledger. The file is never
 * changed.
 */
final class DesignModel {
    private final Notes notes;
    private final History history;
    private final OneJob job;
    private final ObjectProperty<Optional<Opened>> opened =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<TrialDesk>> desk =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Path>> file =
            new SimpleObjectProperty<>(Optional.empty());

    DesignModel(Jobs jobs, History history) {
        this.notes = jobs.notes();
        this.history = history;
        this.job = new OneJob(jobs, this);
    }

    /** Opens a design's file in place of the present one, which stays if the file is at fault. */
    void open(Path path) {
        job.start(
                "Opening " + path.getFileName(),
                progress -> new Opened(DesignReader.read(path, progress)),
                read -> show(read, Optional.of(path)));
    }

    /** Opens what a reader yields. */
    void openFrom(Background.Work<Design> reader) {
        job.start(
                "Opening",
                progress -> new Opened(reader.run(progress)),
                read -> show(read, Optional.empty()));
    }

    private void show(Opened next, Optional<Path> from) {
        history.clear();
        file.set(from);
        desk.set(Optional.of(TrialDesk.of(next.design())));
        opened.set(Optional.of(next));
    }

    /** Keeps a trial: the design is shown with it from now on. */
    void keep(TrialDesk.Kept kept, Opened withIt) {
        TrialDesk before = desk.get().orElseThrow();
        TrialDesk after = before.keeping(kept);
        remember("keeping " + kept.what(), before, after);
        desk.set(Optional.of(after));
        opened.set(Optional.of(withIt));
    }

    private void remember(String what, TrialDesk before, TrialDesk after) {
        history.did(new History.Step(what, () -> change(before), () -> change(after)));
    }

    private void change(TrialDesk next) {
        Opened shown = opened.get().orElseThrow();
        job.start(
                "Changing the design",
                progress -> shown.with(next.design()),
                result -> {
                    desk.set(Optional.of(next));
                    opened.set(Optional.of(result));
                });
    }

    /** Writes all that is kept into a ledger for the opened file. */
    void saveLedger(Path ledger) {
        if (desk.get().isEmpty() || file.get().isEmpty()) {
            notes.tell(this, "Only a design that was opened from a file can have a ledger.");
            return;
        }
        TrialDesk now = desk.get().get();
        Path design = file.get().get();
        job.start(
                "Saving " + ledger.getFileName(),
                progress -> now.save(ledger, design),
                written ->
                        notes.tell(
                                this,
                                "Saved " + written.entries().size() + " kept in " + ledger + "."));
    }

    /** Shows the opened design with what a ledger holds. */
    void openLedger(Path ledger) {
        if (desk.get().isEmpty()) {
            notes.tell(this, "Open a design first (Ctrl+O), then its ledger.");
            return;
        }
        TrialDesk before = desk.get().get();
        Opened shown = opened.get().orElseThrow();
        job.start(
                "Opening " + ledger.getFileName(),
                progress -> {
                    TrialDesk next = TrialDesk.open(ledger, before.original(), progress);
                    return new Loaded(next, shown.with(next.design()));
                },
                loaded -> {
                    remember("opening ledger " + ledger.getFileName(), before, loaded.desk());
                    desk.set(Optional.of(loaded.desk()));
                    opened.set(Optional.of(loaded.opened()));
                });
    }

    private record Loaded(TrialDesk desk, Opened opened) {}

    /** The design as it is shown, with all that is kept. */
    ReadOnlyObjectProperty<Optional<Opened>> openedProperty() {
        return opened;
    }

    /** The design as it was opened and the trials kept on it; set before the design is shown. */
    ReadOnlyObjectProperty<Optional<TrialDesk>> deskProperty() {
        return desk;
    }

    /** The file that it was opened from; none for the demo. */
    ReadOnlyObjectProperty<Optional<Path>> fileProperty() {
        return file;
    }

    /** Whether it is being opened or changed. */
    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }
}
