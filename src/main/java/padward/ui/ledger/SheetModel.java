package padward.ui.ledger;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BiConsumer;
import javafx.beans.InvalidationListener;
import javafx.beans.WeakInvalidationListener;
import javafx.beans.binding.Bindings;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.ListChangeListener;
import javafx.collections.WeakListChangeListener;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import padward.base.BadInput;
import padward.base.Progress;
import padward.base.WholeFile;
import padward.change.Ledger;
import padward.design.Design;
import padward.format.design.Digest;
import padward.handover.BenchSheet;
import padward.handover.ChangeList;
import padward.handover.ChangeListText;
import padward.handover.SdfText;
import padward.handover.SheetCsv;
import padward.handover.SheetPage;
import padward.handover.SheetPdf;
import padward.timing.ExternalLineDelay;
import padward.timing.Instrument;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;
import padward.ui.work.JobSlot;
import padward.ui.work.Note;

/** The bench sheet of the kept changes: its pages as they will be printed, and its export. */
final class SheetModel {
    private static final float DOTS_PER_INCH = 110;
    private static final float PRINTED_DOTS = 250;

    private final WindowModel model;
    private final JobSlot layout;
    private final JobSlot printing;
    private final JobSlot exporting;

    /** What notes are about that belong to the sheet. */
    private final List<Object> own;

    private final ObjectProperty<SheetPage.Paper> paper =
            new SimpleObjectProperty<>(SheetPage.Paper.A4);
    private final ObjectProperty<List<BufferedImage>> pages = new SimpleObjectProperty<>(List.of());

    private final LeadsModel leads;
    private final ReadOnlyStringWrapper note = new ReadOnlyStringWrapper("");
    private final ReadOnlyIntegerWrapper changes = new ReadOnlyIntegerWrapper(0);
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper();
    private final ReadOnlyStringWrapper doing = new ReadOnlyStringWrapper("");
    private Runnable shown = () -> {};
    private boolean stopped;

    /** Weak, so that a closed sheet is not kept by the window's model. */
    private final InvalidationListener changed = p -> changed();

    private final ListChangeListener<Note> notes = this::noted;

    SheetModel(WindowModel model) {
        this.model = model;
        // Each of its own, so that none stops another, nor takes its notes away.
        this.layout = new JobSlot(model.jobs(), this);
        Object print = new Object();
        Object export = new Object();
        this.printing = new JobSlot(model.jobs(), print);
        this.exporting = new JobSlot(model.jobs(), export);
        this.own = List.of(this, print, export);
        model.notes().all().addListener(new WeakListChangeListener<>(notes));
        busy.bind(layout.busyProperty().or(printing.busyProperty()).or(exporting.busyProperty()));
        doing.bind(
                Bindings.when(exporting.busyProperty())
                        .then(exporting.messageProperty())
                        .otherwise(
                                Bindings.when(printing.busyProperty())
                                        .then(printing.messageProperty())
                                        .otherwise(layout.messageProperty())));
        this.leads = new LeadsModel(model);
        model.keptProperty().addListener(new WeakInvalidationListener(changed));
        model.leadMetresProperty().addListener(new WeakInvalidationListener(changed));
    }

    private void changed() {
        if (!stopped) {
            note.set("");
            refresh();
            shown.run();
            changes.set(changes.get() + 1);
        }
    }

    /** What is to run when the kept changes or their leads have changed. */
    void whenChanged(Runnable then) {
        shown = then;
    }

    /** The leads on the sheet's lines. */
    LeadsModel leads() {
        return leads;
    }

    /** Undoes the last step of the window if it changed a lead, and says so. */
    void undo() {
        step(model.history().nextUndoProperty().get(), model::undo, "Undone: ", "undo");
    }

    /** Redoes the step that was undone last if it changed a lead, and says so. */
    void redo() {
        step(model.history().nextRedoProperty().get(), model::redo, "Redone: ", "redo");
    }

    /** What cannot be seen in the sheet is not undone from there. */
    private void step(Optional<String> next, Runnable work, String done, String verb) {
        if (next.isEmpty()) {
            note.set("There is nothing to " + verb + ".");
        } else if (LeadsModel.isChange(next.get())) {
            work.run();
            note.set(done + next.get() + ".");
        } else {
            note.set(
                    "The next step to "
                            + verb
                            + " is "
                            + next.get()
                            + ", which changes no lead: "
                            + verb
                            + " it in the main window.");
        }
    }

    /** What was done last in the sheet, or why it was not; empty for nothing. */
    ReadOnlyStringProperty noteProperty() {
        return note.getReadOnlyProperty();
    }

    /** How often what is kept, or the length of the leads, has changed since the sheet was made. */
    ReadOnlyIntegerProperty changesProperty() {
        return changes.getReadOnlyProperty();
    }

    private record Sheet(BenchSheet sheet, Design after, String made) {}

    /** The data of a sheet at one moment. */
    private record Parts(KeptChanges kept, Design after, double leadMetres) {
        Sheet toSheet() {
            ExternalLineDelay external = ExternalLineDelay.USUAL.withMetres(leadMetres);
            return new Sheet(
                    BenchSheet.of(
                            kept.original(), kept.toLedger(), after, external, Instrument.UNKNOWN),
                    after,
                    LocalDate.now().toString());
        }
    }

