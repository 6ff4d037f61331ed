package padward.ui.ledger;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.verify.ChangeAudit;
import padward.change.EntryRemoval;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;
import padward.ui.work.JobSlot;

/**
 * The kept changes, entry by entry: each can be undone, also out of order, and it can be checked
 * that nothing else changed.
 */
public final class LedgerModel {
    private final WindowModel model;
    private final JobSlot job;
    private final ObjectProperty<Optional<EntryRemoval>> pending =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<ChangeAudit>> report =
            new SimpleObjectProperty<>(Optional.empty());

    /** The ledger of the open design. */
    public LedgerModel(WindowModel model) {
        this.model = model;
        this.job = new JobSlot(model.jobs(), this);
        model.keptProperty()
                .addListener(
                        (p, old, now) -> {
                            // A comparison that is still under way is about what was kept before.
                            job.cancel();
                            pending.set(Optional.empty());
                            report.set(Optional.empty());
                        });
    }

    /** The kept changes, oldest first. */
    List<LedgerEntry> kept() {
        return model.keptProperty().get().map(KeptChanges::entries).orElse(List.of());
    }

    /**
     * Undoes an entry. If others depend on it, it waits for {@link #undoPending}.
     *
     * @param index index of the entry, from 0
     */
    void undo(int index) {
        Optional<KeptChanges> kept = model.keptProperty().get();
        if (kept.isEmpty() || index >= kept.get().entries().size()) {
            return;
        }
        EntryRemoval undoing = kept.get().undoing(index);
        if (undoing.isAlone()) {
            model.design().undo(undoing);
        } else {
            pending.set(Optional.of(undoing));
        }
    }

    /** Undoes the waiting entry with all entries that depend on it. */
    void undoPending() {
        pending.get().ifPresent(model.design()::undo);
    }

    /** Cancels the waiting undo. */
    void cancelPending() {
        pending.set(Optional.empty());
    }

    /** Reads the design file again and checks that only the listed changes were made. */
    void check() {
        Optional<KeptChanges> kept = model.keptProperty().get();
        Optional<OpenDesign> shown = model.openedProperty().get();
        if (kept.isEmpty() || shown.isEmpty()) {
            return;
        }
        Optional<Path> file = model.design().fileProperty().get();
        job.start(
                "Comparing with the design file",
                progress ->
                        ChangeAudit.of(
                                before(file, kept.get(), progress),
                                kept.get().entries(),
                                shown.get().design(),
                                progress),
                found -> report.set(Optional.of(found)));
    }

    /** The demo has no file: it is compared with the design as it was opened. */
    private static Design before(Optional<Path> file, KeptChanges kept, Progress progress)
            throws BadInput {
        return file.isPresent() ? DesignReader.read(file.get(), progress) : kept.original();
    }

    /** The undo that would remove other entries too, until the user decides. */
    public ReadOnlyObjectProperty<Optional<EntryRemoval>> pendingProperty() {
        return pending;
    }

    /** The last check of the present changes. */
    ReadOnlyObjectProperty<Optional<ChangeAudit>> reportProperty() {
        return report;
    }
}
