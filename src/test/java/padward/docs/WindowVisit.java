package padward.docs;

import com.sun.javafx.print.PrintHelper;
import com.sun.prism.j2d.print.J2DPrinter;
import java.io.OutputStream;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.FutureTask;
import javafx.application.Platform;
import javafx.print.Printer;
import javafx.print.PrinterJob;
import javafx.scene.Parent;
import javafx.scene.control.Label;
import javafx.stage.Stage;
import javafx.stage.Window;
import javafx.stage.WindowEvent;
import javax.print.DocFlavor;
import javax.print.StreamPrintServiceFactory;
import padward.Main;
import padward.ui.control.Action;
import padward.ui.export.Exports;

/**
 * Starts the program with the arguments given, and asks its window to close as soon as it shows
 * something; before that, where {@code visit.folder} names a folder, it saves the map there as PNG
 * and SVG, and prints to a file. It uses nothing that only tests have, so that it runs with any
 * Java that has the program.
 */
public final class WindowVisit {
    private static final int ROUNDS = 600;

    private WindowVisit() {}

    /** Prints the window's title when it is there; the program ends the process. */
    public static void main(String[] arguments) {
        Thread visitor = new Thread(WindowVisit::visit);
        visitor.setDaemon(true);
        visitor.start();
        Main.main(arguments);
    }

    private static void visit() {
        try {
            Stage stage = await(WindowVisit::findStage);
            String folder = System.getProperty("visit.folder", "");
            if (!folder.isEmpty()) {
                save(stage, Path.of(folder));
                print(Path.of(folder).resolve("page.ps"));
            }
            onScreen(
                    () -> {
                        System.out.println("window: " + stage.getTitle());
                        stage.fireEvent(new WindowEvent(stage, WindowEvent.WINDOW_CLOSE_REQUEST));
                        return stage;
                    });
        } catch (Throwable fault) {
            System.out.println("no window: " + fault);
            fault.printStackTrace();
            System.exit(9);
        }
    }

    private static Optional<Stage> findStage() {
        return Window.getWindows().stream()
                .filter(Stage.class::isInstance)
                .map(Stage.class::cast)
                .filter(s -> s.isShowing() && s.getScene() != null)
                .findFirst();
    }

    /** Asks again and again, on the UI thread, until there is something. */
    private static <T> T await(Callable<Optional<T>> question) throws Exception {
        for (int round = 0; round < ROUNDS; round++) {
            Thread.sleep(100);
            Optional<T> answer = Optional.empty();
            try {
                answer = onScreen(question);
            } catch (IllegalStateException beforeTheToolkit) {
                continue;
            }
            if (answer.isPresent()) {
                return answer.get();
            }
        }
        throw new IllegalStateException("nothing came in a minute");
    }

    private static <T> T onScreen(Callable<T> work) throws Exception {
        FutureTask<T> task = new FutureTask<>(work);
        Platform.runLater(task);
        return task.get();
    }

    private static void save(Stage stage, Path folder) throws Exception {
        Parent view =
                await(
                        () ->
                                Optional.of(stage.getScene().getRoot())
                                        .filter(r -> r.getClass().getName().endsWith(".MainView")));
        Method parts = view.getClass().getDeclaredMethod("exports");
        parts.setAccessible(true);
        Exports exports = (Exports) parts.invoke(view);
        for (String name : List.of("map.png", "map.svg")) {
            Action action =
                    exports.actions().stream()
                            .filter(a -> a.id().equals("save-" + name.replace('.', '-')))
                            .findFirst()
                            .orElseThrow();
            await(() -> Optional.of(action).filter(a -> a.possible().get()));
            onScreen(
                    () -> {
                        exports.setDialog((title, usual) -> Optional.of(folder.resolve(name)));
                        action.run();
                        return name;
                    });
            await(() -> Optional.of(folder.resolve(name)).filter(Files::exists));
        }
    }

    /** On a printer that writes PostScript to a file: there may be no other. */
    private static void print(Path file) throws Exception {
        System.out.println("printers: " + onScreen(() -> Printer.getAllPrinters().size()));
        try (OutputStream out = Files.newOutputStream(file)) {
            StreamPrintServiceFactory[] kinds =
                    StreamPrintServiceFactory.lookupStreamPrintServiceFactories(
                            DocFlavor.SERVICE_FORMATTED.PAGEABLE, "application/postscript");
            Printer printer =
                    PrintHelper.createPrinter(new J2DPrinter(kinds[0].getPrintService(out)));
            boolean printed =
                    onScreen(
                            () -> {
                                PrinterJob job = PrinterJob.createPrinterJob(printer);
                                return job.printPage(new Label("printed")) && job.endJob();
                            });
            await(() -> Optional.of(file).filter(f -> f.toFile().length() > 0)); // in its own time
            System.out.println("printed: " + printed);
        }
    }
}
