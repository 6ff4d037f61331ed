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
import padward.ui.model.ExplorerModel;
import padward.ui.model.KeptChanges;
import padward.ui.work.OneJob;

/**
 * What is kept, entry by entry: each can be undone wherever it stands, and whether they touched
 * nothing else can be checked.
 */
public final class LedgerModel {
    private final ExplorerModel model;
    private final OneJob job;
    private final ObjectProperty<Optional<EntryRemoval>> pending =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<ChangeAudit>> report =
            new SimpleObjectProperty<>(Optional.empty());

    /** The ledger of whatever design is open. */
    public LedgerModel(ExplorerModel model) {
        this.model = model;
        this.job = new OneJob(model.jobs(), this);
        model.keptProperty()
                .addListener(
                        (p, old, now) -> {
                            pending.set(Optional.empty());
                            report.set(Optional.empty());
                        });
    }

    /** What is kept, oldest first. */
    List<LedgerEntry> kept() {
        return model.keptProperty().get().map(KeptChanges::entries).orElse(List.of());
    }

    /**
     * Undoes an entry. If others depend on it, it waits for {@link #undoPending}.
     *
     * @param index which, from 0
     */
    void undo(int index) {
        Optional<KeptChanges> kept = model.keptProperty().get();
        if (kept.isEmpty() || index >= kept.get().entries().size()) {
            return;
        }
        job.start(
                "Checking what depends on entry " + (index + 1),
                progress -> kept.get().undoing(index),
                undoing -> {
                    if (undoing.isAlone()) {
                        carryOut(undoing);
                    } else {
                        pending.set(Optional.of(undoing));
                    }
                });
    }

    /** Undoes the entry that waits, with all that depends on it. */
    void undoPending() {
        pending.get().ifPresent(this::carryOut);
    }

    /** Leaves the entry that waits as it is. */
    void leavePending() {
        pending.set(Optional.empty());
    }

    private void carryOut(EntryRemoval undoing) {
        KeptChanges kept = model.keptProperty().get().orElseThrow();
        model.design().changeTo("undoing " + undoing.entry().what(), kept.after(undoing));
    }

    /** Checks that nothing but what is listed was touched, against the design's file read anew. */
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
                                shown.get().design()),
                found -> report.set(Optional.of(found)));
    }

    /** The demo has no file: it is compared with what was read. */
    private static Design before(Optional<Path> file, KeptChanges kept, Progress progress)
            throws BadInput {
        return file.isPresent() ? DesignReader.read(file.get(), progress) : kept.original();
    }

    /** The undoing that would take others with it, until it is decided. */
    public ReadOnlyObjectProperty<Optional<EntryRemoval>> pendingProperty() {
        return pending;
    }

    /** The last check of what is kept now. */
    ReadOnlyObjectProperty<Optional<ChangeAudit>> reportProperty() {
        return report;
    }
}
