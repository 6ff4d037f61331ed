package padward.format.design;

import java.nio.file.Path;
import java.util.function.Consumer;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.json.FileHeader;
import padward.format.source.Source;

/**
 * Reads designs from JSON files, with the fabric and the board that they name. What it returns is
 * checked: each wire has one net, each route is a tree over existing switches, each cell is on a
 * site that accepts it.
 */
public final class DesignReader {
    private DesignReader() {}

    /**
     * Reads a design.
     *
     * @throws BadInput when this file, or one that it names, cannot be read or has a fault
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static Design read(Path file, Progress progress) throws BadInput {
        return read(Source.of(file), progress);
    }

    /** As {@link #read(Path, Progress)}, from any source. */
    public static Design read(Source source, Progress progress) throws BadInput {
        return read(source, fabric -> {}, progress);
    }

    /**
     * As {@link #read(Path, Progress)}, from any source.
     *
     * @param onFabric told of the fabric once that is read, before most of the design is
     */
    public static Design read(Source source, Consumer<Fabric> onFabric, Progress progress)
            throws BadInput {
        FileHeader.expect(source, FileHeader.DESIGN);
        return new DesignForm(source, onFabric, progress).form().read(source, progress).design();
    }

    /** The text of the JSON Schema of designs. */
    public static String schema() {
        return new DesignForm(new Source.OfText("", ""), fabric -> {}, Progress.NONE)
                .form()
                .schema()
                .toFile("Padward design");
    }
}
