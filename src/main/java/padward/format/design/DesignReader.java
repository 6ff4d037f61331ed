package padward.format.design;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
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
     * @param onFabric told of the fabric once that is read, before most of the design is; told
     *     again where a design's copy turns out not to count, and everything is read anew
     */
    public static Design read(Source source, Consumer<Fabric> onFabric, Progress progress)
            throws BadInput {
        DesignForm.Fabrics fabrics =
                (from, asked) -> {
                    Fabric fabric = FabricReader.read(from, asked);
                    onFabric.accept(fabric);
                    return fabric;
                };
        Optional<DesignCopies> copies = DesignCopies.of(source, fabrics, progress);
        if (copies.isPresent()) {
            Optional<Design> copy = copies.get().find();
            if (copy.isPresent()) {
                return copy.get();
            }
        }
        FileHeader.expect(source, FileHeader.DESIGN);
        return copies.isPresent()
                ? copies.get().read()
                : new DesignForm(source, fabrics, progress).form().read(source, progress).design();
    }

    /**
     * As {@link #read(Source, Progress)}, but neither the design nor its fabric is read from a
     * compact copy, and none is kept.
     */
    public static Design readAnew(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.DESIGN);
        return new DesignForm(source, FabricReader::readAnew, progress)
                .form()
                .read(source, progress)
                .design();
    }

    /** The text of the JSON Schema of designs. */
    public static String schema() {
        return new DesignForm(new Source.OfText("", ""), FabricReader::read, Progress.NONE)
                .form()
                .schema()
                .toFile("Padward design");
    }
}
