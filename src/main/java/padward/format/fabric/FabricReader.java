package padward.format.fabric;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.explicit.ExplicitFabric;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.fabric.pattern.PatternSpec;
import padward.format.compact.FabricCopies;
import padward.format.form.Schema;
import padward.format.json.FileHeader;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Reads fabrics, in both forms, from JSON files; names that end in {@code .gz} are gzip data. Files
 * are read as streams: the fabric is in memory, the text is not.
 */
public final class FabricReader {
    private FabricReader() {}

    /**
     * Reads a fabric.
     *
     * @throws BadInput when the file cannot be read or is not a fabric
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static Fabric read(Path file, Progress progress) throws BadInput {
        return read(Source.of(file), progress);
    }

    /** As {@link #read(Path, Progress)}, from any source. */
    public static Fabric read(Source source, Progress progress) throws BadInput {
        return read(source, FabricCopies.of(source), progress);
    }

    /** As {@link #read(Source, Progress)}, but never from a compact copy, and none is kept. */
    public static Fabric readAnew(Source source, Progress progress) throws BadInput {
        return read(source, Optional.empty(), progress);
    }

    private static Fabric read(Source source, Optional<FabricCopies> copies, Progress progress)
            throws BadInput {
        try {
            if (copies.isPresent()) {
                Optional<ExplicitFabric> copy = copies.get().find(source, progress);
                if (copy.isPresent()) {
                    return copy.get();
                }
            }
            FileHeader head = FileHeader.expect(source, FileHeader.FABRIC);
            return switch (head.form()) {
                case "pattern" -> compile(source, progress);
                case "explicit" ->
                        copies.isPresent()
                                ? copies.get()
                                        .read(source, () -> listed(source, progress), progress)
                                : listed(source, progress);
                default ->
                        throw new BadInput(
                                source.label(),
                                "$.form",
                                "pattern or explicit",
                                head.form().isEmpty() ? "none" : Text.quote(head.form()));
            };
        } catch (OutOfMemoryError e) {
            // a file of a hundred bytes can state a grid of 10^8 tiles; the user can act on this
            throw new BadInput(
                    source.label(),
                    "",
                    "a fabric that fits into " + (Runtime.getRuntime().maxMemory() >> 20) + " MiB",
                    "a larger one");
        }
    }

    private static ExplicitFabric listed(Source source, Progress progress) throws BadInput {
        return new ExplicitForm().read(source, progress);
    }

    /** Reads a pattern as its records, before any graph is made of it. */
    public static PatternSpec readPattern(Source source, Progress progress) throws BadInput {
        FileHeader head = FileHeader.expect(source, FileHeader.FABRIC);
        if (!head.form().equals("pattern")) {
            throw new BadInput(source.label(), "$.form", "\"pattern\"", Text.quote(head.form()));
        }
        return new PatternForm().form().read(source, progress);
    }

    private static Fabric compile(Source source, Progress progress) throws BadInput {
        PatternSpec spec = new PatternForm().form().read(source, progress);
        try {
            return PatternFabric.compile(spec, progress);
        } catch (PatternFault e) {
            throw new BadInput(source.label(), e.place(), e.expected(), e.found());
        }
    }

    /** The text of the JSON Schema of both forms. */
    public static String schema() {
        return Schema.oneOf(
                        List.of(
                                new PatternForm().form().schema(),
                                new ExplicitForm().form().schema()))
                .toFile("Padward fabric, pattern or explicit");
    }
}
