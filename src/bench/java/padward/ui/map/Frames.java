package padward.ui.map;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.SnapshotParameters;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.StackPane;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.work.BackgroundWork;

/**
 * Times frames of the map while it pans, at each level of zoom: painting on the canvas and its
 * rendering, by taking a snapshot of it. Run under the software pipeline:
 *
 * <pre>mvn -q -Pbench test-compile exec:exec@frames [-Dframes.design=FILE]</pre>
 */
public final class Frames {
    private static final int FRAMES = 200;
    private static final int WARM = 30;
    private static final double WIDTH = 1280;
    private static final double HEIGHT = 720;

    private static final OperatingSystemMXBean MACHINE =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private Frames() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        Path file = Path.of(args.length > 0 ? args[0] : "fixtures/workbench/design.json.gz");
        OpenDesign opened = new OpenDesign(DesignReader.read(file, Progress.NONE));
        CountDownLatch done = new CountDownLatch(1);
        Platform.startup(
                () -> {
                    measure(opened);
                    done.countDown();
                });
        done.await();
        System.exit(0);
    }

    private static void measure(OpenDesign opened) {
        WindowModel model = new WindowModel(BackgroundWork.immediate());
        MapModel shown = new MapModel(model);
        MapView map = new MapView(shown);
        new Scene(new StackPane(map), WIDTH, HEIGHT);
        map.resize(WIDTH, HEIGHT);
        map.layout();
        model.openLesson(progress -> opened.design());
        Design design = opened.design();
        System.out.printf("%,d vertices%n", design.fabric().vertexCount());
        System.out.println("no question:");
        pan(map, design.fabric());
        model.shown().netTextProperty().set(design.nets().get(design.nets().size() / 2).name());
        model.shown().padTextProperty().set(design.fabric().pads().get(0).name());
        model.shown().ask();
        shown.options().toggle(MapLayer.DELAY);
        shown.options().toggle(MapLayer.FRONTIER);
        System.out.println("with an answer and all layers:");
        pan(map, design.fabric());
    }

    /** Median milliseconds of a frame with all tiles in view, and at 26 pixels a tile. */
    public static double[] medians(Design design) throws InterruptedException {
        CountDownLatch done = new CountDownLatch(1);
        double[] result = new double[2];
        Runnable work =
                () -> {
                    WindowModel model = new WindowModel(BackgroundWork.immediate());
                    MapView map = new MapView(new MapModel(model));
                    new Scene(new StackPane(map), WIDTH, HEIGHT);
                    map.resize(WIDTH, HEIGHT);
                    map.layout();
                    model.openLesson(progress -> design);
                    Fabric fabric = design.fabric();
                    double whole = Math.min(WIDTH / fabric.columns(), HEIGHT / fabric.rows());
                    result[0] = frames(map, fabric, whole).part(50);
                    result[1] = frames(map, fabric, 26).part(50);
                    done.countDown();
                };
        try {
            Platform.startup(work);
        } catch (IllegalStateException isRunning) {
            Platform.runLater(work);
        }
        done.await();
        return result;
    }

    /**
     * How long frames took.
     *
     * @param ms milliseconds of each, in rising order
     * @param processor mean milliseconds of processor time of a frame, of all threads together:
     *     what a frame costs also where other programs keep the machine busy
     */
    private record Times(double[] ms, double processor) {
        double part(int percent) {
            return ms[ms.length * percent / 100];
        }
    }

    /** Times frames while the map pans. */
    private static Times frames(MapView map, Fabric fabric, double scale) {
        double[] ms = new double[FRAMES];
        WritableImage image = null;
        long used = 0;
        for (int i = -WARM; i < FRAMES; i++) {
            double x = fabric.columns() / 2.0 + (i + WARM) * 12 / scale;
            double y = fabric.rows() / 2.0 + (i + WARM) * 5 / scale;
            if (i == 0) {
                used = MACHINE.getProcessCpuTime();
            }
            long begin = System.nanoTime();
            map.paintNow(new Viewport(WIDTH, HEIGHT, x, y, scale));
            image = map.snapshot(new SnapshotParameters(), image);
            if (i >= 0) {
                ms[i] = (System.nanoTime() - begin) / 1e6;
            }
        }
        double processor = (MACHINE.getProcessCpuTime() - used) / 1e6 / FRAMES;
        Arrays.sort(ms);
        return new Times(ms, processor);
    }

    private static void pan(MapView map, Fabric fabric) {
        int columns = fabric.columns();
        int rows = fabric.rows();
        double whole = Math.min(WIDTH / columns, HEIGHT / rows);
        for (double scale : new double[] {
            whole, 8, 26, 40, 70, 120, 200, 300, 400, 800, 1300, 2700
        }) {
            if (scale < whole) {
                continue;
            }
            Times times = frames(map, fabric, scale);
            System.out.printf(
                    "  %6.1f pixels a tile: p50 %6.1f  p90 %6.1f  p99 %6.1f ms, processor %6.1f%n",
                    scale, times.part(50), times.part(90), times.part(99), times.processor());
        }
    }
}
