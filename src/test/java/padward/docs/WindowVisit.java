package padward.docs;

import java.util.Optional;
import java.util.concurrent.FutureTask;
import javafx.application.Platform;
import javafx.stage.Stage;
import javafx.stage.Window;
import javafx.stage.WindowEvent;
import padward.Main;

/**
 * Starts the program with the arguments given, and asks its window to close as soon as it shows
 * something. It uses nothing that only tests have, so that it runs with any Java that has the
 * program.
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
            for (int round = 0; round < ROUNDS; round++) {
                Thread.sleep(100);
                if (isClosed()) {
                    return;
                }
            }
            System.out.println("no window");
            System.exit(9);
        } catch (Exception fault) {
            System.out.println("no window: " + fault);
            System.exit(9);
        }
    }

    private static boolean isClosed() throws Exception {
        FutureTask<Boolean> task = new FutureTask<>(WindowVisit::close);
        try {
            Platform.runLater(task);
        } catch (IllegalStateException beforeTheToolkit) {
            return false;
        }
        return task.get();
    }

    private static boolean close() {
        Optional<Stage> stage =
                Window.getWindows().stream()
                        .filter(Stage.class::isInstance)
                        .map(Stage.class::cast)
                        .filter(s -> s.isShowing() && s.getScene() != null)
                        .findFirst();
        stage.ifPresent(
                s -> {
                    System.out.println("window: " + s.getTitle());
                    s.fireEvent(new WindowEvent(s, WindowEvent.WINDOW_CLOSE_REQUEST));
                });
        return stage.isPresent();
    }
}