    /** None while nothing is kept. */
    private Optional<Parts> parts() {
        Optional<KeptChanges> kept = model.keptProperty().get().filter(d -> !d.entries().isEmpty());
        return kept.map(d -> new Parts(d, d.design(), model.leadMetresProperty().get()));
    }

    /** Makes the pages again. */
    void refresh() {
        SheetPage.Paper size = paper.get();
        Optional<Parts> parts = parts();
        layout.start(
                "Laying out the bench sheet",
                progress ->
                        parts.isPresent()
                                ? images(parts.get().toSheet(), size, DOTS_PER_INCH, progress)
                                : List.of(),
                (List<BufferedImage> made) -> pages.set(List.copyOf(made)));
    }

    /**
     * Makes the pages fine enough for a printer.
     *
     * @param then gets them, and the paper that they are laid out for
     */
    void forPrinter(BiConsumer<List<BufferedImage>, SheetPage.Paper> then) {
        note.set("");
        SheetPage.Paper size = paper.get();
        Optional<Parts> parts = parts();
        if (parts.isEmpty()) {
            note.set("Nothing to print: keep a what-if first (Ctrl+K).");
            return;
        }
        printing.start(
                "Preparing the bench sheet for the printer",
                progress -> images(parts.get().toSheet(), size, PRINTED_DOTS, progress),
                (List<BufferedImage> made) -> then.accept(made, size));
    }

    /** Says something in the sheet, which hides the notes of the main window. */
    void say(String text) {
        note.set(text);
    }

    /** Faults of its own work are notes in the main window; the sheet shows them too. */
    private void noted(ListChangeListener.Change<? extends Note> change) {
        while (change.next()) {
            change.getAddedSubList().stream()
                    .filter(n -> own.contains(n.about()))
                    .findFirst()
                    .ifPresent(n -> note.set(n.text()));
        }
    }

    /** Stops what is made to be looked at, when nobody looks any more; an export goes on. */
    void stop() {
        stopped = true;
        layout.cancel();
        printing.cancel();
    }

    private static List<BufferedImage> images(
            Sheet sheet, SheetPage.Paper size, float dots, Progress progress) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        SheetPdf.write(sheet.sheet(), sheet.after(), sheet.made(), size, bytes);
        List<BufferedImage> images = new ArrayList<>();
        try (PDDocument pdf = Loader.loadPDF(bytes.toByteArray())) {
            PDFRenderer renderer = new PDFRenderer(pdf);
            for (int i = 0; i < pdf.getNumberOfPages() && !progress.cancelled(); i++) {
                images.add(renderer.renderImageWithDPI(i, dots));
            }
        }
        return images;
    }

    /** Writes the sheet, the delays or the list of changes, according to the file name. */
    void export(Path file) {
        Optional<Parts> parts = parts();
        Optional<Path> design = model.design().fileProperty().get();
        SheetPage.Paper size = paper.get();
        exporting.start(
                "Writing " + file.getFileName(),
                progress -> {
                    Parts from = parts.orElseThrow(() -> fault(file, "a kept change", "none"));
                    write(file, from.toSheet(), size, from.kept(), design);
                    return file;
                },
                written -> {
                    note.set("Saved " + written + ".");
                    model.notes().done("Saved " + written + ".");
                });
    }

    private static void write(
            Path file, Sheet sheet, SheetPage.Paper size, KeptChanges kept, Optional<Path> design)
            throws BadInput {
        String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        if (name.endsWith(".pdf")) {
            WholeFile.write(
                    file,
                    out -> SheetPdf.write(sheet.sheet(), sheet.after(), sheet.made(), size, out));
        } else if (name.endsWith(".html")) {
            WholeFile.writeText(
                    file, SheetPage.html(sheet.sheet(), sheet.after(), sheet.made(), size));
        } else if (name.endsWith(".csv")) {
            WholeFile.writeText(file, SheetCsv.of(sheet.sheet()));
        } else if (name.endsWith(".sdf")) {
            WholeFile.writeText(file, SdfText.of(sheet.sheet(), sheet.after()));
        } else if (name.endsWith(".json") && design.isPresent()) {
            Ledger ledger =
                    new Ledger(
                            design.get().getFileName().toString(),
                            Digest.of(design.get()),
                            kept.entries());
            WholeFile.writeText(file, ChangeListText.json(ChangeList.of(kept.original(), ledger)));
        } else {
            throw fault(
                    file,
                    "a name that ends in .pdf, .html, .csv, .sdf, or .json for the list of changes"
                            + " to a design's file",
                    name);
        }
    }

    private static BadInput fault(Path file, String expected, String found) {
        return new BadInput(file.toString(), "", expected, found);
    }

    /** Paper size. */
    ObjectProperty<SheetPage.Paper> paperProperty() {
        return paper;
    }

    /** Length of the leads to the instrument, metres. */
    ObjectProperty<Double> leadMetresProperty() {
        return model.leadMetresProperty();
    }

    /** The pages as pictures; none when nothing is kept. */
    ReadOnlyObjectProperty<List<BufferedImage>> pagesProperty() {
        return pages;
    }

    /** What is being done with the sheet, while it is. */
    ReadOnlyStringProperty doingProperty() {
        return doing.getReadOnlyProperty();
    }

    /** Whether the sheet is being made or written. */
    ReadOnlyBooleanProperty busyProperty() {
        return busy.getReadOnlyProperty();
    }
}
