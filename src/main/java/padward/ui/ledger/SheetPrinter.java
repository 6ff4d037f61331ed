package padward.ui.ledger;

import java.awt.GraphicsEnvironment;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.Optional;
import java.util.ServiceConfigurationError;
import java.util.function.Predicate;
import java.util.function.Supplier;
import javafx.embed.swing.SwingFXUtils;
import javafx.print.PageLayout;
import javafx.print.PageOrientation;
import javafx.print.Paper;
import javafx.print.Printer;
import javafx.print.PrinterJob;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.ChoiceDialog;
import javafx.scene.image.ImageView;
import javafx.stage.Window;
import padward.handover.SheetPage;
import padward.ui.control.Themes;

/**
 * Prints the pages of a bench sheet on a printer that the user chooses, and says what came of it.
 */
final class SheetPrinter {
    private SheetPrinter() {}

    /**
     * Asks for a printer and prints.
     *
     * @param size the paper that the pages were laid out for
     * @return what was done, or why not, as a sentence
     */
    static String print(List<BufferedImage> pages, SheetPage.Paper size, Window owner) {
        return orWhyNot(() -> ask(pages, size, owner));
    }

    /** Also where this computer's printing cannot be used at all, which Java states by an error. */
    static String orWhyNot(Supplier<String> printing) {
        try {
            return printing.get();
        } catch (RuntimeException | ServiceConfigurationError | LinkageError fault) {
            return "Printing does not work on this computer ("
                    + fault
                    + "). Export the bench sheet as PDF, and print that elsewhere.";
        }
    }

    private static String ask(List<BufferedImage> pages, SheetPage.Paper size, Window owner) {
        PrinterJob job = PrinterJob.createPrinterJob();
        if (job == null) {
            return "No printer is set up on this computer. Export the bench sheet as PDF, and print"
                    + " that elsewhere.";
        }
        if (!isChosen(job, size, owner)) {
            job.cancelJob();
            return "Nothing was printed.";
        }
        PageLayout layout = job.getJobSettings().getPageLayout();
        return send(pages, page -> job.printPage(layout, view(page, layout)), job::endJob);
    }

    /**
     * By the system's dialog. A Java without windows of its own, as in the self-contained
     * application, shows none and would take the first printer: there, by a list of the printers.
     */
    private static boolean isChosen(PrinterJob job, SheetPage.Paper size, Window owner) {
        if (GraphicsEnvironment.isHeadless()) {
            Optional<Printer> chosen = choose(job.getPrinter(), owner);
            chosen.ifPresent(job::setPrinter);
            job.getJobSettings().setPageLayout(layout(job.getPrinter(), size));
            return chosen.isPresent();
        }
        job.getJobSettings().setPageLayout(layout(job.getPrinter(), size));
        return job.showPrintDialog(owner);
    }

    private static Optional<Printer> choose(Printer usual, Window owner) {
        List<Printer> all = List.copyOf(Printer.getAllPrinters());
        List<String> names = all.stream().map(Printer::getName).sorted().toList();
        return dialog(names, usual.getName(), owner)
                .showAndWait()
                .flatMap(n -> all.stream().filter(p -> p.getName().equals(n)).findFirst());
    }

    /** Asks for one of the printers. */
    static ChoiceDialog<String> dialog(List<String> names, String usual, Window owner) {
        ChoiceDialog<String> dialog = new ChoiceDialog<>(usual, names);
        dialog.setTitle("Print the bench sheet");
        dialog.setHeaderText(null);
        dialog.setContentText("Printer");
        dialog.getDialogPane()
                .getButtonTypes()
                .setAll(
                        new ButtonType("Print", ButtonBar.ButtonData.OK_DONE),
                        new ButtonType("Cancel", ButtonBar.ButtonData.CANCEL_CLOSE));
        dialog.initOwner(owner);
        Themes.dress(dialog.getDialogPane(), owner.getScene().getRoot());
        dialog.getDialogPane().setId("printers");
        return dialog;
    }

    private static PageLayout layout(Printer printer, SheetPage.Paper size) {
        Paper paper =
                switch (size) {
                    case A4 -> Paper.A4;
                    case LETTER -> Paper.NA_LETTER;
                };
        return printer.createPageLayout(
                paper, PageOrientation.PORTRAIT, Printer.MarginType.HARDWARE_MINIMUM);
    }

    private static ImageView view(BufferedImage page, PageLayout layout) {
        ImageView view = new ImageView(SwingFXUtils.toFXImage(page, null));
        view.setPreserveRatio(true);
        view.setFitWidth(layout.getPrintableWidth());
        view.setFitHeight(layout.getPrintableHeight());
        return view;
    }

    /** The end of a print job; says whether the printer has taken it. */
    interface End {
        boolean isTaken();
    }

    /**
     * Sends the pages up to the first that the printer refuses.
     *
     * @param page sends one, and says whether it was taken
     * @param end ends the job, also when a page was refused
     */
    static String send(List<BufferedImage> pages, Predicate<BufferedImage> page, End end) {
        int sent = 0;
        while (sent < pages.size() && page.test(pages.get(sent))) {
            sent++;
        }
        boolean ended = end.isTaken();
        if (sent < pages.size()) {
            return "The printer refused page "
                    + (sent + 1)
                    + " of "
                    + pages.size()
                    + ". Look at the printer, then print again.";
        }
        if (!ended) {
            return "The printer did not take the bench sheet. Look at the printer, then print"
                    + " again.";
        }
        return pages.size() == 1
                ? "Sent 1 page to the printer."
                : "Sent " + pages.size() + " pages to the printer.";
    }
}
